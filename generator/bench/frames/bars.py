"""The bars of the frame: where each is, by which member runs through. Joints are found from how the bars meet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from generator.bench.layout import Layout
from generator.bench.leg_room import face_of, knee_bays, knee_lines
from generator.bench.piece import Part
from generator.bench.place import ENDS, SIDES, Level, Place, Side
from generator.bench.role import Role
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: What the rail of an end frame is called where it carries no tray.
MIDDLE_END_RAIL = "middle end rail"


class _Marks:
    """Numbers the bars of each letter in the order in which they are made."""

    def __init__(self) -> None:
        self._last: dict[str, int] = {}

    def next(self, letter: str) -> str:
        self._last[letter] = self._last.get(letter, 0) + 1
        return f"{letter}{self._last[letter]}"


def frame_parts(loaded: LoadedSpec, layout: Layout, below: tuple[Fraction, ...] = ()) -> tuple[Part, ...]:
    """All bars: A corner posts, B long rails, C cross and end members, D inner, K knee and E end spine posts."""
    marks, spec, goods = _Marks(), loaded.spec, loaded.goods.members
    bars = [
        *_corner_posts(spec, layout),
        *_long_rails(spec, layout),
        *_cross_members(layout),
        *_members_below(layout, below),
        *_end_members(layout),
        *_inner_posts(layout),
        *_knee_posts(layout),
        *_end_spine_posts(layout),
    ]
    parts = [
        Part(
            mark=marks.next(letter),
            name=_called(spec, role),
            role=role,
            material=goods.posts if along == "z" else goods.rails,
            kind=goods.kind,
            box=box,
            along=along,
            across=_across(along),
            place=place,
            thickness=layout.section,
            own_group=_called(spec, role),
        )
        for letter, role, along, box, place in bars
    ]
    return (*parts, *_extra_members(loaded, layout))


_Bar = tuple[str, Role, str, Box, Place]


def end_rail_name(spec: Spec) -> str:
    """What the rail of an end frame at mid height is called: it may carry a tray or none."""
    return Role.TRAY_END_RAIL.value if spec.tray.there else MIDDLE_END_RAIL


def _called(spec: Spec, role: Role) -> str:
    return end_rail_name(spec) if role is Role.TRAY_END_RAIL else role.value


def _across(along: str) -> str:
    return "z" if along != "z" else "x"


def _ends(layout: Layout) -> tuple[Span, Span]:
    s = layout.section
    return (Span(Fraction(0), s), Span(layout.length - s, layout.length))


def _sides(layout: Layout) -> tuple[Span, Span]:
    s = layout.section
    return (Span(Fraction(0), s), Span(layout.depth - s, layout.depth))


def _base(layout: Layout) -> Span:
    return Span(Fraction(0), layout.rail)


def _top(layout: Layout) -> Span:
    return Span(layout.levels.top_rail_bottom, layout.levels.frame_height)


def _rings(layout: Layout) -> tuple[tuple[Level, Span], tuple[Level, Span]]:
    """The levels at which rails run all round."""
    return (("base", _base(layout)), ("top", _top(layout)))


def _between_rails(layout: Layout) -> Span:
    """From the back of the front rail (or post) to the front of the back one."""
    return Span(layout.section, layout.depth - layout.section)


def _corner_posts(spec: Spec, layout: Layout) -> Iterator[_Bar]:
    through = spec.frame.through == "posts"
    z = Span(Fraction(0), layout.levels.frame_height)
    if not through:
        z = Span(layout.rail, layout.levels.top_rail_bottom)
    for side, y in zip(SIDES, _sides(layout), strict=True):
        for end, x in zip(ENDS, _ends(layout), strict=True):
            yield "A", Role.CORNER_POST, "z", Box(x, y, z), Place(end=end, side=side)


def _long_rails(spec: Spec, layout: Layout) -> Iterator[_Bar]:
    x = Span(Fraction(0), layout.length)
    if spec.frame.through == "posts":
        x = Span(layout.section, layout.length - layout.section)
    for level, z in _rings(layout):
        for side, y in zip(SIDES, _sides(layout), strict=True):
            for piece, lines in _pieces(layout, side, x) if level == "base" else ((x, ()),):
                place = Place(level=level, side=side, lines=lines)
                yield "B", Role.LONG_RAIL, "x", Box(piece, y, z), place


def _pieces(layout: Layout, side: Side, whole: Span) -> Iterator[tuple[Span, tuple[int, ...]]]:
    """A base rail between corner posts and knee posts, with the lines of posts that it ends on; most often whole."""
    knees = [bay for bay in knee_bays(layout) if face_of(layout, bay) == side]
    if not knees:
        yield whole, ()
        return
    last = layout.length - layout.section
    starts = [Fraction(0), *(bay.right_line for bay in knees)]
    stops = [*(bay.left_line for bay in knees), last]
    for left, right in zip(starts, stops, strict=True):
        if right > left:  # leg room at a corner leaves no piece there
            lines = (layout.line_number(left), layout.line_number(right))
            yield Span(left + layout.section, right), lines


def _cross_members(layout: Layout) -> Iterator[_Bar]:
    y = _between_rails(layout)
    for level, z in _rings(layout):
        for line in layout.lines:
            x = Span(line, line + layout.section)
            place = Place(level=level, lines=(layout.line_number(line),))
            role = Role.BASE_CROSS_MEMBER if level == "base" else Role.TOP_CROSS_MEMBER
            yield "C", role, "y", Box(x, y, z), place


def _members_below(layout: Layout, lines: tuple[Fraction, ...]) -> Iterator[_Bar]:
    """Cross-members of the base that carry no post: what the bench stands on is bolted to them."""
    for line in lines:
        x = Span(line, line + layout.section)
        yield (
            "C",
            Role.BASE_CROSS_MEMBER,
            "y",
            Box(x, _between_rails(layout), _base(layout)),
            Place(level="base", end="middle"),
        )


def _end_members(layout: Layout) -> Iterator[_Bar]:
    y = _between_rails(layout)
    tray_rail = Span(layout.levels.end_rail_bottom, layout.levels.end_rail_bottom + layout.rail)
    levels: tuple[tuple[Level, Role, Span], ...] = (
        ("base", Role.BASE_END_MEMBER, _base(layout)),
        ("tray", Role.TRAY_END_RAIL, tray_rail),
        ("top", Role.TOP_END_MEMBER, _top(layout)),
    )
    for level, role, z in levels:
        for end, x in zip(ENDS, _ends(layout), strict=True):
            yield "C", role, "y", Box(x, y, z), Place(level=level, end=end)


def in_row(layout: Layout, row: int, *lines: Fraction) -> Place:
    """The place in a row of posts, at a line or between two, by their left edges."""
    last = len(layout.rows) - 1
    side: Side | Literal[""] = "front" if row == 0 else "back" if row == last else ""
    return Place(side=side, row=row, lines=tuple(layout.line_number(line) for line in lines))


def row_lines(layout: Layout, row: int) -> tuple[Fraction, ...]:
    """Lines with an inner post in this row: the zone's own at front and back, all of them on a spine."""
    if row == 0:
        return layout.zones[0].lines
    if row == len(layout.rows) - 1:
        return layout.zones[-1].lines
    return layout.lines


