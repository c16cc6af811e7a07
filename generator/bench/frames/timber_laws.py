"""What a frame of timber refuses, and what it judges on the placed members."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from generator.bench.frames.facts import Framed, GlueUp
from generator.bench.frames.timber_bodies import holes_that_meet
from generator.bench.frames.timber_glue import GLUED_IN, glue_ups
from generator.bench.frames.timber_pockets import with_ways
from generator.bench.joints import joinings, joins
from generator.bench.law import CHOICE, GOODS, Law, Verdict, at_least, by_the_check
from generator.bench.piece import MORTISES, Joint, Part
from generator.bench.role import Role
from generator.calculators.fasteners import THREADS
from generator.calculators.wood_joints import EDGE, SHORTEST_TENON, barrel_window
from generator.codes import Code
from generator.findings import Change, Finding, one_of
from generator.geometry import FACES, Span
from generator.provenance import constant
from generator.spec.load import LoadedSpec

TENON_SHORT = Law(
    Code.TENON_SHORT, "error", "Every tenon and lap in a post is long enough",
    "A tenon or lap in a post is too short to hold",
    "Take thicker posts, a thinner bolt or screw with a smaller recess, or another joint at this corner.",
    "A bolt, a screw or another tenon in the same post leaves it no space, and a short one pulls out.", GOODS,
    quantity="length of the tenon or lap",
)  # fmt: skip
LAPS_LEFT = Law(
    Code.LAPS_LEFT, "warning", "Laps from two sides leave enough of a post",
    "Laps from two sides leave too little of a post", "Take thicker posts, or mortises and tenons here.",
    "The thin post breaks there when the frame is lifted or pushed.", GOODS,
    quantity="thickness that both laps leave",
)  # fmt: skip
POCKETS_ALONE = Law(
    Code.POCKETS_ALONE, "warning", "No post is held upright by light screws alone",
    "A post is held upright by light screws alone",
    "Name a stiffer joint for `long_rails_to_corner_posts` or `default`.",
    "Every push at the top turns these joints, and the screws work loose.", CHOICE,
)  # fmt: skip
GLUE_TIME = Law(
    Code.GLUE_TIME, "warning", "Each glue-up is done before the glue sets",
    "A glue-up takes longer than the glue stays open",
    "Take a glue with a longer open time. Or let a second person spread glue, and count half of the minutes.",
    "Glue that has a skin before the clamps are tight holds nothing.", by_the_check,
    quantity="minutes of the glue-up",
)  # fmt: skip
BOLT_EDGE = Law(
    Code.BOLT_EDGE, "warning", "Every bolt and screw is far enough from the edges of its timber",
    "A bolt or screw is near the edge of its timber",
    "Take a larger timber, thinner fasteners, or tenons as `default`.",
    "Where two cross in one timber, both are beside its middle. A thin edge splits when you tighten them.", GOODS,
    quantity="from the axis of the fastener to the edge of its timber",
)  # fmt: skip
FASTENERS_MEET = Law(
    Code.FASTENERS_MEET, "error", "No holes of different joints meet in a timber",
    "Holes of different joints meet in a timber", "Take larger timbers, or other joints here.",
    "The second drill runs into the first fastener, and neither of them holds.", GOODS,
)  # fmt: skip
BOLT_THROUGH = Law(
    Code.BOLT_THROUGH, "error", "Each bolt is long enough for the timber that it goes through",
    "A bolt is too short for the timber that it goes through", "Name another, longer bolt for this joint.",
    "One length does not fit both a post and a rail that is higher than the post is thick.", GOODS,
    quantity="length of the bolt",
)  # fmt: skip
LAWS = (TENON_SHORT, BOLT_EDGE, BOLT_THROUGH, FASTENERS_MEET, LAPS_LEFT, POCKETS_ALONE, GLUE_TIME)

#: What laps from two sides leave of a post's thickness (mm). Common practice, no source.
LEAST_LEFT = constant(30, "thickness that laps from two sides leave of a post")
JOINT_KEYS = ("default", "long_rails_to_corner_posts", "inner_post_tops")


def timber_refusals(loaded: LoadedSpec) -> Iterator[Finding]:
    """Faults of the spec that no timber frame can be built by."""
    spec = loaded.spec
    if spec.frame.posts is None:
        yield loaded.fault(
            Code.MISSING_KEY,
            "a timber frame needs the timber of its posts",
            "frame",
            allowed="`posts: NAME`, the name of a timber under `materials`",
        )
        return
    yield from _through(loaded)
    yield from _sections(loaded)
    yield from _joints(loaded)
    yield from _no_leg_room(loaded)
    yield from _no_doors(loaded)


def _through(loaded: LoadedSpec) -> Iterator[Finding]:
    if loaded.spec.frame.through == "rails":
        yield loaded.fault(
            Code.CLOSING_JOINTS,
            "in a timber frame the posts run through: a rail that ran over a post would press on its end grain, and "
            "the post's tenon would take the rail's strength",
            "frame",
            "through",
            found="rails",
            allowed="posts",
        )


def _sections(loaded: LoadedSpec) -> Iterator[Finding]:
    goods, spec = loaded.goods, loaded.spec
    members = goods.members
    post, rail = goods.timbers[members.posts], goods.timbers[members.rails]
    if post.section[0] != post.section[1]:
        yield loaded.fault(
            Code.NO_SIZE,
            "the posts of this frame are square: panels come into them from two sides",
            "materials", members.posts, "section",
            found=f"[{loaded.say(post.section[0])}, {loaded.say(post.section[1])}]",
            allowed="two equal sizes",
        )  # fmt: skip
    if rail.section[0] != members.section:
        yield loaded.fault(
            Code.NO_SIZE,
            "rails and cross-members are as thick as the posts, so that the grooves of both are in one line",
            "materials", members.rails, "section",
            found=loaded.say(rail.section[0]),
            allowed=f"[{loaded.say(members.section)}, a width]",
        )  # fmt: skip
    if members.groove * 3 > members.section:
        yield loaded.fault(
            Code.NO_SIZE,
            "grooves in two sides of a post would leave too little between them",
            "frame", "groove",
            found=loaded.say(members.groove),
            allowed=f"a third of the post or less: {loaded.say(members.section / 3)}",
        )  # fmt: skip
    if spec.panels.tongue is not None and spec.panels.tongue >= members.groove:
        yield loaded.fault(
            Code.TONGUE_TOO_LONG,
            "the panel reaches further than its groove is deep",
            "panels", "tongue",
            found=loaded.say(spec.panels.tongue),
            allowed=f"less than {loaded.say(members.groove)}",
        )  # fmt: skip


def _joints(loaded: LoadedSpec) -> Iterator[Finding]:
    goods, joints = loaded.goods, loaded.spec.frame.joints
    fitting = [name for name in goods.joints if joins(goods, name)]
    for key in JOINT_KEYS:
        name = getattr(joints, key)
        if not joins(goods, name):
            yield loaded.fault(
                Code.CLOSING_JOINTS,
                f"the joint “{name}” is for slotted bars, not for timber",
                "frame", "joints", key,
                found=name,
                allowed=one_of(fitting) if fitting else "a joint for timber under `hardware`",
            )  # fmt: skip
            continue
        if key == "long_rails_to_corner_posts" and joinings(goods)[name].glue is not None:
            yield loaded.fault(
                Code.CLOSING_JOINTS,
                "the end frames close along the rails, over tray and panels, and open again for transport: this joint "
                "is glued",
                "frame", "joints", key,
                found=name,
                allowed="a joint that opens again, such as a barrel bolt",
            )  # fmt: skip


def _no_leg_room(loaded: LoadedSpec) -> Iterator[Finding]:
    for zone, each in enumerate(loaded.spec.zones):
        for bay, one in enumerate(each.bays):
            if one.knee:
                yield loaded.fault(
                    Code.WALL_WITHOUT_PLACE,
                    "leg room in a timber frame would cut the glued base rail in two",
                    "zones", zone, "bays", bay, "knee",
                    allowed="no `knee`, or a frame of slotted bars",
                )  # fmt: skip


def _no_doors(loaded: LoadedSpec) -> Iterator[Finding]:
    if loaded.goods.hinge.cup is not None:
        return
    for zone, each in enumerate(loaded.spec.zones):
        for bay, one in enumerate(each.bays):
            if one.door is not None:
                yield loaded.fault(
                    Code.WALL_WITHOUT_PLACE,
                    "the butt hinges of these doors are bolted into slots, which timber does not have",
                    "zones", zone, "bays", bay, "door",
                    allowed="`doors: {hinge: NAME}`, a hinge with a `cup`",
                )  # fmt: skip


def judge_timber(bench: Framed) -> Iterator[Verdict]:
    """Tenons in posts, bolts at edges, holes that meet, and the time of each glue-up."""
    yield from _tenons_in_posts(bench)
    yield from _bolts_at_edges(bench)
    yield _light_posts(bench)
    yield from _between_laps(bench)
    meet = next(holes_that_meet(with_ways(bench.parts, bench.joints, bench.joinings)), "")
    yield Verdict(FASTENERS_MEET, not meet, meet, ("frame", "joints", "default"))
    for each in glue_ups(bench):
        yield _glue_time(bench, each)


def _glue_time(bench: Framed, up: GlueUp) -> Verdict:
    """Its minutes against the shortest open time of its glues; a whole number of minutes cures it."""
    fasteners = {(joint.member, joint.end): joint.fastener for joint in bench.joints}
    names = dict.fromkeys(fasteners[each] for each in up.joints)
    slow = [
        name
        for name in names
        if (glue := bench.joinings[name].glue) is not None and glue.open_time < up.minutes
    ]
    path = ("hardware", next(iter(slow or names)), "open_time")
    changes = tuple(Change(f"hardware.{name}.open_time", str(ceil(up.minutes))) for name in slow)
    where = f"{GLUED_IN[up.step]}: {len(up.joints)} joints, {up.clamps} clamps"
    return Verdict(GLUE_TIME, not slow, where, path, up.minutes, up.open_time, remedy=changes, unit="min")


def _between_laps(bench: Framed) -> Iterator[Verdict]:
    """The post that has least left where laps or prongs come into it from two opposite sides."""
    found: list[tuple[Fraction, str]] = []
    for part in bench.parts:
        for axis in "xy" if part.is_bar and part.along == "z" else "":
            near, far = (_notched(part, face) for face in FACES[axis])
            both = (
                (max(one, other), f"{part.mark}, {purpose}")
                for run, (one, purpose) in near.items()
                for again, (other, _) in far.items()
                if run.overlap(again) > 0
            )
            found += [(part.thickness - taken, where) for taken, where in both]
    if found:
        left, where = min(found)
        yield at_least(LAPS_LEFT, left, LEAST_LEFT, where, ("materials", bench.loaded.goods.members.posts))


def _notched(part: Part, face: str) -> dict[Span, tuple[Fraction, str]]:
    """Where along a post notches begin and end in a face -> how much of its thickness they take together, and whose."""
    found: dict[Span, tuple[Fraction, str]] = {}
    for act in part.operations:
        if act.op in MORTISES[1:] and act.face == face and isinstance(act.size, tuple):
            run = Span(act.at[0] - act.size[0] / 2, act.at[0] + act.size[0] / 2)
            found[run] = (found.get(run, (Fraction(0), ""))[0] + act.size[1], act.purpose)
    return found


def _light_posts(bench: Framed) -> Verdict:
    """The first corner post whose joints in one direction are all light."""
    by_mark = {part.mark: part for part in bench.parts}
    found: dict[tuple[str, str], list[Joint]] = {}
    for joint in bench.joints:
        post, member = by_mark[joint.crossing], by_mark[joint.member]
        if post.role is Role.CORNER_POST:
            found.setdefault((post.mark, member.along), []).append(joint)
    light = [
        joints for joints in found.values() if all(bench.joinings[joint.fastener].light for joint in joints)
    ]
    where = f"{light[0][0].crossing}, {light[0][0].member}" if light else ""
    key = "long_rails_to_corner_posts" if light and by_mark[light[0][0].member].along == "x" else "default"
    return Verdict(POCKETS_ALONE, not light, where, ("frame", "joints", key))


def _bolts_at_edges(bench: Framed) -> Iterator[Verdict]:
    """Of each sort the bolt that is nearest to an edge, and the one that goes through the most timber."""
    by_mark = {part.mark: part for part in bench.parts}
    near, through = dict[str, tuple[Fraction, str]](), dict[str, tuple[Fraction, str]]()
    for joint in bench.joints:
        name, fixing = joint.fastener, bench.joinings[joint.fastener]
        if not (fixing.cross or fixing.driven or fixing.sloped):
            continue
        member, crossing = by_mark[joint.member], by_mark[joint.crossing]
        where = f"{joint.member}, {joint.end} end"
        edge = member.box.span(crossing.along).size / 2 - max(
            abs(joint.aside + each) for each in fixing.places
        )
        size = crossing.box.span(member.along).size
        near[name] = min(near.get(name, (edge, where)), (edge, where))
        through[name] = max(through.get(name, (size, where)), (size, where))
    for name, (edge, where) in near.items():
        fixing = bench.joinings[name]
        if (screws := fixing.driven or fixing.sloped) is not None:
            path = ("hardware", name, "apart")
            yield at_least(BOLT_EDGE, edge, screws.hole * EDGE, where, path)
            continue
        assert fixing.screw is not None and fixing.cross is not None
        path, cross = ("hardware", name, "screw"), fixing.cross
        yield at_least(BOLT_EDGE, edge, THREADS[fixing.screw.thread].diameter * EDGE, where, path)
        size, where = through[name]
        if size > bench.loaded.goods.members.section:
            window = barrel_window(
                washer=cross.washer, through=size, recess=cross.recess[1], from_end=cross.from_end,
                barrel=cross.diameter, beyond=cross.beyond,
            )  # fmt: skip
            yield at_least(BOLT_THROUGH, fixing.screw.length, window.shortest, where, path)


def _tenons_in_posts(bench: Framed) -> Iterator[Verdict]:
    by_mark = {part.mark: part for part in bench.parts}
    short: dict[str, tuple[Part, str, Fraction]] = {}
    for joint in bench.joints:
        member, crossing = by_mark[joint.member], by_mark[joint.crossing]
        length = member.tenons.get(joint.end)
        if length is None or crossing.along != "z":
            continue
        kept = short.get(joint.fastener)
        if kept is None or length < kept[2]:
            short[joint.fastener] = (member, joint.end, length)
    for name, (member, end, length) in short.items():
        sizes = bench.joinings[name].tenon
        path = ("hardware", name) if sizes and sizes.lapped else ("hardware", name, "length")
        yield at_least(TENON_SHORT, length, SHORTEST_TENON, f"{member.mark}, {end} end", path)
