"""What general means make of a cutting problem: first fit, a packer of rectangles, and models for CP-SAT.

Each gives a price, or None where it found no plan, cannot take the problem, or is not installed.
"""

from __future__ import annotations

import threading
import time
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

Problem = dict[str, Any]

#: A rectangle or a room: left, low, right, high, in tenths of the problem's unit, the kerf right of and above a piece.
Rectangle = tuple[int, int, int, int]

#: More parts than this make a model of three stages that CP-SAT does not fill in any useful time.
MOST_PARTS = 90


@dataclass(frozen=True)
class Rival:
    """A plan's price; `stages` where its layout was looked at."""

    cost: int | None
    stages: int | None = None


@dataclass(frozen=True)
class Trials:
    """The plans that a model found one after the other: seconds of the processor from its start, and the price."""

    finds: tuple[tuple[float, int], ...] = ()

    def by(self, seconds: float) -> int | None:
        """The least price that was found within so many seconds."""
        return min((cost for when, cost in self.finds if when <= seconds), default=None)


def tenths(length: Any) -> int:
    return round(float(length) * 10)


def rooms(problem: Problem) -> list[tuple[int, int]]:
    kerf, trim = tenths(problem["kerf"]), tenths(problem["trim"])
    return [
        (tenths(width) - 2 * trim + kerf, tenths(height) - 2 * trim + kerf)
        for width, height, _, _ in problem["sheets"]
    ]


def by_price(problem: Problem) -> list[int]:
    """Places of the sheets: those on hand first, then the cheapest for its area."""
    sheets = problem["sheets"]
    return sorted(
        range(len(sheets)), key=lambda s: (sheets[s][3] is None, sheets[s][2] / (sheets[s][0] * sheets[s][1]))
    )


def first_fit_bars(problem: Problem) -> Rival:
    """First-fit decreasing; off-cuts first, then the stock with the lowest price a length that holds the piece."""
    kerf, trim = problem["kerf"], problem["trim"]
    stock = [(length - 2 * trim + kerf, price, limit) for length, price, limit in problem["stock"]]
    left = {index: limit for index, (_, _, limit) in enumerate(stock)}
    room: list[int] = []
    cost = 0
    for length in sorted((size for size, count in problem["pieces"] for _ in range(count)), reverse=True):
        place = next((at for at, rest in enumerate(room) if rest >= length + kerf), None)
        if place is None:
            usable = [
                (limit is None, price / capacity, index)
                for index, (capacity, price, limit) in enumerate(stock)
                if capacity >= length + kerf and left[index] != 0
            ]
            if not usable:
                return Rival(None)
            index = min(usable)[2]
            if left[index] is not None:
                left[index] -= 1
            cost += stock[index][1]
            place = len(room)
            room.append(stock[index][0])
        room[place] -= length + kerf
    return Rival(cost)


def first_fit_sheets(problem: Problem) -> Rival:
    """First-fit decreasing height on shelves, pieces as they lie; sheets on hand first, then the cheapest."""
    kerf, sizes = tenths(problem["kerf"]), rooms(problem)
    pieces = [
        (tenths(high) + kerf, tenths(wide) + kerf)
        for wide, high, count, _ in problem["pieces"]
        for _ in range(count)
    ]
    left = [limit for *_, limit in problem["sheets"]]
    opened: list[tuple[int, list[list[int]]]] = []  # stock, shelves: height, width left
    cost = 0
    for tall, broad in sorted(pieces, reverse=True):
        for stock, shelves in opened:
            wide, high = sizes[stock]
            shelf = next((s for s in shelves if s[0] >= tall and s[1] >= broad), None)
            if shelf is None and wide >= broad and sum(s[0] for s in shelves) + tall <= high:
                shelf = [tall, wide]
                shelves.append(shelf)
            if shelf is not None:
                shelf[1] -= broad
                break
        else:
            fits = [
                s for s in by_price(problem) if left[s] != 0 and sizes[s][0] >= broad and sizes[s][1] >= tall
            ]
            if not fits:
                return Rival(None)
            number = left[fits[0]]
            left[fits[0]] = None if number is None else number - 1
            cost += problem["sheets"][fits[0]][2]
            opened.append((fits[0], [[tall, sizes[fits[0]][0] - broad]]))
    return Rival(cost)


