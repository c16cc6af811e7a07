"""From the validator's errors to findings that a woodworker can act on."""

from __future__ import annotations

from collections.abc import Mapping
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, Tag, ValidationError
from pydantic_core import ErrorDetails

from generator.findings import Finding, Severity, Where, nearest
from generator.spec.reader import Document
from generator.spec.schema import Spec

Path = tuple[str | int, ...]


def findings_of(error: ValidationError, document: Document, data: Mapping[str, Any]) -> list[Finding]:
    """One finding for each fault. `data` is what was validated; places are looked up in `document`."""
    return [_finding(detail, document, data) for detail in error.errors(include_url=False)]


def _finding(detail: ErrorDetails, document: Document, data: Mapping[str, Any]) -> Finding:
    kind, path = detail["type"], real_path(detail["loc"], data)
    context = detail.get("ctx", {})
    if kind == "missing":
        return _fault("missing-key", document.where(path), "this key is required", allowed=_purpose(detail["loc"]))
    if kind == "extra_forbidden":
        keys = keys_at(detail["loc"][:-1])
        word = str(path[-1])
        return _fault(
            "unknown-key",
            document.where(path, of_key=True),
            "no such key",
            found=word,
            allowed=", ".join(keys),
            nearest=nearest(word, keys),
        )
    if "found" in context:
        return _fault(
            kind, document.where(path), context["message"], found=context["found"], allowed=context["allowed"]
        )
    found, allowed = _shown(detail["input"]), _allowed(detail)
    return _fault(
        _CODES.get(kind, kind.replace("_", "-")),
        document.where(path),
        _MESSAGES.get(kind, "this value does not fit"),
        found=found,
        allowed=allowed,
        nearest=nearest(found, context["expected"].replace("'", "").replace(" or ", ", ").split(", "))
        if kind == "literal_error"
        else "",
    )


_CODES = {
    "literal_error": "not-a-choice",
    "union_tag_not_found": "missing-kind",
    "union_tag_invalid": "unknown-kind",
    "too_short": "too-few",
    "too_long": "too-many",
}
_MESSAGES = {
    "literal_error": "this is not one of the choices",
    "union_tag_not_found": "this entry needs a `kind`, or `use:` with the name of a typical card",
    "union_tag_invalid": "no such kind",
    "model_type": "this must be a mapping (key: value lines)",
    "model_attributes_type": "this must be a mapping (key: value lines)",
    "dict_type": "this must be a mapping (key: value lines)",
    "tuple_type": "this must be a list",
    "list_type": "this must be a list",
    "too_short": "this list is too short",
    "too_long": "this list is too long",
}


def _allowed(detail: ErrorDetails) -> str:
    context = detail.get("ctx", {})
    if "expected" in context:
        return str(context["expected"]).replace("'", "")
    if "expected_tags" in context:
        return str(context["expected_tags"]).replace("'", "")
    if detail["type"] == "too_short":
        return f"at least {context['min_length']}"
    if detail["type"] == "too_long":
        return f"at most {context['max_length']}"
    if detail["type"] in ("model_type", "model_attributes_type"):
        return "the keys " + ", ".join(keys_at(detail["loc"]))
    if detail["type"] == "union_tag_not_found":
        return "kind: " + ", ".join(_tags(_annotation_at(detail["loc"])))
    return ""


def _fault(code: str, where: Where, message: str, **more: str) -> Finding:
    return Finding(code, Severity.ERROR, message, where, **more)


def _shown(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    return str(value)


def _purpose(loc: Path) -> str:
    keys = keys_at(loc[:-1])
    return f"{loc[-1]}" if len(keys) < 2 else f"{loc[-1]}, beside {', '.join(k for k in keys if k != loc[-1])}"


def real_path(loc: Path, data: Any) -> Path:
    """The validator's location without the names of kinds that it puts in between."""
    path: list[str | int] = []
    here = data
    for position, step in enumerate(loc):
        if isinstance(here, dict) and step in here:
            here = here[step]
        elif isinstance(here, list) and isinstance(step, int) and step < len(here):
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
