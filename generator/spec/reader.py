"""Safe YAML: every scalar stays the string that was written, every key and value knows its line and column.

Names such as `No`, `On` or `1e3`, dates and `33 1/4` therefore mean what they say. Nothing is constructed or
executed: the parser's events are read one by one, and what the language does not need is refused.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

import yaml

from generator.codes import Code
from generator.findings import Finding, Severity, SpecError, Where
from generator.spec.document import Document, EntryPosition, KeyPath, LineAndColumn, path_text, quoted
from generator.spec.unreadable import (
    LINE_BREAK,
    UNPRINTABLE,
    refuse_unreadable,
    stop,
    syntax_error,
    too_large,
)

MAX_NODES = 20_000
"""The most values that a spec may hold with its aliases written out: a bomb of aliases stops here."""

MAX_DEPTH = 30
"""The deepest nesting that is read."""

A_SPEC = "`bench-manual new FILE` writes a spec to start from."
"""What helps where a file has no keys."""

_STRING_TAG = "tag:yaml.org,2002:str"


@dataclass(frozen=True)
class _Node:
    """A value as composed: aliases share it, so its own path is only known when it is unfolded."""

    mark: LineAndColumn
    content: _Content


_Content = dict[str, tuple[LineAndColumn, _Node]] | list[_Node] | str | None


def read_document(
    text: str, file: str, top: Literal["mapping", "list"] = "mapping", start: str = A_SPEC
) -> Document:
    """Return the document in `text`; `file` is the name used in findings, `start` the advice if it has no keys.

    Raises SpecError with every finding: unlike a fault of syntax, these do not hide one another.
    """
    text = text.removeprefix("\ufeff")
    lines = tuple(LINE_BREAK.split(text))
    try:
        return _document(text, file, lines, top, start)
    except SpecError as error:
        raise SpecError(_with_quote(finding, lines) for finding in error.findings) from error


def _with_quote(finding: Finding, lines: Sequence[str]) -> Finding:
    if finding.where is None:
        return finding
    return replace(finding, where=replace(finding.where, quote=quoted(lines, finding.where)))


def _document(text: str, file: str, lines: tuple[str, ...], top: str, start: str) -> Document:
    refuse_unreadable(text, file)
    composer = _Composer(text, file, lines)
    root = composer.document()
    findings = [*composer.findings, *_wrong_top(root, file, top, start)]
    if findings:
        raise SpecError(findings)
    places: dict[KeyPath, EntryPosition] = {}
    data = _unfold(root, (), root.mark, places, file)
    return Document(file, lines, [] if data is None else data, places)


def _wrong_top(root: _Node, file: str, top: str, start: str) -> Iterator[Finding]:
    where = Where(file, root.mark.line, root.mark.column)
    if top == "list":
        if not (root.content is None or isinstance(root.content, list)):
            advice = "Begin each entry with '- '."
            yield Finding(Code.NOT_A_LIST, Severity.ERROR, "this file is not a list", where, advice=advice)
    elif not isinstance(root.content, dict):
        what = "the file is empty" if root.content is None else "this file has no 'key: value' lines"
        yield Finding(Code.NOT_A_MAPPING, Severity.ERROR, what, where, advice=start)


# --- composing


class _Composer:
    """Turns the parser's events into nodes, noting every fault that does not end the reading."""

    def __init__(self, text: str, file: str, lines: tuple[str, ...]) -> None:
        self.findings: list[Finding] = []
        self._file = file
        self._lines = lines
        self._events = _guarded_events(text, file, lines)
        self._anchors: dict[str, _Node | None] = {}  # None while the node is still being read
        self._count = 0

    def document(self) -> _Node:
        """Return the root of the only document; an empty text has an empty root."""
        next(self._events)  # start of the stream
        if isinstance(next(self._events), yaml.StreamEndEvent):
            return _Node(LineAndColumn(1, 1), None)
        root = self._node(next(self._events), ())
        next(self._events)  # end of the document
        after = next(self._events)
        if not isinstance(after, yaml.StreamEndEvent):
            advice = "Keep one spec in each file, and delete the line '---' here."
            self._note(Code.SEVERAL_DOCUMENTS, "a second document begins here", after, (), advice=advice)
        return root

    def _node(self, event: yaml.Event, path: KeyPath) -> _Node:
        self._count += 1
        where = self._where(event, path)
        if self._count > MAX_NODES:
            raise too_large(where, f"more than {MAX_NODES:,} values")
        if len(path) > MAX_DEPTH:
            raise too_large(where, f"more than {MAX_DEPTH} levels of groups inside groups")
        if isinstance(event, yaml.AliasEvent):
            return self._alias(event, path)
        assert isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent)
        self._open_anchor(event, path)
        self._check_tag(event, path)
        node = _Node(_mark(event), self._content(event, path))
        if event.anchor is not None:
            self._anchors[event.anchor] = node
        return node

    def _content(self, event: yaml.Event, path: KeyPath) -> _Content:
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(path)
        if isinstance(event, yaml.SequenceStartEvent):
            return [self._node(item, (*path, index)) for index, item in enumerate(self._items())]
        assert isinstance(event, yaml.ScalarEvent)
        return self._scalar(event, path)

    def _items(self) -> Iterator[yaml.Event]:
        """Yield the first event of each item or key of a collection; the caller reads the rest of it."""
        while not isinstance(event := next(self._events), yaml.CollectionEndEvent):
            yield event

    def _mapping(self, path: KeyPath) -> dict[str, tuple[LineAndColumn, _Node]]:
        entries: dict[str, tuple[LineAndColumn, _Node]] = {}
        for event in self._items():
            key = self._key(event, path)
            value = self._node(next(self._events), (*path, "?" if key is None else key))
            if key is None:
                continue
            if key in entries:
                message = f"'{key}' is written twice, first in line {entries[key][0].line}"
                self._note(Code.DUPLICATE_KEY, message, event, (*path, key), advice="Delete one of the two.")
            else:
                entries[key] = (_mark(event), value)
        return entries

    def _key(self, event: yaml.Event, path: KeyPath) -> str | None:
        """Return a key, or None when it is none that the language can have (which is noted)."""
        node = self._node(event, (*path, "?"))  # a key can hold a nest of its own, which the cap must see
        if not isinstance(event, yaml.ScalarEvent) or not isinstance(node.content, str):
            advice = (
                "Write a plain word before the colon. If the line is a text with braces, put it in quotes."
            )
            self._note(Code.BAD_KEY, "this key is not a plain word", event, path, advice=advice)
        elif node.content == "<<" and _is_plain(event):
            advice = "Write the keys out."
            self._note(Code.MERGE_KEY, "merging with '<<' is not supported", event, path, advice=advice)
        elif not node.content.strip() or LINE_BREAK.search(node.content):
            self._note(Code.BAD_KEY, "this key is empty or longer than one line", event, path)
        else:
            return " ".join(node.content.split())  # as a value that refers to it is read
        return None

    def _scalar(self, event: yaml.ScalarEvent, path: KeyPath) -> str | None:
        value: str = event.value
        if _is_plain(event) and value in ("", "~", "null"):
            return None
        if found := UNPRINTABLE.search(value):  # from an escape such as "\0"
            message = f"this text has an invisible control character (code {ord(found[0])})"
            self._note(Code.CONTROL_CHARACTER, message, event, path, advice="Delete it.")
        return value

    def _alias(self, event: yaml.AliasEvent, path: KeyPath) -> _Node:
        name = event.anchor
        if name not in self._anchors:
            advice = "If this is a text that begins with *, put it in quotes."
            message = f"no value above has the name '&{name}'"
            raise stop(Code.YAML_SYNTAX, message, self._where(event, path), advice=advice)
        node = self._anchors[name]
        if node is None:
            message = f"'*{name}' is inside the value that it names"
            raise stop(Code.YAML_SYNTAX, message, self._where(event, path))
        return node

    def _open_anchor(self, event: yaml.NodeEvent, path: KeyPath) -> None:
        if event.anchor is None:
            return
        if event.anchor in self._anchors:
            raise stop(
                Code.YAML_SYNTAX, f"the name '&{event.anchor}' is used twice", self._where(event, path)
            )
        self._anchors[event.anchor] = None

    def _check_tag(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, path: KeyPath) -> None:
        if event.tag is None or (event.tag == _STRING_TAG and isinstance(event, yaml.ScalarEvent)):
            return
        tag = event.tag.replace("tag:yaml.org,2002:", "!!")
        advice = "Delete the tag. If this is a text that begins with !, put it in quotes."
        self._note(Code.CUSTOM_TAG, f"the tag {tag} cannot be used in a spec", event, path, advice=advice)

    def _note(self, code: Code, message: str, event: yaml.Event, path: KeyPath, advice: str = "") -> None:
        self.findings.append(Finding(code, Severity.ERROR, message, self._where(event, path), advice=advice))

    def _where(self, event: yaml.Event, path: KeyPath) -> Where:
        mark = _mark(event)
        return Where(self._file, mark.line, mark.column, path_text(path))


