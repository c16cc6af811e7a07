"""Safe YAML: every scalar stays the string that was written, every key and value knows its line and column.

Names such as `No`, `On` or `1e3`, dates and `33 1/4` therefore mean what they say. Nothing is constructed or
executed: the parser's events are read one by one, and what the language does not need is refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Literal

import yaml

from generator.codes import Code
from generator.findings import Finding, Severity, SpecError, Where, nearest

__all__ = ["Document", "KeyPath", "path_text", "read_document", "read_text"]

KeyPath = tuple[str | int, ...]

MAX_SIZE = 1_000_000
"""The largest spec that is read, in bytes of the file or characters of the text."""

MAX_NODES = 20_000
"""The most values that a spec may hold with its aliases written out: a bomb of aliases stops here."""

MAX_DEPTH = 30
"""The deepest nesting that is read."""

_STRING_TAG = "tag:yaml.org,2002:str"
_LINE_BREAK = re.compile("\r\n|[\r\n\x85\u2028\u2029]")  # the breaks that PyYAML counts
# U+E000 to U+E00F belong to nobody; the pages set lengths apart by them
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue010-\ufffd\U00010000-\U0010ffff]")
_QUOTE_WIDTH = 120


@dataclass(frozen=True)
class _Mark:
    """Line and column, both from 1."""

    line: int
    column: int


@dataclass(frozen=True)
class _Place:
    """Where a value stands, and its key; an item of a list has no key, so its own place stands for it."""

    value: _Mark
    key: _Mark


@dataclass(frozen=True)
class Document:
    """A read file: nested dicts and lists of strings and None, with the place of each by its key path."""

    file: str
    lines: tuple[str, ...]
    data: Any
    places: Mapping[KeyPath, _Place] = field(repr=False)

    def where(self, path: KeyPath, of_key: bool = False) -> Where:
        """Return the place of a value, or of its key.

        What is not there is placed at the key of the nearest thing around it that is.
        """
        known = path
        while known not in self.places:
            known = known[:-1]
        place = self.places[known]
        mark = place.key if of_key or known != path else place.value
        where = Where(self.file, mark.line, mark.column, path_text(path), written=known == path)
        # the top of the file says nothing about a key that the spec leaves out
        return replace(where, quote=self.quote(where)) if known or not path else where

    def quote(self, where: Where) -> str:
        """Return the source line of `where` with a caret below its column; empty if there is no such line."""
        return _quote(self.lines, where)


def _quote(lines: Sequence[str], where: Where) -> str:
    if not 1 <= where.line <= len(lines):
        return ""
    line = lines[where.line - 1]
    first = max(0, where.column - 1 - _QUOTE_WIDTH // 2) if len(line) > _QUOTE_WIDTH else 0
    shown = line[first : first + _QUOTE_WIDTH]
    # Tabs are kept, so that the caret stands right whatever their width.
    indent = "".join("\t" if char == "\t" else " " for char in shown[: where.column - 1 - first])
    return f"{shown}\n{indent}^"


@dataclass(frozen=True)
class _Node:
    """A value as composed: aliases share it, so its own path is only known when it is unfolded."""

    mark: _Mark
    content: _Content


_Content = dict[str, tuple[_Mark, _Node]] | list[_Node] | str | None


def path_text(path: KeyPath) -> str:
    """Return a key path as it is printed: `zones[0].bays[2].width`."""
    text = ""
    for step in path:
        text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else step
    return text


def read_text(path: Path) -> str:
    """Return the text of a file in UTF-8. Raises SpecError when there is none to be had."""
    try:
        if path.is_dir():
            raise _stop(Code.IS_A_FOLDER, f"'{path}' is a folder", advice="Name the spec file in it.")
        if not path.exists():
            raise _no_file(path)
        if not path.is_file():  # a pipe or a device may never end
            raise _stop(Code.NOT_READABLE, f"'{path}' is no ordinary file")
        with path.open("rb") as stream:
            data = stream.read(MAX_SIZE + 1)
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        reason = getattr(error, "strerror", None) or "not a file name"
        raise _stop(Code.NOT_READABLE, f"'{path}' cannot be read: {reason}") from error
    if len(data) > MAX_SIZE:
        raise _too_large(Where(str(path), 1, 1), f"the file is larger than {MAX_SIZE:,} bytes")
    return _decode(data, str(path))


def read_document(text: str, file: str, top: Literal["mapping", "list"] = "mapping") -> Document:
    """Return the document in `text`; `file` is the name used in findings.

    Raises SpecError with every finding: unlike a fault of syntax, these do not hide one another.
    """
    text = text.removeprefix("\ufeff")
    lines = tuple(_LINE_BREAK.split(text))
    try:
        return _document(text, file, lines, top)
    except SpecError as error:
        raise SpecError(_with_quote(finding, lines) for finding in error.findings) from error


def _with_quote(finding: Finding, lines: Sequence[str]) -> Finding:
    if finding.where is None:
        return finding
    return replace(finding, where=replace(finding.where, quote=_quote(lines, finding.where)))


def _document(text: str, file: str, lines: tuple[str, ...], top: Literal["mapping", "list"]) -> Document:
    _refuse_unreadable(text, file)
    composer = _Composer(text, file, lines)
    root = composer.document()
    findings = [*composer.findings, *_wrong_top(root, file, top)]
    if findings:
        raise SpecError(findings)
    places: dict[KeyPath, _Place] = {}
    data = _unfold(root, (), root.mark, places, file)
    return Document(file, lines, [] if data is None else data, places)


# --- findings


def _stop(code: Code, message: str, where: Where | None = None, **parts: Any) -> SpecError:
    """Return the error for a fault behind which nothing more can be read."""
    return SpecError([Finding(code, Severity.ERROR, message, where, **parts)])


def _too_large(where: Where, message: str) -> SpecError:
    advice = "A spec is far smaller; check that this is the right file."
    return _stop(Code.TOO_LARGE, message, where, advice=advice)


def _no_file(path: Path) -> SpecError:
    folder = path.parent
    if not folder.is_dir():
        return _stop(Code.NO_FILE, f"there is no folder '{folder}'")
    names = sorted(entry.name for entry in folder.iterdir() if entry.is_file())
    message = f"there is no file '{path.name}' in '{folder}'"
    return _stop(Code.NO_FILE, message, nearest=nearest(path.name, names))


def _decode(data: bytes, file: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # The bytes of error.object lack the byte order mark that error.start does not count either.
        before = bytes(error.object)[: error.start]
        line, column = before.count(b"\n") + 1, len(before.rpartition(b"\n")[2].decode("utf-8")) + 1
        advice = "Save it as UTF-8 in the editor."
        raise _stop(
            Code.NOT_UTF8, "this is not UTF-8 text", Where(file, line, column), advice=advice
        ) from error


def _refuse_unreadable(text: str, file: str) -> None:
    if len(text) > MAX_SIZE:
        raise _too_large(Where(file, 1, 1), f"the text is larger than {MAX_SIZE:,} characters")
    found = list(_UNPRINTABLE.finditer(text))
    if not found:
        return
    before = _LINE_BREAK.split(text[: found[0].start()])
    others = f", the first of {len(found)}" if len(found) > 1 else ""
    message = f"an invisible control character (code {ord(found[0][0])}){others}"
    where = Where(file, len(before), len(before[-1]) + 1)
    raise _stop(
        Code.CONTROL_CHARACTER, message, where, advice="Delete it, or check that this is a text file."
    )


def _wrong_top(root: _Node, file: str, top: str) -> Iterator[Finding]:
    where = Where(file, root.mark.line, root.mark.column)
    if top == "list":
        if not (root.content is None or isinstance(root.content, list)):
            advice = "Begin each entry with '- '."
            yield Finding(Code.NOT_A_LIST, Severity.ERROR, "the file must hold a list", where, advice=advice)
    elif not isinstance(root.content, dict):
        what = "the file is empty" if root.content is None else "the file must hold 'key: value' lines"
        advice = "`bench-manual new FILE` writes a spec to start from."
        yield Finding(Code.NOT_A_MAPPING, Severity.ERROR, what, where, advice=advice)


# PyYAML's problem begins with the first; the rest is what a person can do about it.
_PLAIN_WORDS: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed here",
        "a colon stands where no key can be",
        "Put a text with ': ' in it in quotes, and indent this line like its neighbours.",
    ),
    (
        "could not find expected ':'",
        "a key lacks its colon",
        "Write 'key: value', with a space after the colon.",
    ),
    (
        "expected <block end>",
        "this line does not line up with those that it belongs to",
        "Indent the keys of one group alike, with spaces.",
    ),
    ("expected ',' or ']'", "a list in [brackets] lacks a comma or its end", ""),
    ("expected ',' or '}'", "a group in {braces} lacks a comma or its end", ""),
    ("found unexpected end of stream", "a quote is opened and never closed", ""),
    ("found unexpected document separator", "a quote is opened and never closed", ""),
    ("found unknown escape character", "a backslash in double quotes begins a code", "Use single quotes."),
    ("found undefined tag handle", "a tag (!) is not read here", "Put a text that begins with ! in quotes."),
    ("found character", "a value cannot begin with this character", "Put it in quotes."),
    ("expected alphabetic or numeric", "a value cannot begin with * or &", "Put it in quotes."),
    (
        "sequence entries are not allowed here",
        "a '- ' item stands where no list can be",
        "Put it on its own line.",
    ),
)


def _syntax_error(error: yaml.YAMLError, file: str, lines: tuple[str, ...]) -> SpecError:
    if not isinstance(error, yaml.MarkedYAMLError):
        return _stop(Code.YAML_SYNTAX, "this is not YAML text", Where(file, 1, 1))
    begin, mark = error.context_mark, error.problem_mark or error.context_mark
    problem = error.problem or "this is not YAML text"
    if begin is not None and problem.startswith("found unexpected end"):
        mark = begin  # the end of the file says nothing, the opening quote does
    where = Where(file, mark.line + 1, mark.column + 1) if mark else Where(file, 1, 1)
    if "\t" in _indent(lines[where.line - 1]):
        advice = "Use spaces; most editors can be set to do so."
        return _stop(Code.YAML_SYNTAX, "this line is indented with a tab", where, advice=advice)
    message, advice = _in_plain_words(problem)
    if begin is not None and begin.line + 1 != where.line:
        message += f" (what it belongs to begins on line {begin.line + 1})"
    return _stop(Code.YAML_SYNTAX, message, where, advice=advice)


def _in_plain_words(problem: str) -> tuple[str, str]:
    """Return the message and the advice for a problem; one that is not in the table speaks for itself."""
    for start, message, advice in _PLAIN_WORDS:
        if problem.startswith(start):
            return message, advice
    return problem, ""


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip())]


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
            return _Node(_Mark(1, 1), None)
        root = self._node(next(self._events), ())
        next(self._events)  # end of the document
        after = next(self._events)
        if not isinstance(after, yaml.StreamEndEvent):
            advice = "Keep one spec in one file, and delete the line '---' here."
            self._note(Code.SEVERAL_DOCUMENTS, "a second document begins here", after, (), advice=advice)
        return root

    def _node(self, event: yaml.Event, path: KeyPath) -> _Node:
        self._count += 1
        where = self._where(event, path)
        if self._count > MAX_NODES:
            raise _too_large(where, f"more than {MAX_NODES:,} values")
        if len(path) > MAX_DEPTH:
            raise _too_large(where, f"nested more than {MAX_DEPTH} deep")
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

    def _mapping(self, path: KeyPath) -> dict[str, tuple[_Mark, _Node]]:
        entries: dict[str, tuple[_Mark, _Node]] = {}
        for event in self._items():
            key = self._key(event, path)
            value = self._node(next(self._events), (*path, "?" if key is None else key))
            if key is None:
                continue
            if key in entries:
                message = f"'{key}' is given twice, first on line {entries[key][0].line}"
                self._note(Code.DUPLICATE_KEY, message, event, (*path, key), advice="Delete one of the two.")
            else:
                entries[key] = (_mark(event), value)
        return entries

    def _key(self, event: yaml.Event, path: KeyPath) -> str | None:
        """Return a key, or None when it is none that the language can have (which is noted)."""
        node = self._node(event, (*path, "?"))  # a key can hold a nest of its own, which the cap must see
        if not isinstance(event, yaml.ScalarEvent) or not isinstance(node.content, str):
            advice = "Write a plain word before the colon; put the braces of a text in quotes."
            self._note(Code.BAD_KEY, "a key must be a plain word", event, path, advice=advice)
        elif node.content == "<<" and _is_plain(event):
            advice = "Write the keys out, or use an alias for a whole value."
            self._note(Code.MERGE_KEY, "merging with '<<' is not supported", event, path, advice=advice)
        elif not node.content.strip() or _LINE_BREAK.search(node.content):
            self._note(Code.BAD_KEY, "a key must be a word in one line", event, path)
        else:
            return " ".join(node.content.split())  # as a value that refers to it is read
        return None

    def _scalar(self, event: yaml.ScalarEvent, path: KeyPath) -> str | None:
        value: str = event.value
        if _is_plain(event) and value in ("", "~", "null"):
            return None
        if found := _UNPRINTABLE.search(value):  # from an escape such as "\0"
            message = f"the text holds a control character (code {ord(found[0])})"
            self._note(Code.CONTROL_CHARACTER, message, event, path, advice="Leave it out.")
        return value

    def _alias(self, event: yaml.AliasEvent, path: KeyPath) -> _Node:
        name = event.anchor
        if name not in self._anchors:
            advice = "Put a text that begins with * in quotes."
            message = f"nothing above is named '&{name}'"
            raise _stop(Code.YAML_SYNTAX, message, self._where(event, path), advice=advice)
        node = self._anchors[name]
        if node is None:
            message = f"'*{name}' stands inside the value that it names"
            raise _stop(Code.YAML_SYNTAX, message, self._where(event, path))
        return node

    def _open_anchor(self, event: yaml.NodeEvent, path: KeyPath) -> None:
        if event.anchor is None:
            return
        if event.anchor in self._anchors:
            raise _stop(
                Code.YAML_SYNTAX, f"the name '&{event.anchor}' is given twice", self._where(event, path)
            )
        self._anchors[event.anchor] = None

    def _check_tag(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, path: KeyPath) -> None:
        if event.tag is None or (event.tag == _STRING_TAG and isinstance(event, yaml.ScalarEvent)):
            return
        tag = event.tag.replace("tag:yaml.org,2002:", "!!")
        advice = "Leave the tag out, or put a text that begins with ! in quotes."
        self._note(Code.CUSTOM_TAG, f"the tag {tag} is not read", event, path, advice=advice)

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
        raise _syntax_error(error, file, lines) from error
    except (ValueError, OverflowError) as error:
        # PyYAML passes an escape such as "\UFFFFFFFF" to chr() as it is.
        raise _stop(Code.YAML_SYNTAX, "a code after a backslash or % here is none", last) from error


def _mark(event: yaml.Event) -> _Mark:
    assert event.start_mark is not None  # the parser marks every event
    return _Mark(event.start_mark.line + 1, event.start_mark.column + 1)


def _is_plain(event: yaml.ScalarEvent) -> bool:
    """Tell whether a scalar stands without quotes and without a tag."""
    return bool(event.implicit[0])


def _unfold(node: _Node, path: KeyPath, key: _Mark, places: dict[KeyPath, _Place], file: str) -> Any:
    """Return the plain data of a node, noting every place; with aliases written out the caps count anew."""
    if len(places) >= MAX_NODES or len(path) > MAX_DEPTH:
        # The place in hand may be any anchor; the entry at the top is where a person must look.
        top = places[path[:1]].key if path[:1] in places else key
        where = Where(file, top.line, top.column, path_text(path[:1]))
        limits = f"{MAX_NODES:,} values or {MAX_DEPTH} levels"
        raise _too_large(where, f"more than {limits} with all aliases written out")
    places[path] = _Place(node.mark, key)
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
