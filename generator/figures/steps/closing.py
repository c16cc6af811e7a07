"""The steps from the panels to the loaded bench: closing, top grid, casters, what fills the bays."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.model import Part
from generator.figures.model import Step
from generator.figures.steps.words import CLOSE, FILL, LID, Words, step


class ClosingSteps(Words):
    """Tells the steps from the first panel to the label."""

    def all(self) -> Iterator[Step]:
        """Steps in the usual order."""
        yield from self._close()
        yield from self._lid()
        yield from self._fill()

    def _close(self) -> Iterator[Step]:
        for group, title in (
            ("divider", "Dividers"),
            ("spine panel", "Spine panels"),
            ("back panel", "Back panels"),
        ):
            parts = self.pick(group)
            if parts:
                yield step(
                    CLOSE,
                    group.replace(" ", "-"),
                    title,
                    parts,
                    "down",
                    ("Drop them between their posts; hold a panel that has one post only with tape.",),
                )
        yield step(
            CLOSE,
            "tray",
            "Tray over all inner posts",
            self.pick("tray"),
            "down",
            ("Take the batten off, lower the tray and let it sit on every wall. Do not screw it yet.",),
            ("It cannot enter once both end frames are on.",),
            ("lift",),
        )
        for end, direction in (("left", "push to the right"), ("right", "push to the left")):
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
                    f"Bottom joints with {joint}, finger tight; strap round at tray height.",
                ),
                ("Tongues are home all along before anything is tightened.",),
                ("pinch", "lift"),
            )
        trims = self.pick("tray trim")
        yield step(
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
        grid = [*self.pick("long rail", where="top"), *self.pick("top cross-member")]
        if self.rails_run_through:
            grid += self.pick("top end member")
        yield step(
            LID,
            "grid",
            "Top grid, flat",
            grid,
            "along the rails' inner slots",
            ("Slide the cross-members in by the X stick; square; tighten all end clips now.",),
            ("The screws that come later cover these clips: they cannot be tightened again.",),
        )
        how = "slide it along over the posts' upper clips" if self.rails_run_through else "down, as a lid"
        yield step(
            LID,
            "lid",
            "Top grid on",
            (),
            how,
            ("Screw it to the corner posts, then to the inner posts from above, centre to ends.",),
            cautions=("lift", "pinch"),
        )
        yield step(
            LID,
            "square",
            "Square all faces and tighten",
            (),
            "",
            (
                "Upwards from the base, diagonals again after each level; mark each tightened screw with paint.",
            ),
            squares=(self.square("outer", "1"), self.square("front face", "0.5")),
        )
        yield step(
            LID,
            "casters",
            "Caster plates and casters, from below",
            self.pick("caster plate"),
            "up",
            ("The bench still stands on its blocks.", "Lower it evenly, two persons or more."),
            cautions=("lift", "tip"),
        )
        yield step(
            LID,
            "level",
            "Level the bench",
            (),
            "",
            ("Four corners first, middle supports last: 0.5 mm in a metre (1/64 in in 3 ft).",),
            ("Front faces still square within 0.5 mm (1/64 in).",),
        )

    def _fill(self) -> Iterator[Step]:
        drawers = self.pick("drawer side", "drawer front and back", "drawer bottom", "drawer face")
        if drawers:
            yield step(
                FILL,
                "slides",
                "Slides on their packing",
                (),
                "from the open face",
                (
                    "Set each slide on its spacer block.",
                    "Measure every bay at the slides, then cut the boxes.",
                ),
                ("Left and right slides of a drawer agree within 0.3 mm (1/64 in).",),
            )
            yield step(
                FILL,
                "drawers",
                "Drawer boxes and fronts",
                drawers,
                "from the open face",
                (
                    "One side, the two ends, the bottom into its grooves, the other side; then the face.",
                    "Hang the fronts with gauges of the gap's thickness.",
                ),
                ("Box width is taken from the measured bay, not from this page alone.",),
            )
        shelves = self.pick("shelf")
        if shelves:
            yield step(
                FILL,
                "shelves",
                "Shelves",
                shelves,
                "tilt in",
                ("Tilt each shelf in through its opening and lower it on its cleats.",),
            )
        if self.bench.storage.totes:
            yield step(
                FILL,
                "totes",
                "Totes",
                (),
                "from the open face",
                (
                    "Hang each tote by its rim on its two runners; push it from side to side: the rim stays on.",
                ),
            )
        yield step(
            FILL,
            "top",
            "Top board",
            self.pick("top"),
            "down",
            (
                "Seal both faces; fix it with brackets in oversize holes, so that it can move.",
                "Drill the grid from a template; break the edges.",
            ),
            cautions=("lift", "drill", "dust", "finish"),
        )
        yield step(
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
