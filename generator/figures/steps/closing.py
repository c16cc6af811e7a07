"""The steps from the panels to the bench on its feet: closing, top grid, what it stands on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.model import Part
from generator.bench.place import ENDS, End
from generator.bench.role import Role
from generator.figures.rows.assembly import PlaceRow, Step
from generator.figures.steps.words import CLOSE, StepWriter, step
from generator.figures.tray_screws import tray_holes, tray_screws


class ClosingSteps(StepWriter):
    """Tells the steps from the first panel to the level bench."""

    def all(self) -> Iterator[Step]:
        """Steps in the usual order."""
        yield from self._close()
        yield from self._fix_tray()
        yield from self._lid()
        yield from self._square_and_level()

    def _close(self) -> Iterator[Step]:
        for role, title in (
            (Role.DIVIDER, "Dividers"),
            (Role.SPINE_PANEL, "Spine panels"),
            (Role.BACK_PANEL, "Back panels"),
        ):
            parts = self.pick(role)
            if parts:
                yield step(
                    CLOSE,
                    role.value.replace(" ", "-"),
                    title,
                    parts,
                    "down",
                    ("Drop them between their posts.", *self._loose(parts)),
                )
        inner = self.pick(Role.INNER_POST)
        yield step(
            CLOSE,
            "tray",
            "Tray over all inner posts" if inner else "Tray",
            self.pick(Role.TRAY),
            "down",
            (
                *(("Take the batten off.",) if inner else ()),
                "Lower the tray and let it sit on every wall. Do not screw it yet.",
            ),
            ("It cannot enter once both end frames are on.",),
            ("lift",),
        )
        yield from self.fillings(CLOSE, early=True)
        for end, direction in zip(ENDS, ("push to the right", "push to the left"), strict=True):
            frame = self._at_end_frame(end)
            joint = self.spec.frame.joints.long_rails_to_corner_posts
            yield step(
                CLOSE,
                f"close-{end}",
                f"{end.capitalize()} end frame on",
                frame,
                direction,
                (
                    "Tray tongue, panel tongues and rail ends go in together.",
                    f"Bottom joints with {joint}, finger tight.",
                    "Once both end frames are on, strap round at tray height.",
                ),
                ("Tongues are home all along before anything is tightened.",),
                ("pinch", "lift"),
            )

    def _fix_tray(self) -> Iterator[Step]:
        trims = self.pick(Role.TRAY_TRIM)
        pockets, above = tray_screws(self.bench)
        yield step(
            CLOSE,
            "tray-fix",
            "Fix the tray" + (" and its trim" if trims else ""),
            trims,
            "against the tray's edges" if trims else "",
            (
                *self._tray_notes(pockets, above),
                *(
                    (
                        "One leg of the trim stands against the tray's edge, its outer face flush with the posts; the "
                        "other leg lies under the tray, as the section on its part sheet shows. Screw it from below.",
                    )
                    if trims
                    else ()
                ),
            ),
            places=(*pockets, *above, *tray_holes(self.bench, above)),
        )

    @staticmethod
    def _tray_notes(pockets: Sequence[PlaceRow], above: Sequence[PlaceRow]) -> Iterator[str]:
        if pockets:
            yield f"Up through the pockets of {', '.join(row.part for row in pockets)} into the tray."
        if above:
            yield f"Down through the tray into the top edge of {', '.join(row.part for row in above)}."
        if not (pockets or above):
            yield "Its tongues hold it: there are no dividers to screw it to."

    def _loose(self, panels: Sequence[Part]) -> Iterator[str]:
        """Panels that fewer than two posts hold until the end frames come."""
        posts = self.pick(Role.INNER_POST)
        loose = [
            panel.mark
            for panel in panels
            if sum(all(post.box.span(a).overlap(panel.box.span(a)) > 0 for a in "xyz") for post in posts) < 2
        ]
        if loose:
            yield f"Hold {', '.join(loose)} with tape or a clamp until the end frames are on: no two posts hold them."

    def _at_end_frame(self, end: End) -> tuple[Part, ...]:
        roles: tuple[Role, ...] = (
            Role.CORNER_POST,
            Role.END_PANEL,
            Role.END_SPINE_POST,
            Role.BASE_END_MEMBER,
            Role.TRAY_END_RAIL,
        )
        if not self.rails_run_through:
            roles = (*roles, Role.TOP_END_MEMBER)
        return self.pick(*roles, end=end)

    def _lid(self) -> Iterator[Step]:
        stage = self.bench.stand.words.stage
        cross = self.pick(Role.TOP_CROSS_MEMBER)
        grid = [*self.pick(Role.LONG_RAIL, level="top"), *cross]
        if self.rails_run_through:
            grid += self.pick(Role.TOP_END_MEMBER)
        yield step(
            stage,
            "grid",
            "Top grid, flat",
            grid,
            "along the rails' inner slots",
            (
                (f"Slide the cross-members in by the X stick; square; tighten all {self.joint.many} now.",)
                if cross
                else ("Lay the rails parallel; nothing joins them yet.",)
            ),
            (f"The screws that come later cover these {self.joint.called}s: they cannot be tightened again.",)
            if cross
            else (),
            squares=(self.square("top grid", "1"),) if cross else (),
        )
        # with rails running through, the posts' heads decide whether it goes down or along: the proof knows
        how = "" if self.rails_run_through else "down, as a lid"
        yield step(
            stage,
            "lid",
            "Top grid on",
            (),
            how,
            (
                "Screw it to the inner posts from above, centre to ends."
                if self.rails_run_through
                else "Screw it to the corner posts, then to the inner posts from above, centre to ends.",
            ),
            cautions=("lift", "pinch"),
        )

    def _square_and_level(self) -> Iterator[Step]:
        stage, on = self.bench.stand.words.stage, self.bench.stand.step
        yield step(
            stage,
            "square",
            "Square all faces and tighten",
            (),
            "",
            (
                "Upwards from the base, diagonals again after each level; mark each tightened screw with paint.",
                self._tightening(),
            ),
            squares=(self.square("outer", "1"), self.square("front face", "0.5")),
        )
        yield step(
            stage,
            on.key,
            on.title,
            self.bench.stand.parts,
            on.direction,
            on.notes,
            cautions=on.cautions,
        )
        yield step(
            stage,
            "level",
            "Level the bench",
            (),
            "",
            ("Four corners first, middle supports last: 0.5 mm in a metre (1/64 in in 3 ft).",),
            ("Front faces still square within 0.5 mm (1/64 in).",),
        )

    def _tightening(self) -> str:
        """Trade practice for M8 in aluminium; other threads at the same stress have their row in a table."""
        joints = {joint.fastener for joint in self.bench.joints}
        threads = {self.bench.joinings[name].screw.thread for name in joints}
        if threads == {"M8"}:
            return (
                "As the maker of clip and screw says; else 12 to 18 N·m for M8 in aluminium, which is trade practice "
                "and no standard. Leave off when the thread feels soft."
            )
        return (
            "As tight as the maker of clip and screw says; else by the table of torques at the machine, which is "
            "trade practice and no standard. Leave off when the thread feels soft."
        )
