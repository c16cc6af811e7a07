"""Story sticks: marks from the datum end of the member on which each is used, one stick for a kind of member."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from generator.bench.fillings import FILLINGS
from generator.bench.frames.bars import end_rail_name
from generator.bench.frames.panels import trim_thickness
from generator.bench.model import Bench, Part
from generator.bench.piece import BOLT_HOLES, MORTISES
from generator.bench.place import SIDE_WORDS, SIDES
from generator.bench.role import Role
from generator.figures.joins import join_sticks
from generator.figures.rows.setting_out import Mark, Stick
from generator.geometry import Span


def sticks(bench: Bench) -> tuple[Stick, ...]:
    """One stick for each kind of bar, then one for each set of bays with the same marks."""
    rows = [*_rail_sticks(bench), *_cross_stick(bench), *_post_sticks(bench)]
    rows += _filling_sticks(bench)
    rows += join_sticks(bench)
    return tuple(rows)


def height_rod(bench: Bench) -> Stick:
    """A rod of all heights from the floor, to set out and to check the standing bench by."""
    levels = bench.layout.levels
    up = levels.floor_to_frame
    heights = (
        (up, "frame underside"),
        (up + levels.base_top, "base rail top"),
        (up + levels.end_rail_bottom, f"{end_rail_name(bench.spec)} underside"),
        *((up + at, label) for at, label in _tray_levels(bench)),
        (up + levels.top_rail_bottom, "top rail underside"),
        (up + levels.frame_height, "top rail top, board underside"),
    )
    marks = [Mark(at, label, "edge") for at, label in heights]
    whole = _with_ends(marks, bench.layout.height, "floor", "work surface")
    return Stick("Height rod", "z", "floor", bench.layout.height, whole, "the standing bench, beside a post")


def _tray_levels(bench: Bench) -> list[tuple[Fraction, str]]:
    """Both faces of the tray from the frame's underside; none on a bench without it."""
    levels = bench.layout.levels
    faces = [(levels.tray_bottom, "tray underside"), (levels.tray_top, "tray top")]
    return faces if bench.spec.tray.there else []


def _touching(bars: Iterable[Part], member: Part) -> list[Part]:
    """Bars that end on the side of a member."""
    found = []
    for bar in bars:
        if bar.along != member.along and any(
            bar.shoulders.meets(member.shoulders, bar.along, end) for end in (0, 1)
        ):
            found.append(bar)
    return found


def _edge_marks(member: Part, others: Sequence[Part], label: str) -> list[Mark]:
    """Both edges and the centre of each bar that ends on the member."""
    low = member.shoulders.span(member.along).low
    marks = []
    for bar in others:
        span = bar.box.span(member.along)
        name = label or bar.group
        marks += [
            Mark(span.low - low, f"{name} {_line(bar)}".strip(), "edge"),
            Mark(span.high - low, f"{name} {_line(bar)}".strip(), "edge"),
            Mark(span.middle - low, f"{name} {_line(bar)}".strip(), "centre"),
        ]
    return marks


def _line(bar: Part) -> str:
    return f"P{bar.place.lines[-1]}" if bar.place.lines else ""


def _with_ends(marks: Iterable[Mark], length: Fraction, datum: str, far: str) -> tuple[Mark, ...]:
    """Marks in order with both ends; where several things share a place, posts speak before cross-members."""
    ends = [Mark(Fraction(0), datum, "edge"), Mark(length, far, "edge")]
    best: dict[tuple[Fraction, str], Mark] = {}
    for mark in [*ends, *marks]:
        best.setdefault((mark.at, mark.kind), mark)
    return tuple(sorted(best.values(), key=lambda mark: (mark.at, mark.kind)))


def _rail_sticks(bench: Bench) -> list[Stick]:
    bars = [part for part in bench.parts if part.is_bar and part.role is not Role.EXTRA_MEMBER]
    sticks = []
    for side in SIDES:
        rails = [bar for bar in bars if bar.role is Role.LONG_RAIL and bar.place.side == side]
        base = max(rails, key=lambda rail: rail.length)
        parted = [rail for rail in rails if rail.place.lines]
        touching = [bar for rail in (base, *parted) for bar in _touching(bars, rail) if bar not in rails]
        posts = [bar for bar in touching if bar.along == "z"]
        others = [bar for bar in touching if bar.along != "z"]
        marks = _edge_marks(base, posts, "post") + _edge_marks(base, others, "cross-member")
        marks += [*_joint_marks(bench, (base, *parted)), *_tray_marks(bench, base)]
        sticks.append(
            Stick(
                f"X-{SIDE_WORDS[side]}",
                "x",
                "left end of the rail",
                base.length,
                _with_ends(marks, base.length, "left end", "right end"),
                " and ".join(rail.mark for rail in rails),
            )
        )
    return sticks


def _tray_marks(bench: Bench, rail: Part) -> Iterator[Mark]:
    """The lips of the tray's pieces, over their dividers."""
    low = rail.shoulders.x.low
    for left, right in pairwise(bench.of(Role.TRAY)):
        yield Mark(right.box.x.low - low, f"{right.mark} begins", "edge")
        yield Mark(left.box.x.high - low, f"{left.mark} ends", "edge")


