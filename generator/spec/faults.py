"""From the validator's errors to findings that a woodworker can act on."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, Tag, TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from generator.codes import Code
from generator.findings import Finding, Severity, Where, nearest, one_of
from generator.spec.document import Document
from generator.spec.fillings import StackItem
from generator.spec.schema import Spec

Path = tuple[str | int, ...]

#: A key that more groups have than these is too common: no place is named for it.
MOST_HOMES = 4


def validate(
    data: Mapping[str, Any], document: Document, context: Mapping[str, Any]
) -> tuple[Spec | None, list[Finding]]:
    """The spec, or one finding for each fault.

    A misspelt key is read as the key that it resembles, so that the faults below it are found in the same run and
    its absence under the right name is not reported as another fault.
    """
    findings: list[Finding] = []
    respelt: dict[Path, str] = {}
    while True:
        try:
            spec = Spec.model_validate(data, context=dict(context))
            return (None if findings else spec), findings
        except ValidationError as error:
            details = _causes(error.errors(include_url=False))
        misspelt = [detail for detail in details if _meant(detail, data)]
        if not misspelt:
            return None, findings + [_finding(detail, document, data, respelt) for detail in details]
        for detail in misspelt:
            path, right = real_path(detail["loc"], data), _meant(detail, data)
            if not right:
                continue  # another key was read as the one that this resembles; it shows in the next round
            findings.append(_finding(detail, document, data, respelt))
            data = _respell(data, path, right)
            respelt[*path[:-1], right] = str(path[-1])


def _causes(details: list[ErrorDetails]) -> list[ErrorDetails]:
    """Without the faults that only follow: a list counts as too short when its items are faulty."""
    return [
        detail
        for detail in details
        if detail["type"] != "too_short"
        or not any(other is not detail and _is_below(other["loc"], detail["loc"]) for other in details)
    ]


def _is_below(loc: Path, above: Path) -> bool:
    return len(loc) > len(above) and loc[: len(above)] == above


def _meant(detail: ErrorDetails, data: Mapping[str, Any]) -> str:
    """The absent key that an unknown one resembles; empty when there is none."""
    if detail["type"] != "extra_forbidden":
        return ""
    path = real_path(detail["loc"], data)
    here: Any = data
    for step in path[:-1]:
        here = here[step]
    word = _resembled(str(path[-1]), keys_at(detail["loc"][:-1]), _homes(detail))
    # a key that has the name of its entry's kind leads the path astray, to something that has no keys
    return "" if not isinstance(here, dict) or word in here else word


def _respell(here: Any, path: Path, right: str) -> Any:
    step, rest = path[0], path[1:]
    if isinstance(here, list):
        return [_respell(item, rest, right) if index == step else item for index, item in enumerate(here)]
    if rest:
        return {key: _respell(item, rest, right) if key == step else item for key, item in here.items()}
    return {(right if key == step else key): item for key, item in here.items()}


def _as_written(path: Path, respelt: Mapping[Path, str]) -> Path:
    """A path with the keys as the user spelt them."""
    return tuple(respelt.get(path[: end + 1], step) for end, step in enumerate(path))


def _finding(
    detail: ErrorDetails, document: Document, data: Mapping[str, Any], respelt: Mapping[Path, str]
) -> Finding:
    kind, path = detail["type"], _as_written(real_path(detail["loc"], data), respelt)
    context = detail.get("ctx", {})
    if kind == "missing":
        return _fault(
            Code.MISSING_KEY, document.where(path), "this key is missing", advice=_required(detail["loc"])
        )
    if kind == "extra_forbidden":
        keys = keys_at(detail["loc"][:-1])
        word, homes = str(path[-1]), _homes(detail)
        if amount := _with_comma(word, detail["input"], document.where(path, of_key=True)):
            return _fault(
                Code.BAD_LENGTH,
                document.where(path, of_key=True),
                "a decimal comma between braces begins the next key",
                found=amount,
                allowed=f"{amount.replace(',', '.')}, with a point",
            )
        return _fault(
            Code.UNKNOWN_KEY,
            document.where(path, of_key=True),
            "no such key",
            found=word,
            allowed=one_of(keys),
            nearest=_resembled(word, keys, homes),
            advice=homes,
        )
    if "found" in context:
        return _fault(
            Code(kind),
            document.where(path),
            context["message"],
            found=context["found"],
            allowed=context["allowed"],
        )
    found, allowed = _shown(detail["input"]), _allowed(detail)
    if kind == "union_tag_invalid":
        path, found = (*path, "kind"), context["tag"]
    return _fault(
        _CODES.get(kind, Code.WRONG_KIND),
        document.where(path),
        _MESSAGES.get(kind, "this value does not fit here"),
        found=found,
        allowed=allowed,
        nearest=nearest(found, _choices(context)),
    )


def _resembled(word: str, keys: Sequence[str], homes: str) -> str:
    """The key that a misspelt one resembles; a key that has its value elsewhere is not misspelt but misplaced."""
    return "" if homes else nearest(word, keys)


def _with_comma(word: str, value: Any, where: Where) -> str:
    """The number that a decimal comma has cut in two, as written: `1600,5` in braces leaves a key `5`."""
    if value is not None or not word.isdigit():
        return ""
    line, _, mark = where.quote.partition("\n")
    before = re.search(r"\d+,$", line[: len(mark) - 1])
    return before[0] + word if before else ""


def _homes(detail: ErrorDetails) -> str:
    """Where the language has an unknown key with such a value; empty where its value fits nowhere.

    An item of a stack is what its one key says, so no other group is meant there.
    """
    word, value = str(detail["loc"][-1]), detail["input"]
    if detail["type"] != "extra_forbidden" or _annotation_at(detail["loc"][:-1]) is StackItem:
        return ""
    fits = {above for above, model in _groups() if word in model.model_fields and _fits(model, word, value)}
    homes = sorted(fits)
    if len(homes) > MOST_HOMES:  # those near the top of a spec are the likeliest
        homes = [home for home in homes if home.count(".") == min(each.count(".") for each in homes)]
    if not homes or len(homes) > MOST_HOMES:
        return ""
    where = " and of ".join(homes)
    return (
        f"It is a key of {where}: if you mean that one, move it there and indent it like the lines beside it."
    )


def _fits(model: type[BaseModel], key: str, value: Any) -> bool:
    """Whether a key of a group can have this value."""
    field = model.model_fields[key]
    kind: Any = Annotated[(field.annotation, *field.metadata)] if field.metadata else field.annotation
    try:
        TypeAdapter(kind).validate_python(value, context={"units": "mm"})
    except ValidationError:
        return False
    return True


@cache
def _groups() -> tuple[tuple[str, type[BaseModel]], ...]:
    """Every group of keys by its place in a spec, such as (`zones.bays`, Bay)."""
    found: list[tuple[str, type[BaseModel]]] = []
    waiting: list[tuple[str, Any]] = [("", Spec)]
    while waiting:
        place, annotation = waiting.pop(0)
        here = _plain(annotation)
        if isinstance(here, type) and issubclass(here, BaseModel):
            found.append((f"`{place}`" if place else "the spec itself (not indented)", here))
            waiting += [
                (f"{place}.{name}".lstrip("."), field.annotation) for name, field in here.model_fields.items()
            ]
        elif get_origin(here):
            waiting += [(place, member) for member in get_args(here)]
    return tuple(found)


def _choices(context: Mapping[str, Any]) -> list[str]:
    """The words between which the language lets one choose, if that is what went wrong."""
    words = str(context.get("expected") or context.get("expected_tags") or "")
    return words.replace("'", "").replace(" or ", ", ").split(", ") if words else []


_CODES = {
    "model_type": Code.NOT_A_MAPPING,
    "model_attributes_type": Code.NOT_A_MAPPING,
    "dict_type": Code.NOT_A_MAPPING,
    "tuple_type": Code.NOT_A_LIST,
    "list_type": Code.NOT_A_LIST,
    "literal_error": Code.NOT_A_CHOICE,
    "union_tag_not_found": Code.MISSING_KIND,
    "union_tag_invalid": Code.UNKNOWN_KIND,
    "too_short": Code.TOO_FEW,
    "too_long": Code.TOO_MANY,
}
_MESSAGES = {
    "literal_error": "this is not one of the choices",
    "union_tag_not_found": "this entry has no `kind`",
    "union_tag_invalid": "no such kind",
    "model_type": "this is not a group of keys",
    "model_attributes_type": "this is not a group of keys",
    "dict_type": "this is not a group of named entries",
    "tuple_type": "this is not a list",
    "list_type": "this is not a list",
    "too_short": "this list is too short",
    "too_long": "this list is too long",
}


def _allowed(detail: ErrorDetails) -> str:
    context = detail.get("ctx", {})
    if "expected" in context:
        return one_of(_choices(context))
    if "expected_tags" in context:
        return one_of(_choices(context))
    if detail["type"] == "too_short":
        return f"{context['min_length']} or more"
    if detail["type"] == "too_long":
        return f"{context['max_length']} or fewer"
    if detail["type"] in ("model_type", "model_attributes_type"):
        return f"lines of `key: value` with the keys {', '.join(keys_at(detail['loc']))}"
    if detail["type"] == "dict_type":
        return "lines of `name: {…}`, each with a name of your own"
    if detail["type"] in ("tuple_type", "list_type"):
        return "a list: items in [brackets], or each on a line that begins with `- `"
    if detail["type"] == "union_tag_not_found":
        return f"`kind:` with {one_of(_tags(_annotation_at(detail['loc'])))}; or `use:` with a typical card"
    return ""


def _fault(code: Code, where: Where, message: str, **more: Any) -> Finding:
    return Finding(code, Severity.ERROR, message, where, **more)


def _shown(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, dict):
        return "a group of keys" + (f": {', '.join(map(str, value))}" if value else "")
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    return str(value)


def _required(loc: Path) -> str:
    """Advice: the keys that a mapping must have, or what a short list lacks."""
    model = _annotation_at(loc[:-1])
    if not (isinstance(model, type) and issubclass(model, BaseModel)):
        return f"Write a list of {len(get_args(model))} values."
    names = [name for name, field in model.model_fields.items() if field.is_required()]
    return f"This group needs {_and(names)}."


def _and(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def real_path(loc: Path, data: Any) -> Path:
    """The validator's location without the names of kinds that it puts in between."""
    path: list[str | int] = []
    here = data
    for position, step in enumerate(loc):
        # a fault of a whole entry ends with its kind
        if (
            isinstance(here, dict)
            and here.get("kind") == step
            and (position < len(loc) - 1 or step not in here)
        ):
            continue  # an entry may have a (wrong) key of the same name
        is_key = isinstance(here, dict) and step in here
        is_index = isinstance(here, list) and isinstance(step, int) and step < len(here)
        if is_key or is_index:
            here = here[step]
        elif position < len(loc) - 1 or step == "[key]":
            continue
        path.append(step)
    return tuple(path)


