"""The steps up to the base: preparing, the two end frames, cross-members, rails and posts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.bench.acts import BATTEN_ON, CHECKED, STAND_UP, THEN, Act
from generator.bench.frames.bars import end_rail_name
from generator.bench.model import Part
from generator.bench.place import ENDS, End
from generator.bench.role import STRIPS, Role
from generator.figures.hardware import nuts
from generator.figures.rows.assembly import Step
from generator.figures.steps import words
from generator.figures.steps.cutting_acts import IN_FLAT_WALLS, SEAL_EDGES, at_ends, on_boards
from generator.figures.steps.edge_bands import early_bands
from generator.figures.steps.finishing import early_finish
from generator.figures.steps.words import BASE, FRAMES, PREPARE, StepWriter, step
from generator.figures.tray_screws import tray_screws


class FrameSteps(StepWriter):
    """Tells the steps from the first cut to the square base."""

    def all(self) -> Iterator[Step]:
        """Steps in the usual order."""
        yield from self._cutting()
        yield from early_finish(self.bench)
        yield from self._strips()
        yield from self._nuts()
        for end, inward in zip(ENDS, ("+x", "-x"), strict=True):
            for each in (*self._lying(end), *self._upright(end)):
                yield replace(each, lies=inward)
        yield from self._base()
        yield from self._base_posts()

    def _cutting(self) -> Iterator[Step]:
        bars = tuple(part for part in self.bench.parts if part.is_bar)
        boards = self.pick(Role.DIVIDER, Role.END_PANEL, Role.SPINE_PANEL, Role.BACK_PANEL, Role.TRAY)
        pockets, _ = tray_screws(self.bench)
        deburr = "Deburr every end."
        yield step(
            PREPARE,
            "bars",
            "Cut, tap, drill and mark all bars",
            bars,
            "",
            (
                "Check each length against the part sheet before you drill.",
                deburr,
                "Write the mark, “top” and “front” on a face that will be hidden.",
                f"Try one joint ({self.default_joint()}) and one tongue on scrap.",
            ),
            (words.FIRST_JOINT,),
            ("saw", "chips", "drill", "router"),
            acts=at_ends(bars, deburr),
        )
        yield from early_bands(self.bench)
        yield step(
            PREPARE,
            "boards",
            "Cut the panels, tongues and notches; seal the edges",
            boards,
            "",
            (
                "Set the tongue on scrap first.",
                "Cut the same depth from both faces.",
                *(IN_FLAT_WALLS if pockets else ()),
                SEAL_EDGES,
            ),
            (words.TONGUE_FITS,),
            ("kickback", "dust", "finish"),
            places=pockets,
            acts=on_boards(pockets),
        )

    def _strips(self) -> Iterator[Step]:
        strips = self.pick(*STRIPS)
        if strips:
            flat = step(
                PREPARE,
                "strips",
                "Screw strips, runners and cleats to the walls",
                strips,
                "",
                (
                    *self._strip_lines(strips),
                    "Lay each wall flat.",
                    "Mark where the top of the base rail will be: the rail is not fitted yet. "
                    "The page Openings and drawers says how far this line is above the wall's lower edge.",
                    "Mark the heights from the story stick, up from this line.",
                    "Screw each piece on at its marks.",
                ),
                (words.HEIGHTS_AGREE,),
            )
            yield replace(flat, lies="+x")  # walls with strips are across the bench

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
                f"You need {count.total} nuts in total. {count.spare} of them are spare.",
                *(
                    (
                        "These nuts roll in through the slot. You can also put them in later, with their bolts.",
                    )
                    if roll_in
                    else (
                        words.TAPE,
                        "Take the tape off when a part goes in there.",
                    )
                ),
            ),
            () if roll_in else ("All nuts of this step are in. Later steps close these slots for good.",),
            shown=() if roll_in else (words.TAPE,),
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
            yield f"Rip these to the widths of the cut list first: {', '.join(ripped)}."
        if planed:
            yield f"Plane these to the thickness of the cut list first, all at one setting: {', '.join(planed)}."

    def _nut_lines(self) -> Iterator[str]:
        per_bar: dict[str, int] = {}
        for bolt in self.bench.stand.bolts:
            per_bar[bolt.member] = per_bar.get(bolt.member, 0) + 1
        if per_bar:
            counts = ", ".join(f"{n} in {mark}" for mark, n in per_bar.items() if mark)
            yield f"Put nuts into the bottom slots: {counts}."
        if self.spec.top.bracket is None:
            tops = " and ".join(part.mark for part in self.pick(Role.LONG_RAIL, level="top"))
            segments = len(self.bench.layout.lines) + 1
            yield f"Leave the inner slots of {tops} empty for now."
            yield (
                f"When you slide in the top cross-members, put 2 nuts in each of the {segments} spaces of a slot. "
                "One of the two is spare."
            )
            return
        waiting: dict[str, int] = {}
        for each in self.bench.brackets:
            waiting[each.bar] = waiting.get(each.bar, 0) + 1 + each.spare
        bars = ", ".join(f"{mark} {count}" for mark, count in waiting.items())
        yield f"Keep these for the inner slots of the top, spares included: {bars}. Later steps say when they go in."

    def _lying(self, end: End) -> Iterator[Step]:
        """An end frame, flat, up to what its posts go over."""
        base = self.pick(Role.BASE_END_MEMBER, end=end)
        rail = self.pick(Role.TRAY_END_RAIL, end=end)
        spine = self.pick(Role.END_SPINE_POST, end=end)
        between, panels, clip = *self._end_panels(end), self.joint.called
        members = " and ".join(part.mark for part in (*base, *rail))
        yield step(
            FRAMES,
            f"{end}-ring",
            f"{end.capitalize()} end frame, flat: lower members",
            (*base, *spine, *between, *rail),
            "along the slots" if spine else "laid in their places",
            (
                "Lay the parts on flat blocks, outer face down.",
                *(
                    f"Put {panel.mark} on before the spine post behind it. It cannot go in later."
                    for panel in between
                ),
                *(
                    self._spine_post()
                    if spine
                    else ("They are still loose: the panel and the posts will join them.",)
                ),
            ),
            shown=self._spine_post()[-2:] if spine else (),
        )
        if panels:
            yield step(
                FRAMES,
                f"{end}-panels",
                f"{end.capitalize()} end frame: panels",
                panels,
                "from the open sides",
                ("Turn the better face outward.", "Push each tongue fully into its slot."),
                (f"All panels of this frame are in. Only then fit the {clip}s: they block the panels.",)
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
                    f"Fit {clip}s on both ends of {members}, three turns each.",
                    f"Turn each {clip} so that its long side is along the post.",
                ),
            )

    def _upright(self, end: End) -> Iterator[Step]:
        """Its posts and what they carry, and the frame set upright."""
        top, clip = self.pick(Role.TOP_END_MEMBER, end=end), self.joint.called
        posts = self.pick(Role.CORNER_POST, end=end)
        upright = (Act(STAND_UP, CHECKED, words.UPRIGHT),)
        if not self.rails_run_through:
            yield step(
                FRAMES,
                f"{end}-posts",
                f"{end.capitalize()} end frame: corner posts",
                posts,
                "along their own length",
                (
                    "Keep the floor at one end of the frame free: the posts come from there, at their full length.",
                    f"Slide each post over the lower {clip}, the panel edge and the upper {clip}."
                    if self.joint.fitted
                    else "Slide each post over the panel's edge.",
                    *words.squared_later(self.joint, "frame"),
                ),
                shown=words.squared_later(self.joint, "frame"),
                acts=upright,
            )
            yield step(
                FRAMES,
                f"{end}-top",
                f"{end.capitalize()} end frame: top end member; square and tighten",
                top,
                "from the upper ends of the posts",
                (
                    *(
                        (
                            f"Fit {clip}s on both ends of the member, three turns each.",
                            f"Push the member with its {clip}s between the posts from their upper ends.",
                        )
                        if self.joint.fitted
                        else ("Push the member between the posts from their upper ends.",)
                    ),
                    "Square the frame by the diagonals below.",
                    words.TIGHTEN_ALL,
                    *words.STAND_UP,
                ),
                squares=(self.square("end frame", "0.5"),),
                shown=(words.TIGHTEN_ALL,),
                acts=upright,
            )
            return
        yield step(
            FRAMES,
            f"{end}-posts",
            f"{end.capitalize()} end frame: corner posts",
            posts,
            "along their own length",
            (
                f"Slide each post over the upper {clip} and the edges of the panels. "
                "Later the posts rest on the long rails.",
                *words.STAND_UP,
            ),
            squares=(self.square("end frame", "0.5"),),
            acts=upright,
        )

    def _spine_post(self) -> tuple[str, ...]:
        """How the spine post of an end frame comes between its two members."""
        clip = self.joint.called
        if not self.joint.fitted:
            return ("Set the spine post by the Y stick.", words.BY_HAND[0])
        return (
            f"Fit {clip}s on both ends of the spine post, three turns each.",
            f"Push the lower {clip} into the slot of the base end member.",
            f"Push the {end_rail_name(self.spec)} over the upper {clip}.",
            "Set the post by the Y stick.",
            words.BY_HAND[1],
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
        cross = self.pick(Role.BASE_CROSS_MEMBER)
        fit = (f"Fit {self.joint.many} on both ends of each cross-member, three turns each.",)
        clips = fit if cross and self.joint.fitted else ()
        spine = [part for part in self.pick(Role.INNER_POST) if not part.place.side]
        on_cross = words.posts_on_cross(self.joint) if spine else ()
        later = words.squared_later(self.joint, "base") if cross else ()
        if cross:
            yield step(
                BASE,
                "cross",
                "Spine posts on the base cross-members" if spine else "Base cross-members",
                (*cross, *spine),
                "along the cross-member's top slot" if spine else "each by itself",
                (*on_cross, *clips),
                shown=on_cross[-3:],
            )
        yield step(
            BASE,
            "rails",
            "Base rails on level blocks; cross-members in",
            self.pick(Role.LONG_RAIL, level="base"),
            "along the rails' inner slots",
            (
                self.bench.stand.step.blocks,
                "Slide the cross-members in from one end, the farthest one first."
                if cross
                else "Set the rails parallel.",
                *later,
            ),
            shown=(self.bench.stand.step.blocks, *later),
        )

    def _knee_posts(self) -> Iterator[Step]:
        """Posts beside leg room: rails and cross-members end on them."""
        posts = self.pick(Role.KNEE_POST)
        if not posts:
            return
        clip = self.joint.called
        yield step(
            BASE,
            "knee-posts",
            "Posts beside the leg room",
            posts,
            "down",
            (
                "Rails and cross-members that end at the leg room are still loose at this end. Put blocks under them.",
                f"Lower each post over the {clip}s of the rail and of the cross-member, until it is flush with "
                "their undersides."
                if self.joint.fitted
                else "Set each post between the rail and the cross-member, flush with their undersides.",
                "Tighten both screws by hand, through the holes in the post.",
            ),
            ("No bar crosses the leg room between these posts.",),
        )

    def _base_posts(self) -> Iterator[Step]:
        cross = self.pick(Role.BASE_CROSS_MEMBER)
        bare = [part for part in cross if not part.place.lines]
        posts = [part for part in self.pick(Role.INNER_POST) if part.place.side]
        if posts:
            yield step(
                BASE,
                "posts",
                "Front and rear posts on the base rails",
                posts,
                "along the rails' top slots",
                (
                    *(
                        (f"Fit one {self.joint.called} on the lower end of each post, three turns.",)
                        if self.joint.fitted
                        else ()
                    ),
                    "Slide the posts into the rails' top slots from the ends, the innermost first.",
                    *words.squared_later(self.joint, "base"),
                ),
                shown=words.squared_later(self.joint, "base"),
            )
        yield from self._knee_posts()
        if cross or posts or self.pick(Role.KNEE_POST):
            yield step(
                BASE,
                "base-square",
                "Set, square and tighten the base",
                (),
                "",
                (
                    *words.set_base(posts),
                    *(f"Set {part.mark} by the X stick: it has no post above it." for part in bare),
                    "Square the base by the diagonals below.",
                    *words.TIGHTEN_BASE,
                    "Keep the slots free: panels come in from above.",
                ),
                squares=(self.square("base inner", "1"),),
                shown=(*words.set_base(posts), words.TIGHTEN_BASE[0]),
                acts=(Act(BATTEN_ON, THEN, words.BATTEN),),
            )