def _cross_stick(bench: Bench) -> list[Stick]:
    bars = [part for part in bench.parts if part.is_bar and part.role is not Role.EXTRA_MEMBER]
    members = [bar for bar in bars if bar.along == "y"]
    base = members[0]
    spine = [bar for bar in bars if bar.place.row is not None and not bar.place.side]
    rows: dict[Span, Part] = {}
    for post in spine:
        rows.setdefault(post.box.y, post)
    marks: list[Mark] = []
    low, length = base.shoulders.y.low, base.shoulders.y.size
    for number, span in enumerate(rows, 1):
        label = "spine post" if len(rows) == 1 else f"spine post, row {number}"
        marks += [
            Mark(span.low - low, label, "edge"),
            Mark(span.high - low, label, "edge"),
            Mark(span.middle - low, label, "centre"),
        ]
    lies_on = f"{members[0].mark} to {members[-1].mark}"
    where = "shoulder" if base.tenons else "end"
    marks_all = _with_ends(marks, length, f"front {where}", f"rear {where}")
    return [Stick("Y-cross-members", "y", f"front {where} of the member", length, marks_all, lies_on)]


def _post_sticks(bench: Bench) -> list[Stick]:
    bars = [part for part in bench.parts if part.is_bar and part.role is not Role.EXTRA_MEMBER]
    sticks = []
    corners = [bar for bar in bars if bar.role is Role.CORNER_POST]
    base = corners[0]
    marks = []
    for bar in _touching(bars, base):
        span, low = bar.box.z, base.box.z.low
        name = "rail" if bar.role is Role.LONG_RAIL else bar.group
        marks += [Mark(span.low - low, name, "edge"), Mark(span.high - low, name, "edge")]
    marks += [*_relief_marks(base), *_joint_marks(bench, (base,))]
    sticks.append(
        Stick(
            "Z-corner post",
            "z",
            "foot of the post",
            base.length,
            _with_ends(marks, base.length, "foot", "head"),
            f"{corners[0].mark} to {corners[-1].mark}",
        )
    )
    for name, role in (("Z-inner post", Role.INNER_POST), ("Z-knee post", Role.KNEE_POST)):
        posts = [bar for bar in bars if bar.role is role]
        if posts:
            sticks.append(_inner_post_stick(bench, name, posts))
    return sticks


def _joint_marks(bench: Bench, members: Sequence[Part]) -> list[Mark]:
    """Where each mortise of the first member begins and ends, and the axes of bolts through it."""
    groups = {part.mark: part.group for part in bench.parts}
    marks = []
    for op in members[0].operations:
        name = f"{op.op}, {groups.get(op.purpose.split(',')[0], '')}".rstrip(", ")
        if op.op in MORTISES and isinstance(op.size, tuple):
            half = op.size[0] / 2
            marks += [Mark(op.at[0] - half, name, "edge"), Mark(op.at[0] + half, name, "edge")]
        elif op.op in BOLT_HOLES:
            marks.append(Mark(op.at[0], op.op.split()[0], "centre"))
    return marks


def _relief_marks(post: Part) -> list[Mark]:
    return [Mark(op.at[0], "clamp relief", "centre") for op in post.operations if op.op == "relief"]


def _inner_post_stick(bench: Bench, name: str, posts: Sequence[Part]) -> Stick:
    post = posts[0]
    low = post.shoulders.z.low
    marks = [Mark(at - low, label, "edge") for at, label in _tray_levels(bench)]
    relieved = [each for each in posts if _relief_marks(each)]
    which = "" if len(relieved) == len(posts) else " (front and rear posts)"
    marks += [replace(mark, label=mark.label + which) for each in relieved for mark in _relief_marks(each)]
    return Stick(
        name,
        "z",
        "shoulder at the foot of the post" if post.tenons else "foot of the post",
        post.shoulders.z.size,
        _with_ends(marks, post.shoulders.z.size, "foot", "head"),
        f"{posts[0].mark} to {posts[-1].mark}",
    )


def _bay_sticks(bench: Bench, kind: str, marks_of: dict[str, list[Mark]], lies_on: str) -> list[Stick]:
    """One stick for all bays that have the same marks."""
    levels = bench.layout.levels
    length = levels.tray_bottom - levels.base_top
    above = (
        "tray underside"
        if bench.spec.tray.there
        else f"height of the {end_rail_name(bench.spec)}s' underside"
    )
    closing = [Mark(length, above, "edge")]
    if trim_thickness(bench.loaded):
        closing.insert(0, Mark(length - trim_thickness(bench.loaded), "trim underside", "edge"))
    by_marks: dict[tuple[Mark, ...], list[str]] = {}
    for bay, marks in marks_of.items():
        ordered = tuple(
            sorted(
                [Mark(Fraction(0), "base rail top", "edge"), *marks, *closing], key=lambda m: (m.at, m.kind)
            )
        )
        by_marks.setdefault(ordered, []).append(bay)
    return [
        Stick(f"Z-{kind} {', '.join(bays)}", "z", "top of the base rail", length, marks, lies_on)
        for marks, bays in by_marks.items()
    ]


def _filling_sticks(bench: Bench) -> Iterator[Stick]:
    for kind in FILLINGS:
        marks: dict[str, list[Mark]] = {}
        for each in kind.marks(bench):
            marks.setdefault(each.bay, []).append(Mark(each.at, each.label, each.kind))
        yield from _bay_sticks(bench, kind.one, marks, "the wall of the bay, on the base rail's top")
