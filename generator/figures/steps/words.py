"""What the steps of the assembly are written from: the bench's parts by group and place, and its diagonals."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from generator.bench.acts import Act
from generator.bench.fillings import FILLINGS
from generator.bench.joints.facts import Joining
from generator.bench.model import Bench, Part
from generator.bench.place import End, Level
from generator.bench.role import Role
from generator.figures.rows.assembly import PlaceRow, Square, Step
from generator.units.format import format_inch

PREPARE, FRAMES, BASE, CLOSE, FILL = (
    "Prepare",
    "End frames",
    "Base and posts",
    "Panels and closing",
    "Fill and finish",
)

#: Checks of what is made first, and what to do when they are not met.
FIRST_JOINT = "The test joint and the test tongue fit. If not, set the tool again and try on scrap."
TONGUE_FITS = (
    "The tongue slides in by hand, does not rattle, and stays in when you turn the bar over. "
    "If not, set the cutter again on scrap."
)
HEIGHTS_AGREE = (
    "Heights on the left and right walls agree within 0.3 mm (1/64 in). "
    "If not, take the strip off and mark its height again."
)

#: How a frame is set and tightened when it is square; also written below the pictures.
TIGHTEN_ALL = "Then tighten every screw through its access hole."
BATTEN = "Clamp a straight batten to the front of the posts, near their tops."
BATTEN_OFF = "Take off the batten."
TIGHTEN_BASE = ("Then tighten the cross-members first and the posts last.", BATTEN)
#: What comes after the squaring of an end frame.
STAND_UP = (
    "Have a strap ready: a standing frame tips over easily.",
    "Stand the frame up after the check below.",
    "Strap it to something firm at once.",
)
UPRIGHT = "Stand the frame up. Strap it to something firm at once: a standing frame tips over easily."
#: How tight the spine post is until the frame is square.
BY_HAND = ("Tighten it by hand.", "Tighten both screws by hand.")
TAPE = "Tape the slot ends so that no nut slides out."
TIGHTEN_UP = "Then tighten from the base up."


def set_base(posts: Sequence[Part]) -> tuple[str, ...]:
    """How the posts on the base rails are set: spacers go between two posts of one rail."""
    sides = [post.place.side for post in posts]
    if len(sides) > len(set(sides)):
        return ("Put the bay spacers between the inner posts.", "Set the outer bays by the X stick.")
    return ("Set the posts by the X stick.",) if posts else ("Set the bays by the X stick.",)


def squared_later(joint: Joining, what: str) -> tuple[str, ...]:
    """How tight a screw is that a key reaches before the frame is square."""
    if not joint.fitted:
        return ()
    return (f"Tighten the screws by hand: a later step squares the {what}, then tightens them.",)


def posts_on_cross(joint: Joining) -> tuple[str, ...]:
    """How the spine posts come onto the base cross-members."""
    fit = (f"Fit one {joint.called} on the lower end of each post, three turns.",) if joint.fitted else ()
    return (
        *fit,
        "Slide each post along the top slot of its cross-member.",
        "Set it by the Y stick.",
        "Square it to the cross-member.",
        "Tighten it from below through the access hole.",
    )


def key_size(across_flats: Fraction) -> str:
    """A hexagon key as it is stamped: whole millimetres, else a fraction of an inch."""
    if across_flats.denominator == 1:
        return f"{across_flats} mm"
    return f"{format_inch(across_flats, 64)} in"


def step(
    stage: str,
    key: str,
    title: str,
    parts: Iterable[Part],
    direction: str,
    notes: Iterable[str],
    hold: Iterable[str] = (),
    cautions: Iterable[str] = (),
    squares: Iterable[Square] = (),
    places: Iterable[PlaceRow] = (),
    shown: Iterable[str] = (),
    acts: Iterable[Act] = (),
) -> Step:
    """A step without its number and without what only the proved order knows."""
    marks = tuple(part.mark for part in parts)
    return Step(
        0, title, marks, direction, tuple(notes), tuple(hold), tuple(cautions), stage, key, tuple(squares),
        places=tuple(places), shown=tuple(shown), acts=tuple(acts),
    )  # fmt: skip


class StepWriter:
    """Parts of one bench for those who write its steps."""

    def __init__(self, bench: Bench, diagonals: dict[str, float]) -> None:
        spec = bench.spec
        self.spec, self.bench, self.diagonals = spec, bench, diagonals
        self.rails_run_through = spec.frame.through == "rails"
        self.joint = bench.joinings[spec.frame.joints.default]

    def pick(self, *roles: Role, end: End | None = None, level: Level | None = None) -> tuple[Part, ...]:
        """Parts of some roles, at one end or level where one is named."""
        return self.bench.of(*roles, end=end, level=level)

    def square(self, name: str, tolerance: str) -> Square:
        """A pair of diagonals to measure, and what they may differ by (mm)."""
        return Square(name, self.diagonals[name], Fraction(tolerance))

    def default_joint(self) -> str:
        """The default joint with its key."""
        return f"{self.joint.kind}, key {key_size(self.joint.key)}" if self.joint.key else self.joint.kind

    def fillings(self, stage: str, *, early: bool, last: bool = False) -> Iterator[Step]:
        """The steps of what fills the bays, before or after these close, or the last of all."""
        for kind in sorted(FILLINGS, key=lambda kind: kind.goes_in):
            for each in kind.steps(self.bench):
                if (each.early, each.last) == (early, last):
                    yield step(
                        stage,
                        each.key,
                        each.title,
                        each.parts,
                        each.direction,
                        each.notes,
                        each.hold,
                        each.cautions,
                        shown=each.shown,
                        acts=each.acts,
                    )
