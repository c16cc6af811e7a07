"""A timber frame in words: its steps with glue and clamps, and its terms."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil

from generator.bench.frames.facts import Framed, GlueUp, StepSays
from generator.bench.frames.floating_words import floating_notes, pushed_in
from generator.bench.frames.timber_glue import glue_ups
from generator.bench.joints.facts import Joining
from generator.bench.place import ENDS, End
from generator.bench.role import Role
from generator.bench.terms import TermWords

TERMS = (
    TermWords(
        "glue-up", "All that is glued and clamped together, before the glue has a skin.", ("glue-ups",)
    ),
    TermWords("open time", "How long a glue stays wet enough for its joint to be closed."),
    TermWords(
        "coach screw",
        "A thick wood screw with a hexagon head. A spanner drives it.",
        ("coach screws",),
        ("lag screw", "lag bolt"),
    ),
)
CAUTIONS: Mapping[str, tuple[str, str, str]] = {
    "mortiser": (
        "warning",
        "Mortiser and router on long timber",
        "Clamp the timber and hold up its far end. Keep both hands off the side where the chisel or cutter comes out. "
        "Cut in passes. Wait until the tool has stopped before you clear the chips.",
    ),
}
WIND = "Sight over both posts: they must not be in wind."
UPRIGHT = (
    "Have a strap ready: a standing frame tips over easily.",
    "Stand the frame up when the clamps are off.",
    "Strap it to something firm at once.",
)


def steps(bench: Framed) -> Mapping[str, StepSays | None]:
    """The words of every step that speaks of joints, grooves or bolts."""
    ups: dict[str, list[GlueUp]] = {}
    for each in glue_ups(bench):
        ups.setdefault(each.step, []).append(each)
    says: dict[str, StepSays | None] = {"nuts": None, **_prepare(bench)}
    for end in ENDS:
        says |= _end_frame(bench, end, ups)
    return says | _base(bench, ups) | _closing(bench, ups)


def _joint(bench: Framed, key: str) -> Joining:
    return bench.joinings[getattr(bench.loaded.spec.frame.joints, key)]


def _pockets(bench: Framed) -> dict[str, str]:
    """What the ends that go into other timbers are called -> what several of the places for them are called."""
    used = [bench.joinings[joint.fastener] for joint in bench.joints]
    return {
        each.called: f"{each.pocket}{'es' if each.pocket.endswith('ch') else 's'}"
        for each in used
        if each.pocket
    }


def _prepare(bench: Framed) -> dict[str, StepSays | None]:
    pockets = _pockets(bench)
    marked = " and ".join(("shoulder lines", *pockets.values()))
    return {
        "bars": StepSays(
            title="Cut, joint and mark all timbers",
            notes=(
                "Measure the moisture of the wood first, by its set-up card. Wait if it is too damp.",
                "Plane all timbers of one size at one setting, and leave them for some days in the shop.",
                f"Clamp the timbers of a set side by side. Mark all {marked} across them at once.",
                "Work from one face and one end of each timber, never from mixed ones.",
                *(
                    f"Cut the {pockets[each]} first, then the {each}s to fit them, then the grooves."
                    for each in pockets
                ),
                "Drill the holes last, when a dry joint shows that they meet.",
                "Write the mark, “top” and “front” on a face that will be hidden.",
                "Make one joint of off-cuts first, and one groove with a piece of its panel.",
            ),
            hold=(
                "The test joint goes together by hand. No light shows at its shoulders. "
                "If not, set the tool again and try on scrap.",
            ),
            cautions=("kickback", "mortiser", "drill", "dust"),
        ),
        "boards": StepSays(
            title="Cut the panels and their notches; seal the edges",
            notes=(
                "Try a piece of the sheet in a groove first.",
                "First put each frame together dry, without panels, and compare its openings with the part sheets.",
                "Only then cut the panels.",
                *floating_notes(bench),
                "Seal the edges: you cannot reach them in the grooves later.",
            ),
            hold=(
                "Each panel slides in by hand and does not rattle. If not, set the cutter again on scrap.",
            ),
            cautions=("dust", "finish"),
        ),
    }


def _glued(
    ups: Sequence[GlueUp],
    *acts: str,
    square: str = "",
    dry: Sequence[str] = (),
    between: Sequence[str] = (),
) -> Iterator[str]:
    """A step with its glue, clamps and minutes; several glue-ups of one kind are done one after the other.

    `acts` put the timbers together, `dry` is done at them without glue, `between` when the clamps are on, and `square`
    is what is squared then: both before the glue sets. Without glue the acts alone are left.
    """
    if not ups:
        yield from (*dry, *acts, *between)
        return
    first, minutes = ups[0], ceil(max(each.minutes for each in ups))
    stays = f"The glue stays open for {_minutes(float(min(each.open_time for each in ups)))}."
    if len(ups) > 1:
        yield f"Glue them one after the other, {minutes} minutes each. {stays}"
    else:
        yield "Put it together dry first."
        yield from dry
        yield f"Take it apart again. The glue-up takes {minutes} minutes. {stays}"
    yield from dict.fromkeys(act for each in ups for act in each.act)
    yield from acts
    most = max(ups, key=lambda each: each.clamps)
    yield f"Close the joints with {_clamps(most.clamps - most.across)}, each in line with its timber."
    if most.across:
        more = "a clamp more" if most.across == 1 else f"{most.across} more clamps"
        yield f"Then press each lap across both of its faces, with {more} and pads."
    yield from between
    if square:
        yield f"Square the {square} by the diagonals below, before the glue sets."
    yield f"Wipe off what comes out. Leave the clamps on for {_minutes(float(first.wait))} minutes."


def _minutes(value: float) -> str:
    return f"{value:g}"


def _clamps(count: int) -> str:
    return "a clamp" if count == 1 else f"{count} clamps"


def _end_frame(bench: Framed, end: End, ups: Mapping[str, list[GlueUp]]) -> dict[str, StepSays | None]:
    spine = bench.of(Role.END_SPINE_POST)
    ring, posts = ups.get(f"{end}-ring", []), ups.get(f"{end}-posts", [])
    bolted = _bolted(_joint(bench, "default"))
    top = "Lay the top end member in its place now: it cannot go in when the posts are on."
    return {
        f"{end}-ring": StepSays(
            direction="post on member" if spine else "laid in their places",
            notes=(
                "Lay the timbers on flat blocks, outer face down.",
                *((*_glued(ring, "Set the spine post by the Y stick."), *bolted) if spine else ()),
                *(() if spine else ("They are still loose: the posts will join them.",)),
            ),
        ),
        f"{end}-panels": StepSays(
            notes=("Turn the better face outward.", *pushed_in(bench)),
            hold=("All panels of this frame are in. They cannot go in later.",),
        ),
        f"{end}-top": StepSays(
            title=f"{end.capitalize()} end frame: top end member",
            direction="laid in its place",
            notes=(top,),
        ),
        f"{end}-posts": StepSays(
            title=f"{end.capitalize()} end frame: corner posts; glue and square"
            if posts
            else f"{end.capitalize()} end frame: corner posts; {_closes(_joint(bench, 'default')).lower()} and square",
            direction="from the front and from the rear",
            notes=(
                *_glued(
                    posts,
                    "Push the posts on from the front and from the rear.",
                    square="frame",
                    between=(WIND,),
                ),
                *bolted,
                *(() if posts else ("Square the frame by the diagonals below.", WIND)),
                *_horns(bench, end),
                *UPRIGHT,
            ),
        ),
    }


def _horns(bench: Framed, end: End) -> tuple[str, ...]:
    """What is sawn off when the glue has set."""
    if not any(post.horns for post in bench.of(Role.CORNER_POST, end=end)):
        return ()
    return ("Take the clamps off. Saw off the horns of both posts, at the marks of their ends.",)


def _bolted(joining: Joining) -> tuple[str, ...]:
    """How a joint that is not glued is closed."""
    return () if joining.glue is not None else joining.closing


def _base(bench: Framed, ups: Mapping[str, list[GlueUp]]) -> dict[str, StepSays | None]:
    bolted = _bolted(_joint(bench, "default"))
    spine = any(not post.place.side for post in bench.of(Role.INNER_POST))
    tenons = any(member.tenons for member in bench.of(Role.BASE_CROSS_MEMBER))
    return {
        "cross": None
        if tenons and not spine
        else StepSays(
            direction="post on member" if spine else "each by itself",
            notes=(
                *_glued(
                    ups.get("cross", []),
                    *(("Set each post by the Y stick and square it to its member.",) if spine else ()),
                ),
                *bolted,
            ),
        ),
        "rails": StepSays(
            direction="front rail, cross-members, rear rail",
            notes=(
                _blocks(bench),
                *_nuts(_joint(bench, "long_rails_to_corner_posts")),
                *_glued(
                    ups.get("rails", []),
                    "Lay the front rail, put the cross-members into it, and close with the rear rail."
                    if bench.of(Role.BASE_CROSS_MEMBER)
                    else "Set the rails parallel.",
                    square="base",
                ),
                *(bolted if bench.of(Role.BASE_CROSS_MEMBER) else ()),
            ),
            squared_as="base-square" if "rails" in ups else "",
        ),
        "posts": StepSays(
            direction="down",
            notes=(
                *_glued(
                    ups.get("posts", []),
                    f"Lower each post into its {_joint(bench, 'default').pocket}. Its grooves look at the bays."
                    if "posts" in ups
                    else "Set each post at its marks.",
                    between=_spaced(bench) if "posts" in ups else (),
                ),
                *bolted,
                *(("Keep the grooves free of glue: panels come in from above.",) if "posts" in ups else ()),
            ),
        ),
        "base-square": _checked_base(bench, "posts" in ups),
    }


def _spaced(bench: Framed) -> tuple[str, ...]:
    """What sets the posts between the corners upright, and as far apart as their bays are wide."""
    sides = [post.place.side for post in bench.of(Role.INNER_POST) if post.place.side]
    between = len(sides) > len(set(sides))
    return (
        *(
            ("Put the bay spacers between the inner posts, at their feet and near their tops.",)
            if between
            else ()
        ),
        "Check each post with a square on its rail, both ways.",
    )


def _checked_base(bench: Framed, glued: bool) -> StepSays:
    """The base with its posts: squared, or, where these are glued, measured once more."""
    checked = (
        "Take the clamps off.",
        "Check the base by the diagonals below, and the posts by the square.",
    )
    squared = (*_spaced(bench), "Square the base by the diagonals below.")
    return StepSays(
        title="Check the base" if glued else "Set and square the base",
        notes=(
            *(checked if glued else squared),
            "Clamp a straight batten to the front of the posts, near their tops.",
        ),
    )


def _nuts(joining: Joining) -> tuple[str, ...]:
    """What is put into the rails before they meet their posts."""
    if joining.cross is None:
        return ()
    return (
        "Put the barrel nuts into both ends of the rails now, their threads in line with the bolts.",
        "Tape over their holes, so that none falls out.",
    )


def _closes(joining: Joining) -> str:
    return "Screw" if joining.screwed else "Bolt"


def _tightened(joining: Joining) -> tuple[str, ...]:
    """How the joints that close the frame are tightened when it is square."""
    if joining.screwed:
        return ("Then drive all screws home, from the base up.",)
    return (
        "Then tighten all bolts, from the base up.",
        "Stop when the washer begins to press into the wood.",
    )


def _then(joining: Joining) -> str:
    return f"Only then {'drive the screws home' if joining.screwed else 'tighten the bottom joints'}."


def _blocks(bench: Framed) -> str:
    return "Work on level blocks, high enough for your hands and for what the bench will stand on."


def _closing(bench: Framed, ups: Mapping[str, list[GlueUp]]) -> dict[str, StepSays | None]:
    corner, heads = _joint(bench, "long_rails_to_corner_posts"), _joint(bench, "inner_post_tops")
    nuts = _nuts(corner)
    says: dict[str, StepSays | None] = {
        f"close-{end}": StepSays(
            notes=(
                f"Guide {'the tray, ' if bench.of(Role.TRAY) else ''}the panels and the rail ends in together.",
                *(
                    corner.closing
                    if corner.screwed
                    else (f"Fit the bottom joints ({corner.kind}).", "Tighten them by hand.")
                ),
            ),
            hold=(f"Every panel is fully in its groove, over its whole length. {_then(corner)}",),
        )
        for end in ENDS
    }
    inner = bool(bench.of(Role.INNER_POST))
    says["grid"] = StepSays(
        direction="front rail, cross-members, rear rail",
        notes=(
            *nuts,
            *_glued(
                ups.get("grid", []),
                "Lay the front rail, put the cross-members into it, and close with the rear rail.",
                square="grid",
            ),
            *_bolted(_joint(bench, "default")),
            *(() if "grid" in ups else ("Square the grid by the diagonals below.",)),
        )
        if bench.of(Role.TOP_CROSS_MEMBER)
        else ("Lay the rails parallel. They are still loose.", *nuts),
        hold=(),
    )
    says["lid"] = StepSays(
        notes=(
            *(
                ("Put the barrel nuts into the heads of the inner posts.",)
                if inner and heads.cross is not None
                else ()
            ),
            *_glued(
                ups.get("lid", []),
                "Lower the grid between the corner posts"
                + (" and onto the heads of the inner posts." if inner else "."),
                *(corner.closing[1:] if corner.screwed else ("Bolt the grid to the corner posts, by hand.",)),
                square="bench",
                dry=corner.closing[:1] if corner.screwed else (),
            ),
            *(
                (f"{_closes(heads)} it to the inner posts from above.",)
                if inner and heads.glue is None
                else ()
            ),
        ),
        squared_as="square" if "lid" in ups else "",
    )
    return says | {"square": _squared(corner)}


def _squared(corner: Joining) -> StepSays:
    """All faces are squared before the joints that close the frame are tightened."""
    return StepSays(
        notes=(
            "Square all faces by the diagonals below.",
            *_tightened(corner),
            "Measure the diagonals again after each level.",
            *(
                ("Tighten the bolts again after a week, a month and a year: wood shrinks.",)
                if corner.cross
                else ()
            ),
        )
    )
