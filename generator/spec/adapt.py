"""A spec with some values changed, in its own words: comments, order and layout of the text stay as they are."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence

import yaml

from generator.codes import Code
from generator.findings import Finding, Severity, SpecError, nearest
from generator.spec.reader import read_document

__all__ = ["adapted"]

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.+/*^-]*(?: [A-Za-z0-9_.+/*^-]+)*")
_STEP = re.compile(r"\[(\d{1,3})\]")


def adapted(text: str, settings: Sequence[tuple[str, str]], file: str = "") -> str:
    """The text of a spec with each key path set to its value; what is not there yet is put in.

    A value in brackets or braces is taken as it is written. Raises SpecError for a path that leads nowhere, and with
    the places in `file` for a text that is no YAML. What comes back may still be no valid spec.
    """
    read_document(text, file)
    faults = []
    for path, value in settings:
        try:
            text = _with(text, path, value)
        except _PathError as error:
            message = f"{path}: {error.reason}"
            faults.append(
                Finding(Code.NO_SUCH_PLACE, Severity.ERROR, message, found=error.found, nearest=error.near)
            )
    if faults:
        raise SpecError(faults)
    return text


class _PathError(Exception):
    def __init__(self, reason: str, found: str, near: str = "") -> None:
        super().__init__(reason)
        self.reason, self.found, self.near = reason, found, near


def _with(text: str, path: str, value: str) -> str:
    try:
        read_document(text, "")
    except SpecError as error:
        reason = "the changes before this one broke the text of the spec"
        raise _PathError(reason, error.findings[0].message) from None
    node = yaml.compose(text, Loader=yaml.BaseLoader)  # what the reader takes, the parser takes
    rest, written = path, _written(value)
    shared = _shared(node)
    while True:
        if id(node) in shared:
            raise _PathError(
                "this value is used in several places by its name (& and *); write it out in each place first",
                rest,
            )
        if isinstance(node, yaml.MappingNode):
            key, below, rest = _key(node, rest)
            if below is None:
                return _put_in(text, node, key, _nested(rest, written))
            node = below
        elif isinstance(node, yaml.SequenceNode):
            match = _STEP.match(rest)
            if match is None or int(match[1]) >= len(node.value):
                raise _PathError(
                    f"this is a list of {len(node.value)}; write the place of an item, such as [0] for the first",
                    rest,
                )
            node, rest = node.value[int(match[1])], rest[match.end() :].removeprefix(".")
        else:
            raise _PathError("this is a single value and has no keys", rest)
        if not rest:
            return _put_over(text, node, written)
        if isinstance(node, yaml.ScalarNode) and node.value in ("", "~", "null"):
            return _put_over(text, node, _nested(rest, written))


def _shared(root: yaml.Node | None) -> set[int]:
    """Ids of the nodes that are in more than one place."""
    seen: set[int] = set()
    twice: set[int] = set()
    waiting = [root] if root is not None else []
    while waiting:
        node = waiting.pop()
        if id(node) in seen:
            twice.add(id(node))
            continue
        seen.add(id(node))
        if isinstance(node, yaml.MappingNode):
            waiting += [below for _, below in node.value]
        elif isinstance(node, yaml.SequenceNode):
            waiting += node.value
    return twice


def _key(node: yaml.MappingNode, rest: str) -> tuple[str, yaml.Node | None, str]:
    """The key that the rest begins with (the longest, as names may hold dots), its value, and what is left."""
    names = {str(key.value): below for key, below in node.value}
    for name in sorted(names, key=len, reverse=True):
        if rest == name or rest.startswith((f"{name}.", f"{name}[")):
            return name, names[name], rest[len(name) :].removeprefix(".")
    name = re.split(r"[.\[]", rest)[0]
    if not name:
        raise _PathError("a key is missing here", rest, nearest(rest, names))
    left = rest[len(name) :].removeprefix(".")
    if left.startswith("["):
        raise _PathError("the spec has no such list", name, nearest(name, names))
    return name, None, left


def _nested(rest: str, written: str) -> str:
    """The value inside the keys that are still to come."""
    for name in reversed(rest.split(".") if rest else []):
        if not name or "[" in name:
            raise _PathError("the spec has no such list", name or rest)
        written = f"{{{_written(name)}: {written}}}"
    return written


def _put_over(text: str, node: yaml.Node, written: str) -> str:
    start, end = node.start_mark.index, node.end_mark.index
    if isinstance(node, yaml.CollectionNode) and not node.flow_style:
        raise _PathError("this value fills several lines; set each of its keys by itself", "")
    # an empty value begins where its key's colon ends
    space = " " if start == end and text[start - 1 : start] == ":" else ""
    return f"{text[:start]}{space}{written}{text[end:]}"


def _put_in(text: str, node: yaml.MappingNode, key: str, written: str) -> str:
    """A key that is not there yet: first in its braces, or on a line of its own above its neighbours."""
    line, start = f"{_written(key)}: {written}", node.start_mark
    if node.flow_style:
        comma = ", " if node.value else ""
        return f"{text[: start.index + 1]}{line}{comma}{text[start.index + 1 :]}"
    last = node.value[-1][0].start_mark
    end = "\r\n" if "\r\n" in text else "\n"
    at = last.index
    return f"{text[:at]}{line}{end}{' ' * last.column}{text[at:]}"


def _written(value: str) -> str:
    if value[:1] in ("[", "{") or (_PLAIN.fullmatch(value) and value not in ("~", "null")):
        return value
    return json.dumps(value, ensure_ascii=False)