def _guarded_events(text: str, file: str, lines: tuple[str, ...]) -> Iterator[yaml.Event]:
    """Yield the parser's events; whatever it raises becomes a finding."""
    last = Where(file, 1, 1)
    try:
        for event in yaml.parse(text, Loader=yaml.BaseLoader):
            mark = _mark(event)
            last = Where(file, mark.line, mark.column)
            yield event
    except yaml.YAMLError as error:
        raise syntax_error(error, file, lines) from error
    except (ValueError, OverflowError) as error:
        # PyYAML passes an escape such as "\UFFFFFFFF" to chr() as it is.
        raise stop(Code.YAML_SYNTAX, "the code after the backslash or % is not valid", last) from error


def _mark(event: yaml.Event) -> LineAndColumn:
    assert event.start_mark is not None  # the parser marks every event
    return LineAndColumn(event.start_mark.line + 1, event.start_mark.column + 1)


def _is_plain(event: yaml.ScalarEvent) -> bool:
    """Whether a scalar has neither quotes nor a tag."""
    return bool(event.implicit[0])


def _unfold(
    node: _Node, path: KeyPath, key: LineAndColumn, places: dict[KeyPath, EntryPosition], file: str
) -> Any:
    """Return the plain data of a node, noting every place; with aliases written out the caps count anew."""
    if len(places) >= MAX_NODES or len(path) > MAX_DEPTH:
        # The place in hand may be any anchor; the entry at the top is where a person must look.
        top = places[path[:1]].key if path[:1] in places else key
        where = Where(file, top.line, top.column, path_text(path[:1]))
        limits = f"{MAX_NODES:,} values or {MAX_DEPTH} levels"
        raise too_large(where, f"more than {limits} when all aliases are written out")
    places[path] = EntryPosition(node.mark, key)
    if isinstance(node.content, dict):
        return {
            name: _unfold(child, (*path, name), mark, places, file)
            for name, (mark, child) in node.content.items()
        }
    if isinstance(node.content, list):
        return [
            _unfold(child, (*path, index), child.mark, places, file)
            for index, child in enumerate(node.content)
        ]
    return node.content
