"""The end clip: a screw in the bar's tapped end holds a clip that rides in the crossing bar's slot."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from generator.bench.joints.facts import (
    MEASURED_STIFFNESS,
    DrillCard,
    Hole,
    InSlot,
    Joining,
    JointGoods,
    Solid,
)
from generator.bench.joints.screws import BOLT_MOUTH, longer_screw
from generator.bench.law import CHOICE, Case, Law, Verdict, at_least, at_most, said, to_limit
from generator.bench.terms import TermWords
from generator.calculators.fasteners import ACROSS_CORNERS, THREADS, end_clip_fit
from generator.codes import Code
from generator.findings import Change, dotted
from generator.provenance import constant
from generator.spec.goods import Profile
from generator.spec.joints import EndClip

#: Head of a button-head screw across, in thread diameters (ISO 7380-1, ASME B18.3; from memory).
BUTTON_HEAD = 1.75
SCRAPES = "Join one pair of off-cuts and slide them apart: the screw's head must not scrape the slot's floor."
ROLLED_IN = "rolled into the slot through its opening"
#: What a good maker keeps (mm). Common practice, no source.
MAY_BE_OFF = constant("0.1", "how far lip, clip and head may be off")
#: Common practice, no source (mm).
CLIP_BEARS = constant(2, "a clip is wider than the slot's mouth by at least")


def _lower_head(case: Case) -> tuple[Change, ...]:
    height = _card(case).head_height - case.off
    return case.length((*case.path, "head_height"), height, down=True)


def _other_clip(case: Case) -> tuple[Change, ...]:
    """A clip as wide as the limit says; none where the slot has no room between its mouth and its hollow."""
    bar, clip = case.goods.profile, _card(case).clip
    assert bar is not None
    slot = bar.slot
    if slot.opening + CLIP_BEARS > slot.undercut:
        return ()
    sizes = (clip[0], case.limit, clip[2])
    return (
        Change(dotted(case.path), f"[{', '.join(said(case.spec, size, down=case.down) for size in sizes)}]"),
    )


def _card(case: Case) -> EndClip:
    card = case.goods.joints[str(case.path[1])]
    assert isinstance(card, EndClip)
    return card


CLIP_STACK = Law(
    Code.CLIP_STACK, "error", "Lip, clip and screw head fit the slot's depth",
    "Lip, clip and screw head are deeper than the slot", "Take a lower head or a thinner clip.",
    "The screw's head would reach out of the slot and hold off the panel or the next bar.", _lower_head,
    quantity="lip, clip and head together",
)  # fmt: skip
CLIP_THREAD = Law(
    Code.CLIP_THREAD, "error", "The clip's screw has thread enough in the bore",
    "The clip's screw has too little thread in the bore", "Take a longer screw.",
    "A few threads in aluminium strip when you tighten the joint.", longer_screw,
    quantity="thread in the bore",
)  # fmt: skip
CLIP_MOUTH = Law(
    Code.CLIP_MOUTH, "error", "The clip is wider than the slot's mouth",
    "The clip is too narrow to bear on the slot's lips", "Take a wider clip.",
    "The lips carry the joint. A clip that slips through the mouth holds nothing.", _other_clip,
    quantity="width of the clip",
)  # fmt: skip
CLIP_UNDERCUT = Law(
    Code.CLIP_UNDERCUT, "error", "The clip fits the hollow of the slot",
    "The clip is wider than the hollow of the slot",
    "Take a narrower clip.", "The clip does not go into the slot.", _other_clip,
    quantity="width of the clip",
)  # fmt: skip
ACCESS_KEY = Law(
    Code.ACCESS_KEY, "error", "The key passes the access hole",
    "The key does not pass the access hole over its corners",
    "Drill a larger `access_hole`.",
    "You cannot tighten the joint, and the hole is hard to widen later.", to_limit,
    quantity="diameter of the access hole",
)  # fmt: skip
CLIPS_BACK_TO_BACK = Law(
    Code.CLIPS_BACK_TO_BACK, "error", "No two end clips face each other",
    "Two end clips face each other: neither key gets in", "Join one of the two members by a through screw.",
    "The other bar hides each screw.",
    CHOICE,
)  # fmt: skip


class EndClips:
    """Engages along the slot only: the panel in that slot makes room for it."""

    kind = "end clip"
    many = "end clips"
    joins = "profile"
    usual_masses: ClassVar = {"end clip": "0.035"}
    drill_cards = (
        DrillCard(
            "access hole",
            "access",
            "Access holes",
            "drill press with fence and stop, centre drill first",
            "Drill",
            (
                "Drill a test piece and put the key through. It must reach the slot of the joint freely.",
                "Drill from the face that the part sheet names. Go on until you reach the slot of the joint.",
            ),
            "The key turns the screw and does not touch the wall of the hole.",
            to_slot=True,
        ),
    )
    how_to_measure = (
        ("clip", "Length along the slot, width, thickness."),
        ("head_height", "How far the screw's head is above the tight clip."),
        ("screw", "Thread and length under the head, such as `M8x25`."),
        ("key", "Width across flats of the key. It is stamped on the key."),
        ("access_hole", "The smallest hole that the key passes through freely."),
        MEASURED_STIFFNESS,
    )
    laws = (CLIP_STACK, CLIP_THREAD, CLIP_MOUTH, CLIP_UNDERCUT, ACCESS_KEY, CLIPS_BACK_TO_BACK)
    terms = (
        TermWords(
            "end clip",
            "A small plate in the slot of one bar. A screw in the end of the other bar pulls it tight.",
            ("end clips",),
            ("end-clip", "end connector"),
        ),
    )

    def joining(self, name: str, card: EndClip, bar: Profile) -> Joining:
        """The clip under the lips, its head in the hollow, the key through the bar."""
        lip, (long, wide, thick) = float(bar.slot.lip), (float(size) for size in card.clip)
        diameter, length = float(THREADS[card.screw.thread].diameter), float(card.screw.length)
        head, under = BUTTON_HEAD * diameter, lip + thick
        screw = f"{card.screw} button-head screw"
        rolls_in = card.entry == "roll-in"
        return Joining(
            fastener=name,
            kind=self.kind,
            many=self.many,
            called="clip",
            looks="clip",
            screw=card.screw,
            engaged=card.screw.length - bar.slot.lip - card.clip[2],
            key=card.key,
            key_from=float(bar.slot.lip + card.clip[2] + card.head_height),
            holes=(
                Hole("access hole", card.access_hole, None, "key to ", timed="access hole", for_key=True),
            ),
            solids=(
                Solid((under - length, lip), diameter, diameter),
                Solid((lip, under), long, wide),
                Solid((under, under + float(card.head_height)), head, head),
            ),
            stiffness=card.stiffness,
            bought=(
                JointGoods(
                    self.kind,
                    name,
                    f"butt joints, each with one {screw}",
                    "clip",
                    card.clip,
                ),
                JointGoods(
                    f"{self.kind} screw",
                    screw,
                    f"{name}, into the tapped ends",
                    str(card.screw),
                ),
            ),
            in_slot=InSlot(
                card.clip[0],
                stack=bar.slot.lip + card.clip[2] + card.head_height,
                left=bar.slot.depth - bar.slot.lip - card.clip[2] - card.head_height,
                fit="screw head over the slot's floor",
                stacked="lip, clip and head",
                off=MAY_BE_OFF,
                test=SCRAPES,
                key="clip",
            ),
            slides_along=True,
            fitted=not rolls_in,
            unproved=ROLLED_IN if rolls_in else "",
            face_to_face=CLIPS_BACK_TO_BACK,
        )

    def holds(self, name: str, card: EndClip, bar: Profile) -> Iterator[Verdict]:
        """Lip, clip and head within the slot, and thread in the bore."""
        fit = end_clip_fit(
            lip=bar.slot.lip,
            clip=card.clip[2],
            head=card.head_height,
            slot_depth=bar.slot.depth,
            screw=card.screw.length,
            diameter=THREADS[card.screw.thread].diameter,
        )
        yield at_most(CLIP_STACK, fit.stack, fit.slot_depth, name, ("hardware", name))
        yield at_least(CLIP_THREAD, fit.thread, fit.thread_needed, name, ("hardware", name, "screw"))

    def suits(self, name: str, card: EndClip, bar: Profile) -> Iterator[Verdict]:
        """The clip under the lips, its screw through the slot's mouth, its key through its hole."""
        slot, wide, path = bar.slot, card.clip[1], ("hardware", name)
        yield at_least(CLIP_MOUTH, wide, slot.opening + CLIP_BEARS, name, (*path, "clip"))
        yield at_most(CLIP_UNDERCUT, wide, slot.undercut, name, (*path, "clip"))
        diameter = THREADS[card.screw.thread].diameter
        yield at_most(BOLT_MOUTH, diameter, slot.opening, name, (*path, "screw"))
        key = card.key * Fraction(str(ACROSS_CORNERS))
        yield at_least(ACCESS_KEY, card.access_hole, key, name, (*path, "access_hole"))