def packed_sheets(problem: Problem) -> Rival:
    """The best of all guillotine settings of rectpack. Pieces turn where all may."""
    try:
        import rectpack  # type: ignore[import-untyped]
        from rectpack import guillotine  # type: ignore[import-untyped]
    except ImportError:
        return Rival(None)
    kerf, sizes = tenths(problem["kerf"]), rooms(problem)
    turns = all(turns for *_, turns in problem["pieces"])
    names = [
        f"Guillotine{fit}{rule}"
        for fit in ("Baf", "Bssf", "Blsf")
        for rule in ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
    ]
    sorts = ["AREA", "PERI", "DIFF", "SSIDE", "LSIDE", "RATIO", "NONE"]
    total = sum(count for *_, count, _ in problem["pieces"])
    best = Rival(None)
    for name in names:
        for order in sorts:
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline,
                bin_algo=rectpack.PackingBin.BBF,
                pack_algo=getattr(guillotine, name),
                sort_algo=getattr(rectpack, f"SORT_{order}"),
                rotation=turns,
            )
            for w, h, count, _ in problem["pieces"]:
                for _ in range(count):
                    packer.add_rect(tenths(w) + kerf, tenths(h) + kerf)
            for stock in by_price(problem):
                packer.add_bin(*sizes[stock], count=problem["sheets"][stock][3] or total, bid=stock)
            packer.pack()
            if sum(len(sheet) for sheet in packer) < total:
                continue
            cost = sum(problem["sheets"][sheet.bid][2] for sheet in packer)
            layouts = [
                (
                    [(r.x, r.y, r.x + r.width, r.y + r.height) for r in sheet],
                    (0, 0, sheet.width, sheet.height),
                )
                for sheet in packer
            ]
            number = max(min(stages(*layout, axis) for axis in (0, 1)) for layout in layouts)
            if best.cost is None or (cost, number) < (best.cost, best.stages):
                best = Rival(cost, stages=number)
    return best


def stages(rectangles: Sequence[Rectangle], room: Rectangle, axis: int) -> int:
    """How many runs of cuts free all rectangles, the first across an axis; large where that cannot be done."""
    if len(rectangles) == 1 and rectangles[0] == room:
        return 0
    parts: list[list[Rectangle]] = []
    reach = -1
    for each in sorted(rectangles, key=lambda rectangle: rectangle[axis]):
        if each[axis] >= reach:
            parts.append([])
        parts[-1].append(each)
        reach = max(reach, each[axis + 2])
    most = 0
    for part in parts:
        own = list(room)
        own[axis], own[axis + 2] = min(r[axis] for r in part), max(r[axis + 2] for r in part)
        same = tuple(own) == room
        if same and len(part) > 1 and _whole(part, room, 1 - axis):
            return 1_000
        most = max(most, (0 if same else 1) + stages(part, (own[0], own[1], own[2], own[3]), 1 - axis))
    return most


def _whole(rectangles: Sequence[Rectangle], room: Rectangle, axis: int) -> bool:
    """Whether no cut across an axis divides the room."""
    reach = room[axis]
    for place, each in enumerate(sorted(rectangles, key=lambda rectangle: rectangle[axis])):
        if each[axis] >= reach and place:
            return False
        reach = max(reach, each[axis + 2])
    return min(r[axis] for r in rectangles) == room[axis] and reach == room[axis + 2]


