"""Which bodies bar each other's way in a direction, and the groups that can only move as one.

Directional blocking graphs after Wilson and Latombe, "Geometric reasoning about mechanical assembly", 1994 (from
memory); strongly connected components after Tarjan, 1972.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from typing import TypeVar

from generator.calculators.bodies import Body
from generator.calculators.collisions import DIRECTIONS, Direction, obstacles

Node = TypeVar("Node", bound=Hashable)


def blocking_graph(units: Mapping[str, Sequence[Body]], direction: Direction) -> dict[str, tuple[str, ...]]:
    """For each unit (bodies that move as one) the units that it runs into on its way out in a direction."""
    owner = {body.name: name for name, bodies in units.items() for body in bodies}
    others = [body for bodies in units.values() for body in bodies]
    graph = {}
    for name, bodies in units.items():
        found = (owner[body.name] for body in obstacles(bodies, others, direction))
        graph[name] = tuple(unit for unit in dict.fromkeys(found) if unit != name)
    return graph


def strong_groups(graph: Mapping[Node, Sequence[Node]]) -> tuple[tuple[Node, ...], ...]:
    """Strongly connected groups, each after all groups that it leads to. Members keep the graph's order."""
    place = {node: index for index, node in enumerate(graph)}
    number: dict[Node, int] = {}
    low: dict[Node, int] = {}
    stack: list[Node] = []
    groups: list[tuple[Node, ...]] = []
    for root in graph:
        # an explicit stack of (node, its successors yet to look at): benches are deeper than Python's
        # recursion
        work = [(root, iter(graph[root]))] if root not in number else []
        while work:
            node, successors = work[-1]
            if node not in number:
                number[node] = low[node] = len(number)
                stack.append(node)
            following = next(successors, None)
            if following is None:
                work.pop()
                if work:
                    low[work[-1][0]] = min(low[work[-1][0]], low[node])
                if low[node] == number[node]:
                    members = stack[stack.index(node) :]
                    del stack[stack.index(node) :]
                    low.update(dict.fromkeys(members, len(graph)))
                    groups.append(tuple(sorted(members, key=place.__getitem__)))
            elif following not in number:
                work.append((following, iter(graph[following])))
            else:
                low[node] = min(low[node], low[following])
    return tuple(groups)


def removable_groups(
    units: Mapping[str, Sequence[Body]],
) -> tuple[tuple[tuple[str, ...], Direction], ...]:
    """Groups of units that can leave the rest as one, with a direction, the smallest first.

    In the graph of one direction a group that leads to no other has nothing in its way. The whole is no group.
    """
    found: dict[tuple[str, ...], Direction] = {}
    for direction in DIRECTIONS:
        graph = blocking_graph(units, direction)
        for group in strong_groups(graph):
            inside = set(group)
            leaves = all(set(graph[unit]) <= inside for unit in group)
            if leaves and len(group) < len(units):
                found.setdefault(group, direction)
    return tuple(sorted(found.items(), key=lambda each: len(each[0])))