def _inner_posts(layout: Layout) -> Iterator[_Bar]:
    z = Span(layout.rail, layout.levels.top_rail_bottom)
    for row, y in enumerate(layout.rows):
        for line in row_lines(layout, row):
            if line not in knee_lines(layout, row):
                box = Box(Span(line, line + layout.section), Span(y, y + layout.section), z)
                yield "D", Role.INNER_POST, "z", box, in_row(layout, row, line)


def _knee_posts(layout: Layout) -> Iterator[_Bar]:
    """In the place of inner posts, down to the frame's underside: what crosses there ends on them."""
    z = Span(Fraction(0), layout.levels.top_rail_bottom)
    for row, y in enumerate(layout.rows):
        for line in knee_lines(layout, row):
            box = Box(Span(line, line + layout.section), Span(y, y + layout.section), z)
            yield "K", Role.KNEE_POST, "z", box, in_row(layout, row, line)


def _end_spine_posts(layout: Layout) -> Iterator[_Bar]:
    z = Span(layout.rail, layout.levels.end_rail_bottom)
    for row, y in list(enumerate(layout.rows))[1:-1]:
        for end, x in zip(ENDS, _ends(layout), strict=True):
            place = replace(in_row(layout, row), end=end)
            yield "E", Role.END_SPINE_POST, "z", Box(x, Span(y, y + layout.section), z), place


def _extra_members(loaded: LoadedSpec, layout: Layout) -> Iterator[Part]:
    section, goods = layout.section, loaded.goods.members
    for number, member in enumerate(loaded.spec.extra.members, 1):
        high = section if member.along == "z" else layout.rail
        size = {"x": section, "y": section, "z": high} | {member.along: member.length}
        yield Part(
            mark=f"X{number}",
            name=member.name,
            role=Role.EXTRA_MEMBER,
            material=goods.posts if member.along == "z" else goods.rails,
            kind=goods.kind,
            box=Box.at(member.at, (size["x"], size["y"], size["z"])),
            along=member.along,
            across=_across(member.along),
            place=Place(),
            thickness=layout.section,
        )
