"""The steps up to the base: preparing, the two end frames, cross-members, rails and posts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.model import Part
from generator.bench.place import ENDS, End
from generator.bench.role import STRIPS, Role
from generator.figures.hardware import nuts
from generator.figures.rows.assembly import Step
from generator.figures.steps.words import BASE, FRAMES, PREPARE, StepWriter, step
from generator.figures.tray_screws import tray_screws


class FrameSteps(StepWriter):
    """Tells the steps from the first cut to the square base."""

    def all(self) -> Iterator[Step]:
        """Steps in the usual order."""
        yield from self._cutting()
        yield from self._strips()
        yield from self._nuts()
        for end in ENDS:
            yield from self._lying(end)
            yield from self._upright(end)
        yield from self._base()
        yield from self._base_posts()

    def _cutting(self) -> Iterator[Step]:
        bars = tuple(part for part in self.bench.parts if part.is_bar)
        boards = self.pick(Role.DIVIDER, Role.END_PANEL, Role.SPINE_PANEL, Role.BACK_PANEL, Role.TRAY)
        pockets, _ = tray_screws(self.bench)
        yield step(
            PREPARE,
            "bars",
            "Cut, tap, drill and mark all bars",
            bars,
            "",
            (
                "Check each length against the part sheet before you drill.",
                "Deburr every end; write mark, top and front on a face that ends hidden.",
                f"Dry-fit one joint ({self.default_joint()}) and one tongue on scrap.",
            ),
            ("Test joint and test tongue pass.",),
            ("saw", "chips", "drill", "router"),
        )
        yield step(
            PREPARE,
            "boards",
            "Cut the panels, tongues and notches; seal the edges",
            boards,
            "",
            (
                "Set the tongue on scrap first, from both faces alike.",
                "A captured edge can never be sealed later.",
                *(
                    (
                        "Cut the pockets for the tray now, while the walls lie flat: at 15 degrees to the face, so "
                        "that the screw leaves the top edge in the middle of the board.",
                    )
                    if pockets
                    else ()
                ),
            ),
            ("Tongue slides by hand, no rattle, stays up when turned over.",),
            ("kickback", "dust", "finish"),
            places=pockets,
        )

    def _strips(self) -> Iterator[Step]:
        strips = self.pick(*STRIPS)
        if strips:
            yield step(
                PREPARE,
                "strips",
                "Fix strips, runners and cleats to the walls on the flat",
                strips,
                "",
                (
                    *self._strip_lines(strips),
                    "Mark heights from the story stick, datum the top of the base rail.",
                    "On the bench there is no base rail: its top lies a tongue's length above the wall's lower edge.",
                ),
                ("Left and right walls agree within 0.3 mm (1/64 in).",),
            )

    def _nuts(self) -> Iterator[Step]:
        count, roll_in = nuts(self.bench), self.bench.goods.slot_nut.entry == "roll-in"
        yield step(
            PREPARE,
            "nuts",
            "Load the slot nuts",
            (),
            "",
            (
                *self._nut_lines(),
                f"{count.total} nuts in all, of which {count.spare} are spare.",
                *(
                    (
                        "They roll in through the slots' openings: they can as well go in when their bolts come.",
                    )
                    if roll_in
                    else ("Tape the slot ends so that no nut runs out.",)
                ),
            ),
            () if roll_in else ("Last chance: these slots close and stay closed.",),
        )

    def _strip_lines(self, strips: Sequence[Part]) -> Iterator[str]:
        """What is narrower or thinner than the strip that it is made from."""
        ripped: dict[str, None] = {}
        planed: dict[str, None] = {}
        for part in strips:
            stock = self.bench.goods.strips[part.material]
            if part.width < stock.width:
                ripped[f"{part.group}s"] = None
            if part.thickness < stock.thickness:
                planed[f"{part.group}s"] = None
        if ripped:
            yield f"Rip first, to the widths of the cut list: {', '.join(ripped)}."
        if planed:
            yield f"Plane first, to the thickness of the cut list and all in one go: {', '.join(planed)}."

    def _nut_lines(self) -> Iterator[str]:
        per_bar: dict[str, int] = {}
        for bolt in self.bench.stand.bolts:
            per_bar[bolt.member] = per_bar.get(bolt.member, 0) + 1
        if per_bar:
            yield "Bottom slots: " + ", ".join(f"{mark} {n}" for mark, n in per_bar.items() if mark) + "."
        if self.spec.top.bracket is None:
            tops = " and ".join(part.mark for part in self.pick(Role.LONG_RAIL, level="top"))
            segments = len(self.bench.layout.lines) + 1
            yield (
                f"Inner slots of {tops} wait for the top grid: 2 nuts (one of them spare) in each of the {segments} "
                "segments, as the top cross-members are slid in."
            )
            return
        waiting: dict[str, int] = {}
        for each in self.bench.brackets:
            waiting[each.bar] = waiting.get(each.bar, 0) + 1 + each.spare
        bars = ", ".join(f"{mark} {count}" for mark, count in waiting.items())
        yield f"Inner slots of the top, spare ones counted: {bars}. They go in as the slots close, step by step."

    def _lying(self, end: End) -> Iterator[Step]:
        """An end frame, flat, up to what its posts go over."""
        base = self.pick(Role.BASE_END_MEMBER, end=end)
        rail = self.pick(Role.TRAY_END_RAIL, end=end)
        spine = self.pick(Role.END_SPINE_POST, end=end)
        between, panels, clip = *self._end_panels(end), self.joint.called
        yield step(
            FRAMES,
            f"{end}-ring",
            f"{end.capitalize()} end frame, flat: lower members",
            (*base, *spine, *between, *rail),
            "along the slots" if spine else "laid in their places",
            (
                "Lay the parts on flat blocks, outer face down.",
                *(
                    f"{panel.mark} goes on before the spine post behind it: later it finds no way in."
                    for panel in between
                ),
                self._spine_post() if spine else "Nothing joins them yet: the panel and the posts will.",
            ),
        )
        if panels:
            yield step(
                FRAMES,
                f"{end}-panels",
                f"{end.capitalize()} end frame: panels",
                panels,
                "from the open sides",
                ("Push each tongue home; a face that is to be seen looks outward.",),
                (
                    f"Panels are in before any {self.joint.kind} of this ring is fitted: the {clip}s bar their way.",
                )
                if self.joint.fitted
                else (),
            )
        if self.joint.fitted:
            yield step(
                FRAMES,
                f"{end}-clips",
                f"{end.capitalize()} end frame: {self.joint.many}",
                (),
                "onto the ends of the bars",
                (
                    f"Fit {clip}s on both ends of {', '.join(part.mark for part in (*base, *rail))}, "
                    "three turns, all one way.",
                ),
            )

    def _upright(self, end: End) -> Iterator[Step]:
        """Its posts and what they carry, and the frame set upright."""
        top, clip = self.pick(Role.TOP_END_MEMBER, end=end), self.joint.called
        posts = self.pick(Role.CORNER_POST, end=end)
        if not self.rails_run_through:
            yield step(
                FRAMES,
                f"{end}-posts",
                f"{end.capitalize()} end frame: corner posts",
                posts,
                "along their own length",
                (
                    f"Thread each post over lower {clip}, panel edge, upper {clip}."
                    if self.joint.fitted
                    else "Slide each post over the panel's edge.",
                    "Keep the post's length free beside the work.",
                ),
            )
            yield step(
                FRAMES,
                f"{end}-top",
                f"{end.capitalize()} end frame: top end member; square and tighten",
                top,
                "down",
                (
                    f"Lower it with its {clip}s into both posts."
                    if self.joint.fitted
                    else "Lower it between both posts.",
                    "Square it, then tighten through the access holes of the posts.",
                    "Set it upright and strap it to something firm: it falls easily.",
                ),
                squares=(self.square("end frame", "0.5"),),
            )
            return
        yield step(
            FRAMES,
            f"{end}-posts",
            f"{end.capitalize()} end frame: corner posts",
            posts,
            "along their own length",
            (
                f"Thread each post over the upper {clip} and the panels' edges; "
                "the posts stand on the long rails later.",
                "Set it upright and strap it to something firm: it falls easily.",
            ),
            squares=(self.square("end frame", "0.5"),),
        )

    def _spine_post(self) -> str:
        """How the spine post of an end frame comes between its two members."""
        clip = self.joint.called
        if not self.joint.fitted:
            return "Set the spine post by the Y stick, finger tight."
        return (
            f"Slide the spine post's lower {clip} on the base end member and the tray end rail over its "
            f"upper {clip}. Set it by the Y stick, finger tight."
        )

    def _end_panels(self, end: End) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
        """End panels between two spine posts, which are laid with them, and those that come from the open sides."""
        posts = [post.box.y for post in self.pick(Role.END_SPINE_POST, end=end)]
        panels = self.pick(Role.END_PANEL, end=end)
        between = tuple(
            panel
            for panel in panels
            if any(post.low < panel.box.y.low for post in posts)
            and any(panel.box.y.high < post.high for post in posts)
        )
        return between, tuple(panel for panel in panels if panel not in between)

    def _base(self) -> Iterator[Step]:
        many, fitted = self.joint.many, self.joint.fitted
        cross = self.pick(Role.BASE_CROSS_MEMBER)
        bare = [part for part in cross if not part.place.lines]
        spine = [part for part in self.pick(Role.INNER_POST) if not part.place.side]
        if cross:
            yield step(
                BASE,
                "cross",
                "Spine posts on the base cross-members" if spine else "Base cross-members",
                (*cross, *spine),
                "along the cross-member's top slot" if spine else "each by itself",
                (
                    "Thread each post on by the Y stick, plumb; tighten from below through the access hole.",
                    *(
                        f"{part.mark} carries no post: fit its {many}, three turns."
                        for part in bare
                        if fitted
                    ),
                )
                if spine
                else (f"Fit their {many}, three turns.",)
                if fitted
                else (),
            )
        yield step(
            BASE,
            "rails",
            "Base rails on level blocks; cross-members in",
            self.pick(Role.LONG_RAIL, level="base"),
            "along the rails' inner slots",
            (
                self.bench.stand.step.blocks,
                "Slide the cross-members in from one end, the farthest first."
                if cross
                else "Set the rails parallel.",
            ),
        )

    def _base_posts(self) -> Iterator[Step]:
        cross = self.pick(Role.BASE_CROSS_MEMBER)
        bare = [part for part in cross if not part.place.lines]
        posts = [part for part in self.pick(Role.INNER_POST) if part.place.side]
        if posts:
            yield step(
                BASE,
                "posts",
                "Front and back posts on the base rails",
                posts,
                "along the rails' top slots",
                ("Slide them on from the ends, the innermost first.",),
            )
        if cross or posts:
            yield step(
                BASE,
                "base-square",
                "Set, square and tighten the base",
                (),
                "",
                (
                    "Bay spacers between the inner posts, the X stick from the rails' ends for the outer bays; tighten "
                    "the cross-members, then the posts.",
                    *(f"Set {part.mark} by the X stick: no post stands over it." for part in bare),
                    "Clip a straight batten to the front of the posts, near their tops: it must not bar the dividers' "
                    "way.",
                ),
                squares=(self.square("base inner", "1"),),
            )
