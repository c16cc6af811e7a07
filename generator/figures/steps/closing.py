"""The steps from the panels to the bench on its feet: closing, top grid, what it stands on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.acts import (
    BATTEN_OFF,
    CENTRE_OUT,
    FIRST,
    LEVELS,
    LOWER,
    LOWERING,
    NOW,
    PAINT,
    STRAP,
    THEN,
    Act,
)
from generator.bench.model import Part
from generator.bench.place import ENDS, End
from generator.bench.role import Role
from generator.figures.rows.assembly import PlaceRow, Step
from generator.figures.steps import words
from generator.figures.steps.words import CLOSE, StepWriter, step
from generator.figures.tray_screws import tray_holes, tray_screws

#: The tray is screwed when both end frames hold it.
UNSCREWED = "Do not screw it yet."
#: How what is tightened for good in a later step is tightened.
BY_HAND = "Tighten them by hand."
#: A bench that stands on more has some between its corners.
CORNERS = 4


class ClosingSteps(StepWriter):
    """The words of the steps from the first panel to the level bench."""

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
                    ("Lower each panel between its posts.", *self._loose(parts)),
                    shown=tuple(self._loose(parts)),
                )
        yield from self._lower_tray()
        yield from self._extra_panels()
        yield from self.fillings(CLOSE, early=True)
        for end, direction in zip(ENDS, ("push to the right", "push to the left"), strict=True):
            frame = self._at_end_frame(end)
            joint = self.bench.joinings[self.spec.frame.joints.long_rails_to_corner_posts].kind
            yield step(
                CLOSE,
                f"close-{end}",
                f"{end.capitalize()} end frame on",
                frame,
                direction,
                (
                    f"Guide {'the tray tongue, ' if self.tray else ''}the panel tongues and the rail ends in together.",
                    f"Fit the bottom joints ({joint}).",
                    BY_HAND,
                    *self._strapped(end),
                ),
                (
                    "Every tongue is fully in its slot, over its whole length. Only then tighten the bottom joints.",
                ),
                ("pinch", "lift"),
                shown=(BY_HAND,),
                acts=(Act(STRAP, THEN, line) for line in self._strapped(end)),
            )

    @property
    def tray(self) -> tuple[Part, ...]:
        """The tray or its pieces; empty on a bench without it."""
        return self.pick(Role.TRAY)

    def _lower_tray(self) -> Iterator[Step]:
        inner = self.pick(Role.INNER_POST, Role.KNEE_POST)
        tray = self.tray
        if not tray:
            return
        pieces = (
            f"Lower {tray[0].mark} first, then the others to its right. Each half lap goes over the one before it.",
            "Push each joint together over its divider until the gap at both shoulders is the same.",
        )
        yield step(
            CLOSE,
            "tray",
            "Tray over all inner posts" if inner else "Tray",
            tray,
            "down",
            (
                *((words.BATTEN_OFF,) if inner else ()),
                *(pieces if len(tray) > 1 else ("Lower the tray until it rests on every wall.",)),
                UNSCREWED,
            ),
            ("The tray is in. It cannot go in once both end frames are on.",),
            ("lift",),
            shown=(UNSCREWED,),
            acts=(Act(BATTEN_OFF, FIRST, words.BATTEN_OFF),) if inner else (),
        )

    def _extra_panels(self) -> Iterator[Step]:
        """The spec has their places and no word of what holds them."""
        panels = self.pick(Role.EXTRA_PANEL)
        if not panels:
            return
        say = self.bench.loaded.say
        places = (
            f"Set {panel.mark} {say(panel.box.x.low)} from the frame's left, {say(panel.box.y.low)} from its front, "
            f"{say(panel.box.z.low)} above its underside."
            for panel in panels
        )
        yield step(
            CLOSE,
            "extra-panels",
            "Extra panels",
            panels,
            "down",
            (*places, "Fix each with glue or screws, as its designer says: the spec says only where it is."),
        )

    def _strapped(self, end: End) -> Iterator[str]:
        """Without a tray nothing else asks for the strap, once both end frames are on."""
        if not self.tray and end == ENDS[-1]:
            yield "Put a strap around the bench at the middle end rails: it holds both end frames on the tongues."

    def _fix_tray(self) -> Iterator[Step]:
        if not self.tray:
            return
        trims = self.pick(Role.TRAY_TRIM)
        pockets, above = tray_screws(self.bench)
        strap = "Put a strap around the bench at tray height: it holds both end frames against the tray."
        yield step(
            CLOSE,
            "tray-fix",
            "Fix the tray" + (" and its trim" if trims else ""),
            trims,
            "against the tray's edges" if trims else "",
            (
                strap,
                *(
                    (
                        "At each joint the screws go through both half laps. Drill the holes in the upper one as "
                        "wide as the shank.",
                    )
                    if len(self.tray) > 1
                    else ()
                ),
                *self._tray_notes(pockets, above),
                *(
                    (
                        "Put one leg of the trim against the tray's edge, flush with the posts. The other leg goes "
                        "under the tray, as the section on its part sheet shows.",
                        "Screw the trim on from below.",
                    )
                    if trims
                    else ()
                ),
            ),
            places=(*pockets, *above, *tray_holes(self.bench, above)),
            acts=(Act(STRAP, FIRST, strap),),
        )

    @staticmethod
    def _tray_notes(pockets: Sequence[PlaceRow], above: Sequence[PlaceRow]) -> Iterator[str]:
        if pockets:
            yield f"Drive screws up through the pockets of {', '.join(row.part for row in pockets)} into the tray."
        if above:
            yield f"Drive screws down through the tray into the top edge of {', '.join(row.part for row in above)}."
        if not (pockets or above):
            yield "Its tongues hold the tray. It needs no screws, because there are no dividers."

    def _loose(self, panels: Sequence[Part]) -> Iterator[str]:
        """Panels that fewer than two posts hold until the end frames come."""
        posts = self.pick(Role.INNER_POST, Role.KNEE_POST)
        loose = [
            panel.mark
            for panel in panels
            if sum(all(post.box.span(a).overlap(panel.box.span(a)) > 0 for a in "xyz") for post in posts) < 2
        ]
        if loose:
            yield f"Hold {', '.join(loose)} with tape or a clamp until the end frames are on: one post is not enough."

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
        then = f"Then tighten all {self.joint.many}."
        yield step(
            stage,
            "grid",
            "Top grid, flat",
            grid,
            "along the rails' inner slots",
            (
                (
                    *(
                        (f"Fit {self.joint.many} on both ends of each cross-member, three turns each.",)
                        if self.joint.fitted
                        else ()
                    ),
                    "Slide the cross-members in.",
                    "Set them by the X stick.",
                    "Square the grid by the diagonals below.",
                    then,
                )
                if cross
                else ("Lay the rails parallel. They are still loose.",)
            ),
            (
                f"All these {self.joint.called}s are tight. Later screws cover them: you cannot reach them again.",
            )
            if cross
            else (),
            squares=(self.square("top grid", "1"),) if cross else (),
            shown=(then,) if cross else (),
        )
        # with rails running through, the posts' heads decide whether it goes down or along: the proof knows
        how = "" if self.rails_run_through else "down, as a lid"
        inner = self.pick(Role.INNER_POST, Role.KNEE_POST)
        off = (words.BATTEN_OFF,) if inner and not self.tray else ()
        order = (
            *(() if self.rails_run_through else ("Screw the grid to the corner posts first.",)),
            "Screw the grid to the inner posts from above, from the centre to the ends.",
        )
        yield step(
            stage,
            "lid",
            "Top grid on",
            (),
            how,
            (*off, *order),
            cautions=("lift", "pinch"),
            acts=(
                *(Act(BATTEN_OFF, FIRST, line) for line in off),
                Act(CENTRE_OUT, THEN, " ".join(order)),
            ),
        )

    def _square_and_level(self) -> Iterator[Step]:
        stage, on = self.bench.stand.words.stage, self.bench.stand.step
        again, paint = (
            "Measure the diagonals again after each level.",
            "Mark each tightened screw with paint.",
        )
        soft = "Do not turn further when a thread feels soft."
        yield step(
            stage,
            "square",
            "Square all faces and tighten",
            (),
            "",
            (
                "Square all faces by the diagonals below.",
                words.TIGHTEN_UP,
                self._torque(),
                soft,
                again,
                paint,
            ),
            squares=(self.square("outer", "1"), self.square("front face", "0.5")),
            acts=(
                Act(LEVELS, NOW, f"{words.TIGHTEN_UP} {again}"),
                Act(PAINT, THEN, f"{self._torque()} {soft} {paint}"),
            ),
        )
        yield step(
            stage,
            on.key,
            on.title,
            self.bench.stand.parts,
            on.direction,
            (*on.before, *on.notes),
            cautions=on.cautions,
            # what is said before the bench comes down from its blocks
            shown=on.notes[1:-1],
            acts=(Act(LOWER, THEN, note) for note in on.notes if note.startswith(LOWERING)),
        )
        last = " first and the middle last" if len(self.bench.stand.pictures) > CORNERS else ""
        level = f"Level the four corners{last}, within 0.5 mm in a metre (1/64 in in 3 ft)."
        yield step(
            stage,
            "level",
            "Level the bench",
            (),
            "",
            (level,),
            ("The front faces are still square within 0.5 mm (1/64 in). If not, level it again.",),
            shown=(level,),
        )

    def _torque(self) -> str:
        """Trade practice for M8 in aluminium; other threads at the same stress have their row in a table."""
        joints = {joint.fastener for joint in self.bench.joints}
        screws = (self.bench.joinings[name].screw for name in joints)
        threads = {screw.thread for screw in screws if screw is not None}
        if threads == {"M8"}:
            return (
                "Use the torque that the maker of the fastener gives. Without a value, use 12 to 18 N m for M8 in "
                "aluminium (trade practice, not a standard)."
            )
        return (
            "Use the torque that the maker of the fastener gives. Without a value, use the table Tightening on the "
            "page At the machine (trade practice, not a standard)."
        )
