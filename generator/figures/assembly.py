"""A sensible order of assembly by rule: what sits on a bar goes on before that bar's ends are covered.

The order is not proved here; `Assembly.proved` says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from generator.bench.frame import row_name
from generator.bench.model import Bench, Part
from generator.figures.hardware import nuts
from generator.figures.model import Assembly, Diagonal, Square, Step
from generator.spec.lookup import fastener
from generator.spec.schema import EndClip, Spec

PREPARE, FRAMES, BASE, CLOSE, LID, FILL = (
    "Prepare",
    "End frames",
    "Base and posts",
    "Panels and closing",
    "Top grid and casters",
    "Fill and finish",
)


def assembly(spec: Spec, bench: Bench, squares: tuple[Diagonal, ...]) -> Assembly:
    """Steps in order, numbered from 1. Marks are those of the pieces that each step adds."""
    order = _Order(spec, bench, {square.name: square.value for square in squares})
    steps = tuple(replace(step, n=number) for number, step in enumerate(order.steps(), 1))
    return Assembly(False, steps)


def _step(
    stage: str,
    key: str,
    title: str,
    parts: Iterable[Part],
    direction: str,
    notes: Iterable[str],
    hold: Iterable[str] = (),
    cautions: Iterable[str] = (),
    squares: Iterable[Square] = (),
) -> Step:
    marks = tuple(part.mark for part in parts)
    return Step(
        0, title, marks, direction, tuple(notes), tuple(hold), tuple(cautions), stage, key, tuple(squares)
    )


class _Order:
    """Writes the steps of one bench; each method one stage of the work."""

    def __init__(self, spec: Spec, bench: Bench, diagonals: dict[str, float]) -> None:
        self.spec, self.bench, self.diagonals = spec, bench, diagonals
        self.rails_run_through = spec.frame.through == "rails"

    def steps(self) -> Iterator[Step]:
        yield from self._prepare()
        for end in ("left", "right"):
            yield from self._end_frame(end)
        yield from self._base()
        yield from self._close()
        yield from self._lid()
        yield from self._fill()

    def _pick(self, *groups: str, where: str = "") -> tuple[Part, ...]:
        return tuple(part for part in self.bench.in_group(*groups) if where in part.where)

    def _clips(self) -> str:
        name = self.spec.frame.joints.default
        item = fastener(self.spec, name)
        return f"{name}, key {float(item.key):g} mm" if isinstance(item, EndClip) else name

    def _prepare(self) -> Iterator[Step]:
        bars = tuple(part for part in self.bench.parts if part.kind == "profile")
        boards = self._pick("divider", "end panel", "spine panel", "back panel", "tray")
        strips = self._pick("packing strip", "tote runner", "shelf cleat")
        yield _step(
            PREPARE,
            "bars",
            "Cut, tap, drill and mark all bars",
            bars,
            "",
            (
                "Check each length against the part sheet before you drill.",
                "Deburr every end; write mark, top and front on a face that ends hidden.",
                f"Dry-fit one joint ({self._clips()}) and one tongue on scrap.",
            ),
            ("Test joint and test tongue pass.",),
            ("saw", "chips"),
        )
        yield _step(
            PREPARE,
            "boards",
            "Cut the panels, tongues and notches; seal the edges",
            boards,
            "",
            (
                "Set the tongue on scrap first, from both faces alike.",
                "A captured edge can never be sealed later.",
            ),
            ("Tongue slides by hand, no rattle, stays up when turned over.",),
            ("kickback", "dust"),
        )
        if strips:
            yield _step(
                PREPARE,
                "strips",
                "Fix strips, runners and cleats to the walls on the flat",
                strips,
                "",
                (
                    "Mark heights from the story stick, datum the top of the base rail.",
                    "The lowest slide of each wall goes on now as well.",
                ),
                ("Left and right walls agree within 0.3 mm (1/64 in).",),
            )
        count = nuts(self.bench)
        yield _step(
            PREPARE,
            "nuts",
            "Load the slot nuts",
            (),
            "",
            (
                *self._nut_lines(),
                f"{count.total} nuts in all, of which {count.spare} are spare.",
                "Tape the slot ends so that no nut runs out.",
            ),
            ("Last chance: these slots close and stay closed.",),
        )

    def _nut_lines(self) -> Iterator[str]:
        per_bar: dict[str, int] = {}
        for bolt in self.bench.plate_bolts:
            per_bar[bolt.member] = per_bar.get(bolt.member, 0) + 1
        if per_bar:
            yield "Bottom slots: " + ", ".join(f"{mark} {n}" for mark, n in per_bar.items() if mark) + "."
        tops = self._pick("long rail", where="top")
        segments = len(self.bench.layout.lines) + 1
        yield (
            f"Inner slots of {' and '.join(part.mark for part in tops)}: 2 nuts (one of them spare) in each of the "
            f"{segments} segments between top cross-members."
        )

    def _end_frame(self, end: str) -> Iterator[Step]:
        base = self._at_end("base end member", end)
        rail = self._at_end("tray end rail", end)
        top = self._at_end("top end member", end)
        spine = self._pick("end spine post", where=f"{end} end")
        panels = self._pick("end panel", where=f"{end} end")
        posts = self._pick("corner post", where=end)
        yield _step(
            FRAMES,
            f"{end}-ring",
            f"{end.capitalize()} end frame, flat: lower members",
            (*base, *spine, *rail),
            "along the slots",
            (
                "Lay the parts on flat blocks, outer face down.",
                *(
                    (
                        "Slide the spine post's lower clip on the base end member and the tray end rail over its "
                        "upper clip. Set it by the Y stick, finger tight.",
                    )
                    if spine
                    else ()
                ),
            ),
        )
        if panels:
            yield _step(
                FRAMES,
                f"{end}-panels",
                f"{end.capitalize()} end frame: panels",
                panels,
                "from the open sides",
                ("Push each tongue home; a face that is to be seen looks outward.",),
                ("Panels are in before any end clip of this ring is fitted: the clips bar their way.",),
            )
        yield _step(
            FRAMES,
            f"{end}-clips",
            f"{end.capitalize()} end frame: end clips",
            (),
            "",
            (
                f"Fit clips on both ends of {', '.join(part.mark for part in (*base, *rail))}, "
                "three turns, all one way.",
            ),
        )
        if not self.rails_run_through:
            yield _step(
                FRAMES,
                f"{end}-posts",
                f"{end.capitalize()} end frame: corner posts",
                posts,
                "along their own length",
                (
                    "Thread each post over lower clip, panel edge, upper clip.",
                    "Keep the post's length free beside the work.",
                ),
            )
            yield _step(
                FRAMES,
                f"{end}-top",
                f"{end.capitalize()} end frame: top end member; square and tighten",
                top,
                "down",
                (
                    "Lower it with its clips into both posts.",
                    "Tighten through the access holes of the posts.",
                ),
                squares=(self._square("end frame", "0.5"),),
                cautions=("lift",),
            )
            return
        yield _step(
            FRAMES,
            f"{end}-posts",
            f"{end.capitalize()} end frame: corner posts",
            posts,
            "along their own length",
            (
                "Thread each post over the upper clip and the panels' edges; "
                "the posts stand on the long rails later.",
            ),
            squares=(self._square("end frame", "0.5"),),
            cautions=("lift",),
        )

    def _at_end(self, group: str, end: str) -> tuple[Part, ...]:
        return tuple(part for part in self.bench.in_group(group) if part.where == end)

    def _square(self, name: str, tolerance: str) -> Square:
        return Square(name, self.diagonals[name], Fraction(tolerance))

    def _base(self) -> Iterator[Step]:
        cross = self._pick("base cross-member")
        spine = [part for part in self._pick("inner post") if part.where.startswith("spine")]
        if cross:
            yield _step(
                BASE,
                "cross",
                "Spine posts on the base cross-members" if spine else "Base cross-members",
                (*cross, *spine),
                "along the cross-member's top slot",
                ("Thread each post on by the Y stick, plumb; tighten from below through the access hole.",)
                if spine
                else ("Fit their end clips, three turns.",),
            )
        yield _step(
            BASE,
            "rails",
            "Base rails on level blocks; cross-members in",
            self._pick("long rail", where="base"),
            "along the rails' inner slots",
            (
                "Blocks high enough for casters and a hand below.",
                "Slide the cross-members in from one end, the farthest first."
                if cross
                else "Set the rails parallel.",
            ),
            cautions=("lift",),
        )
        rows = {row_name(self.bench.layout, 0), row_name(self.bench.layout, len(self.bench.layout.rows) - 1)}
        posts = [part for part in self._pick("inner post") if part.where.split()[0] in rows]
        if posts:
            yield _step(
                BASE,
                "posts",
                "Front and back posts on the base rails",
                posts,
                "along the rails' top slots",
                ("Slide them on from the ends, the innermost first.",),
            )
        yield _step(
            BASE,
            "base-square",
            "Set, square and tighten the base",
            (),
            "",
            (
                "Put the bay spacers between the members; tighten the cross-members, then the posts.",
                "Clip a straight batten across the post tops.",
            ),
            squares=(self._square("base inner", "1"),),
        )

    def _close(self) -> Iterator[Step]:
        for group, title in (
            ("divider", "Dividers"),
            ("spine panel", "Spine panels"),
            ("back panel", "Back panels"),
        ):
            parts = self._pick(group)
            if parts:
                yield _step(
                    CLOSE,
                    group.replace(" ", "-"),
                    title,
                    parts,
                    "down",
                    ("Drop them between their posts; hold a panel that has one post only with tape.",),
                )
        yield _step(
            CLOSE,
            "tray",
            "Tray over all inner posts",
            self._pick("tray"),
            "down",
            ("Take the batten off, lower the tray and let it sit on every wall. Do not screw it yet.",),
            ("It cannot enter once both end frames are on.",),
            ("lift",),
        )
        for end, direction in (("left", "push to the right"), ("right", "push to the left")):
            frame = self._at_end_frame(end)
            joint = self.spec.frame.joints.long_rails_to_corner_posts
            yield _step(
                CLOSE,
                f"close-{end}",
                f"{end.capitalize()} end frame on",
                frame,
                direction,
                (
                    "Tray tongue, panel tongues and rail ends go in together.",
                    f"Bottom joints with {joint}, finger tight; strap round at tray height.",
                ),
                ("Tongues are home all along before anything is tightened.",),
                ("pinch", "lift"),
            )
        trims = self._pick("tray trim")
        yield _step(
            CLOSE,
            "tray-fix",
            "Fix the tray" + (" and its trim" if trims else ""),
            trims,
            "",
            ("Screw it to the dividers, through pockets or from above as the hardware page counts them.",),
        )

    def _at_end_frame(self, end: str) -> tuple[Part, ...]:
        groups: tuple[str, ...] = (
            "corner post",
            "end panel",
            "end spine post",
            "base end member",
            "tray end rail",
        )
        if not self.rails_run_through:
            groups = (*groups, "top end member")
        return tuple(
            part for part in self.bench.in_group(*groups) if end in part.where.replace(",", "").split()
        )

    def _lid(self) -> Iterator[Step]:
        grid = [*self._pick("long rail", where="top"), *self._pick("top cross-member")]
        if self.rails_run_through:
            grid += self._pick("top end member")
        yield _step(
            LID,
            "grid",
            "Top grid, flat",
            grid,
            "along the rails' inner slots",
            ("Slide the cross-members in by the X stick; square; tighten all end clips now.",),
            ("The screws that come later cover these clips: they cannot be tightened again.",),
        )
        how = "slide it along over the posts' upper clips" if self.rails_run_through else "down, as a lid"
        yield _step(
            LID,
            "lid",
            "Top grid on",
            (),
            how,
            ("Screw it to the corner posts, then to the inner posts from above, centre to ends.",),
            cautions=("lift", "pinch"),
        )
        yield _step(
            LID,
            "square",
            "Square all faces and tighten",
            (),
            "",
            (
                "Upwards from the base, diagonals again after each level; mark each tightened screw with paint.",
            ),
            squares=(self._square("outer", "1"), self._square("front face", "0.5")),
        )
        yield _step(
            LID,
            "casters",
            "Caster plates and casters, from below",
            self._pick("caster plate"),
            "up",
            ("The bench still stands on its blocks.", "Lower it evenly, two persons or more."),
            cautions=("lift", "tip"),
        )
        yield _step(
            LID,
            "level",
            "Level the bench",
            (),
            "",
            ("Four corners first, middle supports last: 0.5 mm in a metre (1/64 in in 3 ft).",),
            ("Front faces still square within 0.5 mm (1/64 in).",),
        )

    def _fill(self) -> Iterator[Step]:
        drawers = self._pick("drawer side", "drawer front and back", "drawer bottom", "drawer face")
        if drawers:
            yield _step(
                FILL,
                "drawers",
                "Slides, drawer boxes and fronts",
                drawers,
                "",
                (
                    "Set each slide on its spacer block.",
                    "Measure every bay at the slides, then cut the boxes.",
                    "Hang the fronts with gauges of the gap's thickness.",
                ),
                ("Box width is taken from the measured bay, not from this page alone.",),
            )
        shelves = self._pick("shelf")
        if shelves:
            yield _step(
                FILL,
                "shelves",
                "Shelves",
                shelves,
                "tilt in",
                ("Tilt each shelf in through its opening and lower it on its cleats.",),
            )
        yield _step(
            FILL,
            "top",
            "Top board",
            self._pick("top"),
            "down",
            (
                "Seal both faces; fix it with brackets in oversize holes, so that it can move.",
                "Drill the grid from a template; break the edges.",
            ),
            cautions=("lift", "dust"),
        )
        yield _step(
            FILL,
            "load",
            "Load test, tip test, label",
            (),
            "",
            (
                "Load it step by step; open drawers one by one, the heaviest first.",
                "Write the limits on a label; enter what was built in the record.",
            ),
            cautions=("tip",),
        )
