"""Where a manual is published."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Words
from generator.spec.item import Node

AN_ADDRESS = "a web address such as https://example.org/benches/demo/"
_ADDRESS = re.compile(r"https?://[A-Za-z0-9.-]+(:\d+)?(/[A-Za-z0-9._~%+-]+)*/?")


def web_address(text: str) -> str:
    """The address of a folder on the web, ending with a stroke. Raises ValueError for any other text."""
    if len(text) > 200 or not _ADDRESS.fullmatch(text):
        raise ValueError(f"this is not {AN_ADDRESS}")
    return text if text.endswith("/") else f"{text}/"


def _address(value: object) -> str:
    """An address, or an empty text for none."""
    text = value.strip() if isinstance(value, str) else value
    try:
        return web_address(str(text)) if text != "" else ""
    except ValueError:
        fault = {"message": "this is not a web address", "found": str(value), "allowed": AN_ADDRESS}
        raise PydanticCustomError(Code.BAD_ADDRESS, "{message}", fault) from None


Address = Annotated[str, PlainValidator(_address), WithJsonSchema({"type": "string", "maxLength": 200})]


class Site(Node):
    """Where the manual is published. Leave it out for a private manual: its pages then say nothing to the web."""

    url: Address = ""
    """Web address of the published manual, such as https://example.org/benches/demo/."""
    image: Words = ""
    """Picture that messengers show with a link: a JPEG or PNG beside the spec. Default: drawn from the bench."""
    repository: Address = ""
    """Web address of the place where the spec is developed. Default: the address of the manual."""
