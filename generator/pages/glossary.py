"""Glossary: the trade's terms in plain words; the first of each on a page leads here."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.bench.fillings import FILLINGS
from generator.bench.joints import JOINTS
from generator.bench.stands import STANDS
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


@dataclass(frozen=True)
class Term:
    """A term, what it means, and further forms in which pages use it."""

    name: str
    meaning: str
    forms: tuple[str, ...] = ()

    @property
    def anchor(self) -> str:
        """The name of its place on the page."""
        return "term-" + self.name.replace(" ", "-")


_OWN: tuple[Term, ...] = (
    Term("access hole", "A hole through a bar by which a key reaches the screw behind it.", ("access holes",)),
    Term("batten", "A straight strip of wood: to check a line by, or to carry a sheet while it is cut.", ("battens",)),
    Term("bay", "The clear space between two posts of one zone, from left to right.", ("bays",)),
    Term("bore", "The round hole in the core of a bar; its ends are tapped for screws."),
    Term("burr", "The sharp edge that a saw or drill leaves on metal.", ("burrs",)),
    Term("checksum", "Twelve letters and digits in the head of every page. They come from the spec and change with "
         "it.", ("checksums",)),
    Term("counterbore", "A flat-bottomed hole that sinks the head of a screw.", ("counterbores",)),
    Term("cross-member", "A bar from front to back, between the long rails.", ("cross-members",)),
    Term("datum", "The end or face from which all distances of a part or a stick are measured."),
    Term("deburr", "To take the sharp edge off cut metal."),
    Term("diagonal", "The line from corner to corner of a rectangle. If both are equal, the rectangle is square.",
         ("diagonals",)),
    Term("divider", "A panel between two bays, held in the slots of the posts beside it.", ("dividers",)),
    Term("dog hole", "A round hole in the top for a bench dog: a peg that work is clamped against.", ("dog holes",)),
    Term("dry-fit", "To put parts together loose and without glue, as a test."),
    Term("end frame", "The ring of bars at either end of the bench, put together flat.", ("end frames",)),
    Term("feather board", "A board with springy fingers that holds the work against the fence.", ("feather boards",)),
    Term("fence", "The straight guide of a saw or router, set to the distance of the cut."),
    Term("grain", "The way the fibres of wood run. Along it a board is stiffest and moves least."),
    Term("groove", "A long channel in wood or metal that a tongue or a drawer's bottom sits in.", ("grooves",)),
    Term("guide bush", "A collar under the router that runs along the edge of a template."),
    Term("height rod", "A story stick for heights, from the floor up."),
    Term("hold point", "A place in the order where you stop and check. Go on only if the check passes.",
         ("hold points",)),
    Term("kerf", "The wood or metal that the blade turns into chips: the width of the cut.", ("kerfs",)),
    Term("lip", "The edge of a slot that overhangs its hollow; nuts and clips bear on it.", ("lips",)),
    Term("long rail", "A bar from left to right along the front or back.", ("long rails",)),
    Term("mark", "The short name of a piece, such as B1. Write it on the piece as soon as it is cut.", ("marks",)),
    Term("notch", "A corner cut out of a panel so that it clears a clip, a post or a bar.", ("notches",)),
    Term("off-cut", "What is left of a bar or sheet when all pieces are cut.", ("off-cuts",)),
    Term("pitch", "The distance between neighbours in a row of holes, from centre to centre."),
    Term("play", "How far a part can move in its place."),
    Term("pocket", "A slanting hole in the face of a board, for a screw that comes out at its edge.",
         ("pockets", "pocket hole", "pocket holes")),
    Term("proof load", "The pull that a screw carries without being stretched for good."),
    Term("proud", "A little beyond the surface beside it."),
    Term("rabbet", "A step cut along the edge of a board. Two of equal depth, one from each face, leave a tongue in "
         "the middle.",
         ("rabbets",)),
    Term("relief", "An opening routed through the lips of a slot, so that a clamp gets in.", ("reliefs",)),
    Term("riving knife", "A plate behind the saw blade that keeps the cut open, so that the wood cannot pinch the "
         "blade and be thrown."),
    Term("running mark", "A distance from one fixed end, not from the mark before it: so errors do not add up.",
         ("running marks",)),
    Term("sag", "How far a bar or board bends down under its load.", ("sags",)),
    Term("set-up card", "One setting of one machine with its test piece, to sign before parts are cut.",
         ("set-up cards",)),
    Term("setback", "How far something is behind the face that it is measured from."),
    Term("shoulder", "The step at the foot of a tongue."),
    Term("slot", "The groove along each face of a bar: a narrow mouth, a wider hollow behind it.", ("slots",)),
    Term("slot nut", "A nut in the slot of a bar, to bolt something on.", ("slot nuts",)),
    Term("spine", "The wall along the middle of the bench, between two zones.", ("spines",)),
    Term("stop", "A block on the saw. Push the end of each piece against it, and all pieces have one length."),
    Term("story stick", "A strip that carries all marks of one direction at full size. Mark from it, not from a tape.",
         ("story sticks",)),
    Term("tap", "To cut a thread into a hole.", ("tapped", "tapping")),
    Term("template", "A board with an opening whose edge guides the router.", ("templates",)),
    Term("tongue", "The thin edge of a board that goes into a groove.", ("tongues",)),
    Term("top bracket", "An angle that holds the top to the bars below it.", ("top brackets",)),
    Term("top grid", "The bars under the top, put together flat and set on as one."),
    Term("torque", "How hard a screw is turned: force times the arm of the key."),
    Term("tray", "The board over the bays, under the clamp gap.", ("trays",)),
    Term("trim", "To cut off the rough end or edge of stock before measuring from it; also the angle along the edge of "
         "the tray."),
    Term("zone", "A row of bays from end to end of the bench. A bench with a front and a back has two.", ("zones",)),
)  # fmt: skip
_OF_KINDS = (
    *(each for kind in JOINTS for each in kind.terms),
    *(each for kind in STANDS for each in kind.terms),
    *(each for kind in FILLINGS for each in kind.terms),
)
TERMS = tuple(
    sorted(
        (
            *_OWN,
            *(Term(each.name, each.meaning, each.forms) for each in _OF_KINDS),
        ),
        key=lambda term: term.name,
    )
)

_BY_FORM = {form: term for term in TERMS for form in (term.name, *term.forms)}
_WORDS = "|".join(sorted(map(re.escape, _BY_FORM), key=len, reverse=True))
#: What is no running text: tags, links, code, references by number, two-fold readings are Markdown already.
_SKIP = r"<[^>]*>|!?\[[^\]]*\](?:\([^)]*\))?(?:\{[^}]*\})?|`[^`]*`|&\#?\w+;"
_TOKEN = re.compile(rf"(?P<skip>{_SKIP})|(?<![\w-])(?P<form>{_WORDS})(?![\w-])", re.IGNORECASE)
#: Lines that are headings, cautions, HTML, or the rule of a table.
_BARE = re.compile(r"\s*(?:#|<|!!!|\{|\|[-:| ]+\|?$)|\s{4}")


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
    for line in page.split("\n"):
        fenced ^= line.startswith("```")
        set_out |= "<pre" in line  # what is to be pasted stays as it is
        lines.append(line if fenced or set_out or _BARE.match(line) else _TOKEN.sub(link, line))
        set_out &= "</pre>" not in line
    return "\n".join(lines)


def context(figures: Figures, ruler: Ruler) -> Context:
    """All terms by the alphabet."""
    return {"terms": TERMS}


PAGE = Page("glossary", "Glossary", "words of the trade", context, about_specs=True)
