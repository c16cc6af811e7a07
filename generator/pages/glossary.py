"""Glossary: the trade's terms in plain words; the first of each on a page leads here."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.bench.fillings import FILLINGS
from generator.bench.frames import FRAMES
from generator.bench.joints import JOINTS
from generator.bench.stands import STANDS
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page
from generator.readings import TWO_FOLD


@dataclass(frozen=True)
class Term:
    """A term, what it means, and further forms in which pages use it.

    `elsewhere` are other words for the same thing: the glossary names them for those who know them, no page uses one.
    """

    name: str
    meaning: str
    forms: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()

    @property
    def anchor(self) -> str:
        """The name of its place on the page."""
        return "term-" + self.name.replace(" ", "-")


_OWN: tuple[Term, ...] = (
    Term("access hole", "A hole in a bar for a key. The key goes through it to the screw of a joint.",
         ("access holes",), ("keyhole", "key hole")),
    Term("bar", "A long piece of the frame: metal with a slot in each face, or a timber.", ("bars",),
         ("extrusion",)),
    Term("batten", "A straight strip of wood. Check a line with it, or lay a sheet on it.", ("battens",)),
    Term("bay", "The clear space between two posts of one zone, from left to right.", ("bays",)),
    Term("bore", "The round hole along the centre of a bar. Its ends are tapped for screws."),
    Term("build record", "The file in which you note what you measured, cut and installed.", (), ("logbook",)),
    Term("burr", "The sharp edge that a saw or drill leaves on metal.", ("burrs",)),
    Term("checksum", "Twelve letters and digits at the top of every page. They change whenever the spec changes.",
         ("checksums",), ("hash", "fingerprint")),
    Term("counterbore", "A hole with a flat bottom. The head of a screw goes into it.", ("counterbores",)),
    Term("cross-member", "A bar from front to rear between the long rails.", ("cross-members",),
         ("crossbar", "cross bar", "stretcher")),
    Term("cut-out", "An opening in a board, such as for a post or a hose.", ("cut-outs",), ("cutout",)),
    Term("datum end", "The end from which you measure everything on a part: its left, front or bottom end.",
         ("datum", "datum ends")),
    Term("deburr", "To remove the sharp edge from cut metal."),
    Term("diagonal", "The line between opposite corners of a rectangle. If both diagonals are equal, the rectangle is "
         "square.", ("diagonals",)),
    Term("divider", "A panel between two bays. The posts beside it hold its edges.", ("dividers",),
         ("partition",)),
    Term("dog hole", "A round hole in the top. A peg in it, the bench dog, holds the work.", ("dog holes",)),
    Term("edge banding", "A thin band on the edge of a board. The board is cut smaller by it.", ("banding",),
         ("edge tape", "lipping")),
    Term("edging", "Strips of solid wood on the edges of the top. They are included in its size."),
    Term("end frame", "The frame at the left or right end of the bench. You build it flat.", ("end frames",)),
    Term("feather board", "A board with springy fingers. It holds the work against the fence.", ("feather boards",),
         ("featherboard",)),
    Term("fence", "The straight guide of a saw or router. You set it to the distance of the cut."),
    Term("grain", "The direction of the fibres in wood. Along it a board is stiffest and moves least."),
    Term("groove", "A long channel in wood. A tongue or the bottom of a drawer sits in it.", ("grooves",), ("dado",)),
    Term("guide bush", "A collar under the router. It runs along the edge of a template.", (),
         ("guide bushing", "template guide")),
    Term("height rod", "A story stick for heights, from the floor up."),
    Term("inner post", "A post that is not at a corner of the bench.", ("inner posts",)),
    Term("kerf", "The width of the cut: the material that the blade turns into chips.", ("kerfs",)),
    Term("ledge", "The step around an opening. A plate rests on it, level with the top."),
    Term("long rail", "A bar from left to right along the front or the rear.", ("long rails",)),
    Term("mark", "The short name of a piece, such as B1. Write it on the piece when you cut it.", ("marks",),
         ("part number",)),
    Term("notch", "A corner cut out of a panel. It makes space for a clip, a post or a bar.", ("notches",)),
    Term("off-cut", "What is left of a bar or sheet when all pieces are cut.", ("off-cuts",),
         ("offcut", "cutoff", "cut-off", "remnant")),
    Term("part sheet", "The page of one part, with its drawing and its holes.", ("part sheets",), ("part drawing",)),
    Term("pilot hole", "A narrow hole for the thread of a wood screw. It keeps the wood from splitting.",
         ("pilot holes",), ("pre-drill", "predrill", "lead hole")),
    Term("pitch", "The distance from hole to hole in a row, from centre to centre."),
    Term("play", "How far a part can move in its place.", (), ("slop", "wiggle")),
    Term("pocket", "A hole at a slant in the face of a board. Its screw comes out at the edge.",
         ("pockets", "pocket hole", "pocket holes")),
    Term("post line", "A line of posts from front to rear, with a cross-member or a wall. P1 is at the left end.",
         ("post lines", "P1", "P2")),
    Term("proof load", "The largest pull that does not stretch a screw for good."),
    Term("proud", "A little in front of the surface beside it."),
    Term("rabbet", "A step along the edge of a board. Two rabbets, one in each face, leave a tongue.", ("rabbets",),
         ("rebate",)),
    Term("rear", "The long side of the bench opposite its front. Names in the spec call it “back”."),
    Term("riving knife", "A plate behind the saw blade. It keeps the cut open, so that wood cannot pinch the blade.",
         (), ("splitter",)),
    Term("running mark", "A distance from one fixed end, not from the mark before. So errors do not add up.",
         ("running marks",)),
    Term("sag", "How far a bar or a board bends down under its load.", ("sags",), ("deflection",)),
    Term("set-up card", "One setting of one machine with its test piece. Sign it before you cut parts.",
         ("set-up cards",), ("setup card", "setup sheet", "set-up sheet")),
    Term("setback", "The distance from a face to what is behind it."),
    Term("shoulder", "The step beside a tongue."),
    Term("spec", "The file that describes your bench. The program makes this manual from it.", ("specs",),
         ("specification",)),
    Term("spine", "The wall along the bench between two zones.", ("spines",)),
    Term("stop", "A block on the saw. Push the end of each piece against it, and all pieces have the same length."),
    Term("story stick", "A strip with all marks of one direction at full size. Mark parts from it, not from a tape.",
         ("story sticks",), ("story pole", "marking stick")),
    Term("stiffness", "How hard a part is to bend, or a joint to turn."),
    Term("sway", "How far the top of the frame moves sideways when you push it.", ("sways",), ("racking",)),
    Term("tap", "To cut a thread into a hole.", ("tapped", "tapping")),
    Term("template", "A board with an opening. Its edge guides the router.", ("templates",)),
    Term("test piece", "A piece of scrap. Try a setting on it before you cut a part.", ("test pieces",)),
    Term("tongue", "The thin edge of a board. It goes into a slot or a groove.", ("tongues",)),
    Term("top bracket", "An angle that holds the top to the bars below it.", ("top brackets",)),
    Term("top grid", "The bars under the top. You build them flat and set them on the posts in one piece."),
    Term("torque", "How hard a screw is turned: the force times the length of the key.", (), ("tightening moment",)),
    Term("tray", "The board above the bays. Over it is the space for clamps.", ("trays",)),
    Term("trim", "To cut off the rough end or edge before you measure. Also the angle along the edge of the tray."),
    Term("wall", "A panel beside a bay: a divider, an end panel or the spine.", ("walls",)),
    Term("work surface", "The upper face of the top, where you work.", (), ("worktop", "benchtop", "bench top")),
    Term("zone", "A row of bays from the left end to the right end. A bench with bays at front and rear has two.",
         ("zones",)),
)  # fmt: skip
_OF_KINDS = (
    *(each for kind in FRAMES for each in kind.terms),
    *(each for kind in JOINTS for each in kind.terms),
    *(each for kind in STANDS for each in kind.terms),
    *(each for kind in FILLINGS for each in kind.terms),
)
TERMS = tuple(
    sorted(
        (
            *_OWN,
            *(Term(each.name, each.meaning, each.forms, each.elsewhere) for each in _OF_KINDS),
        ),
        key=lambda term: term.name,
    )
)

_BY_FORM = {form: term for term in TERMS for form in (term.name, *term.forms)}
_WORDS = "|".join(sorted(map(re.escape, _BY_FORM), key=len, reverse=True))
#: What is no running text: tags, links, code, references by number; a text with two readings stays one word.
_SKIP = rf"{TWO_FOLD}|"
_SKIP += r"<[^>]*>|!?\[[^\]]*\](?:\([^)]*\))?(?:\{[^}]*\})?|`[^`]*`|&\#?\w+;"
_TOKEN = re.compile(rf"(?P<skip>{_SKIP})|(?<![\w-])(?P<form>{_WORDS})(?![\w-])", re.IGNORECASE)
#: Lines that are headings, cautions, HTML, or the rule of a table.
_BARE = re.compile(r"\s*(?:#|<|!!!|\{|\|[-:| ]+\|?$)|\s{4}")

#: What follows the line of a page that says which manual it is of.
_HEAD = "{: .bm-head }"


def explained(page: str) -> str:
    """Markdown with the first use of each term in running text leading to its place in the glossary."""
    met: set[str] = set()

    def link(match: re.Match[str]) -> str:
        form = match["form"]
        term = _BY_FORM.get(form.lower()) if form else None
        if term is None or term.name in met:
            return match[0]
        met.add(term.name)
        return f'[{form}](glossary.md#{term.anchor} "{term.meaning}"){{ .bm-term }}'

    lines, fenced, set_out = [], False, False
    written = page.split("\n")
    for line, below in zip(written, (*written[1:], ""), strict=True):
        fenced ^= line.startswith("```")
        set_out |= "<pre" in line  # what is to be pasted stays as it is
        bare = fenced or set_out or _BARE.match(line) or below.startswith(_HEAD)
        lines.append(line if bare else _TOKEN.sub(link, line))
        set_out &= "</pre>" not in line
    return "\n".join(lines)


def context(figures: Figures, ruler: Ruler) -> Context:
    """All terms by the alphabet."""
    return {"terms": TERMS}


PAGE = Page("glossary", "Glossary", "words of the trade", context, about_specs=True)