def solved(model: Any, seconds: float, enough: float | None) -> Trials:
    """What CP-SAT finds in so many seconds of the processor, with one worker; it ends at a plan of cost `enough`."""
    from ortools.sat.python import cp_model

    judge = cp_model.CpSolver()
    judge.parameters.num_workers = 1
    judge.parameters.random_seed = 0
    finds: list[tuple[float, int]] = []
    over = threading.Event()

    class Found(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            finds.append((time.process_time() - began, round(self.objective_value)))
            if enough is not None and finds[-1][1] <= enough:
                self.stop_search()

    def watch() -> None:
        while not over.wait(0.02):
            if time.process_time() - began > seconds:
                judge.stop_search()

    watcher = threading.Thread(target=watch)
    began = time.process_time()
    watcher.start()
    judge.solve(model, Found())
    over.set()
    watcher.join()
    return Trials(tuple(finds))


def modelled_bars(problem: Problem, seconds: float, enough: float | None = None) -> Trials:
    """Bars by CP-SAT: how many of each piece on each bar that first fit may need, bars of one length in order."""
    from ortools.sat.python import cp_model

    kerf, trim = problem["kerf"], problem["trim"]
    model, price = cp_model.CpModel(), []
    made: list[list[Any]] = [[] for _ in problem["pieces"]]
    for length, cost, limit in problem["stock"]:
        room, before = length - 2 * trim + kerf, None
        most = first_fit_bars({**problem, "stock": [[length, 1, None]]}).cost
        if most is None:
            most = sum(count for _, count in problem["pieces"])
        for _ in range(most if limit is None else min(limit, most)):
            used = model.new_bool_var("")
            held = []
            for place, (size, count) in enumerate(problem["pieces"]):
                number = model.new_int_var(0, min(count, room // (size + kerf)), "")
                made[place].append(number)
                held.append((size + kerf) * number)
            model.add(sum(held) <= room * used)
            if before is not None:
                model.add_implication(used, before)
            before = used
            price.append(cost * used)
    for (_, count), numbers in zip(problem["pieces"], made, strict=True):
        model.add(sum(numbers) == count)
    model.minimize(sum(price))
    return solved(model, seconds, enough)


class StageModel:
    """Sheets in three stages for CP-SAT, after Puchinger & Raidl (2007): a piece leads a column, a column a strip.

    A piece has two nodes, its width along the strip or its height; one of them is used. Of pieces in a column all have
    one width; the first column of a strip is the highest.
    """

    def __init__(self, problem: Problem, cp_model: Any) -> None:
        self.model = cp_model.CpModel()
        kerf = tenths(problem["kerf"])
        self.sizes: list[tuple[int, int]] = []
        self.turns: list[bool] = []
        for wide, high, count, turns in problem["pieces"]:
            for _ in range(count):
                side = tenths(wide) + kerf, tenths(high) + kerf
                self.sizes += [side, side[::-1]]
                self.turns += [bool(turns)] * 2
        self.rooms = rooms(problem)
        self.longest = max(max(room) for room in self.rooms)
        self._columns()
        self._strips()
        self._sheets(problem)

    def _switch(self) -> Any:
        return self.model.new_bool_var("")

    def _columns(self) -> None:
        """`leads[u]`: a column begins with node u; `lies[u]` whether its sheet has strips that stand."""
        model, nodes = self.model, range(len(self.sizes))
        self.leads = {u: self._switch() for u in nodes if max(self.sizes[u]) <= self.longest}
        self.lies = {u: self._switch() for u in self.leads}
        inside: dict[int, list[tuple[int, Any]]] = defaultdict(list)
        placed: dict[int, list[Any]] = defaultdict(list)
        for u in self.leads:
            placed[u // 2].append(self.leads[u])
            if not self.turns[u]:
                model.add(self.lies[u] == u % 2).only_enforce_if(self.leads[u])
            for v in self.leads:
                order = (self.sizes[u][1], -u) > (self.sizes[v][1], -v)
                if u // 2 != v // 2 and order and self.sizes[u][0] == self.sizes[v][0]:
                    joined = self._switch()
                    model.add_implication(joined, self.leads[u])
                    if not self.turns[v]:
                        model.add(self.lies[u] == v % 2).only_enforce_if(joined)
                    inside[u].append((v, joined))
                    placed[v // 2].append(joined)
        for own in placed.values():
            model.add_exactly_one(own)
        self.high = {
            u: self.sizes[u][1] * self.leads[u] + sum(self.sizes[v][1] * joined for v, joined in inside[u])
            for u in self.leads
        }

    def _strips(self) -> None:
        """`first[t]`: the strip begins with column t; the others of it are no higher."""
        model = self.model
        self.first = {t: self._switch() for t in self.leads}
        self.long: dict[int, Any] = {}
        joins: dict[int, list[Any]] = {u: [self.first[u]] for u in self.leads}
        for t in self.leads:
            model.add_implication(self.first[t], self.leads[t])
            total = self.sizes[t][0] * self.first[t]
            for u in self.leads:
                if u // 2 != t // 2 and self.sizes[u][0] + self.sizes[t][0] <= self.longest:
                    joined = self._switch()
                    model.add_implication(joined, self.first[t])
                    model.add(self.high[u] <= self.high[t]).only_enforce_if(joined)
                    model.add(self.lies[u] == self.lies[t]).only_enforce_if(joined)
                    total += self.sizes[u][0] * joined
                    joins[u].append(joined)
            self.long[t] = total
        for u, own in joins.items():
            model.add(sum(own) == self.leads[u])

    def _sheets(self, problem: Problem) -> None:
        model, price = self.model, []
        on: dict[int, list[Any]] = defaultdict(list)
        for stock, stands in _sheets_at_most(problem):
            room = self.rooms[stock][:: -1 if stands else 1]
            used, taken = self._switch(), []
            for t in self.leads:
                if self.sizes[t][0] > room[0] or self.sizes[t][1] > room[1]:
                    continue
                lies = self._switch()
                height = model.new_int_var(0, room[1], "")
                model.add_implication(lies, used)
                model.add(self.lies[t] == int(stands)).only_enforce_if(lies)
                model.add(self.long[t] <= room[0]).only_enforce_if(lies)
                model.add(height == self.high[t]).only_enforce_if(lies)
                model.add(height == 0).only_enforce_if(~lies)
                on[t].append(lies)
                taken.append(height)
            model.add(sum(taken) <= room[1] * used)
            price.append((stock, used))
        for t in self.leads:
            model.add(sum(on[t]) == self.first[t])
        for stock, (*_, limit) in enumerate(problem["sheets"]):
            if limit is not None:
                model.add(sum(used for each, used in price if each == stock) <= limit)
        model.minimize(sum(problem["sheets"][stock][2] * used for stock, used in price))


def _sheets_at_most(problem: Problem) -> Iterator[tuple[int, bool]]:
    """Each sheet that a plan may take, with either way to lay its strips."""
    for stock, sheet in enumerate(problem["sheets"]):
        alone = first_fit_sheets({**problem, "sheets": [[*sheet[:2], 1, None]]}).cost
        most = alone if alone is not None else sum(count for *_, count, _ in problem["pieces"])
        for _ in range(most if sheet[3] is None else min(sheet[3], most)):
            yield stock, False
            yield stock, True


def modelled_sheets(problem: Problem, seconds: float, enough: float | None = None) -> Trials:
    """Three stages by CP-SAT; nothing for more parts than the model can take."""
    if sum(count for *_, count, _ in problem["pieces"]) > MOST_PARTS:
        return Trials()
    from ortools.sat.python import cp_model

    return solved(StageModel(problem, cp_model).model, seconds, enough)
