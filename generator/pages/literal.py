"""Text as it is on a page: whatever a template prints is shown literally, unless it is `Markup`."""

from __future__ import annotations

import re
from fractions import Fraction

from markupsafe import Markup, escape

from generator.figures.steps.words import key_size
from generator.units.format import format_fixed

#: Keeps a number and its unit on one line.
NBSP = "\u00a0"
#: Signs that Markdown or HTML would take for its own; a number reference shows them as they are, in either.
_SIGNS = {ord(sign): f"&#{ord(sign)};" for sign in "|*_[]{}`~\\"}
#: What would begin a heading, a list, a quotation, a note or a line below a heading where a text begins a line.
_BEGINS = re.compile(r"[#+\-=:!]|\d+(?=[.)](?:\s|$))")


def literal(value: object) -> object:
    """Every text that a template prints is shown as it is written; `Markup` alone is taken as it is."""
    if isinstance(value, Markup) or not isinstance(value, str):
        return value
    text = str(escape(value)).translate(_SIGNS).replace("\n", " ")
    first = _BEGINS.match(text)
    return Markup(
        f"{''.join(f'&#{ord(sign)};' for sign in first[0])}{text[first.end() :]}" if first else text
    )


def to_paste(text: str) -> Markup:
    """Text to copy, as it is written."""
    lines = Markup("\n").join(Markup(literal(line)) for line in text.splitlines())
    return Markup('<pre class="bm-paste"><code>') + lines + Markup("</code></pre>")


def keyed(text: str) -> Markup:
    """A text whose keys and values are between backticks, these as code; a lone backtick is a sign like any other."""
    words = text.split("`")
    if len(words) % 2 == 0:
        return Markup(literal(text))
    return Markup("").join(
        Markup(f"<code>{literal(word)}</code>") if number % 2 else Markup(literal(word))
        for number, word in enumerate(words)
    )


def words(name: str) -> str:
    """The name of a field as words."""
    return name.replace("_", " ")


def percent(share: float) -> str:
    """A share of one in whole per cent, or to a tenth below one."""
    hundred = share * 100
    return f"{format_fixed(hundred, 0 if hundred >= 1 else 1)}{NBSP}%"


def tool_size(across_flats: Fraction) -> str:
    """A key by its size, on one line."""
    return key_size(across_flats).replace(" ", NBSP)


def decimals(value: float, places: int = 1) -> str:
    """A number with `places` decimals, zeros kept, so that a column lines up."""
    return format_fixed(value, places)


def key(path: str) -> Markup:
    """A key path of the spec; it may break after its dots, nowhere else."""
    return (
        Markup("<code>")
        + Markup(".<wbr>").join(Markup(literal(step)) for step in path.split("."))
        + Markup("</code>")
    )


def after_colon(text: str) -> str:
    """What a label says after its kind."""
    return text.split(": ", 1)[-1]


def sentence(text: str) -> str:
    """The text with a capital at its start; the rest stays as written, for marks and names."""
    return text[:1].upper() + text[1:]