def keys_at(loc: Path) -> list[str]:
    """The keys that the language allows at a validator's location."""
    model = _annotation_at(loc)
    if isinstance(model, type) and issubclass(model, BaseModel):
        return list(model.model_fields)
    return []


def _annotation_at(loc: Path) -> Any:
    here: Any = Spec
    for step in loc:
        here = _below(_plain(here), step)
    return _plain(here)


def _below(here: Any, step: str | int) -> Any:
    if isinstance(here, type) and issubclass(here, BaseModel):
        field = here.model_fields.get(str(step))
        return field.annotation if field else here
    origin, members = get_origin(here), get_args(here)
    if origin is dict:
        return members[1]
    if origin is tuple:
        return members[0]
    if origin in (Union, UnionType):
        return next((member for member in members if step in _tag_of(member)), here)
    return here


def _plain(annotation: Any) -> Any:
    while get_origin(annotation) is Annotated:
        annotation = get_args(annotation)[0]
    if get_origin(annotation) in (Union, UnionType):
        members = [member for member in get_args(annotation) if member is not type(None)]
        if len(members) == 1:
            return _plain(members[0])
    return annotation


def _tag_of(member: Any) -> list[str]:
    return [note.tag for note in get_args(member)[1:] if isinstance(note, Tag)]


def _tags(union: Any) -> list[str]:
    return [tag for member in get_args(union) for tag in _tag_of(member)]
