"""Photos of a build: read from beside the spec, turned upright, scaled, and freed of all that is not picture.

A phone writes the place and the time into its photos. What leaves here is the picture alone; a file that is already
small and bare passes as it is, so that a manual that is built from a pack has the same bytes.
"""

from __future__ import annotations

import io
import struct
import warnings
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from PIL import ExifTags, Image, ImageOps, UnidentifiedImageError

from generator.codes import Code
from generator.findings import one_of

__all__ = ["LONGEST_SIDE", "Photo", "PhotoError", "read_photo"]

LONGEST_SIDE = 1600
"""The longest side of a photo on a page, in pixels."""
MOST_BYTES = 30_000_000
MOST_PIXELS = 60_000_000
QUALITY = 82
FORMATS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG"}

_STRIP = 64
"""Rows that are worked on at a time, of the smaller picture."""
_GREY = {"1", "L", "LA", "I", "I;16", "I;16B"}
"""Modes of pictures without colours."""
_JPEG_BARE = {0xE0, 0xDB, 0xC4, 0xC0, 0xC1, 0xC2, 0xDD}
"""Segments of a picture alone: JFIF, tables, frame, restart interval (ITU-T T.81, table B.1)."""
_JFIF = 16
"""Length of a JFIF segment without a thumbnail (ITU-T T.871, 10.1)."""
_PNG_BARE = {b"IHDR", b"PLTE", b"tRNS", b"IDAT", b"IEND"}


class PhotoError(Exception):
    """A photo that cannot be shown: stable code, reason, and what is allowed instead."""

    def __init__(self, code: Code, reason: str, allowed: str = "") -> None:
        super().__init__(reason)
        self.code, self.reason, self.allowed = code, reason, allowed


@dataclass(frozen=True)
class Photo:
    """A picture fit for a page; `suffix` is .jpg or .png, sizes are pixels."""

    data: bytes
    suffix: str
    width: int
    height: int


def read_photo(folder: Path, name: str) -> Photo:
    """The photo `name` (a relative path with /) below `folder`. Raises PhotoError."""
    path = _inside(folder, name)
    try:
        if not path.is_file():
            raise PhotoError(Code.NO_FILE, "there is no such photo in the folder of the spec")
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except OSError as error:
        raise PhotoError(Code.NOT_READABLE, f"this photo cannot be read: {error.strerror}") from None
    if len(data) > MOST_BYTES:
        raise PhotoError(Code.TOO_LARGE, "this photo is too large", f"{MOST_BYTES // 10**6} MB or less")
    return _picture(data, FORMATS[path.suffix.lower()])


def _inside(folder: Path, name: str) -> Path:
    """Refuse what leaves the folder, also by a symbolic link, and what is no photo by its name."""
    plain = PurePosixPath(name)
    below = "a path inside the folder of the spec, such as photos/frame.jpg"
    if plain.is_absolute() or ".." in plain.parts or set(name) & set("\\:"):
        raise PhotoError(Code.OUTSIDE_THE_FOLDER, "this photo is outside the folder of the spec", below)
    if plain.suffix.lower() not in FORMATS:
        raise PhotoError(Code.NOT_A_PHOTO, "pages cannot show this kind of photo", one_of(FORMATS))
    path = folder / plain
    if not path.resolve().is_relative_to(folder.resolve()):
        raise PhotoError(Code.OUTSIDE_THE_FOLDER, "this photo is outside the folder of the spec", below)
    return path


def _picture(data: bytes, kind: str) -> Photo:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # the cap below is lower
            with Image.open(io.BytesIO(data), formats=["JPEG", "PNG"]) as image:
                if image.width * image.height > MOST_PIXELS:
                    raise PhotoError(
                        Code.TOO_LARGE,
                        f"this photo is too large: {image.width} x {image.height} pixels",
                        f"{MOST_PIXELS // 10**6} million pixels or fewer",
                    )
                image.draft(
                    None, (2 * LONGEST_SIDE, 2 * LONGEST_SIDE)
                )  # a JPEG is read no larger than needed
                image.load()
                return _bare(data, image) or _redrawn(image, kind)
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, struct.error) as error:
        raise PhotoError(
            Code.BROKEN_PHOTO, "this photo is broken, or is neither JPEG nor PNG", "a JPEG or PNG file"
        ) from error
    except Image.DecompressionBombError:
        cap = f"{MOST_PIXELS // 10**6} million pixels or fewer"
        raise PhotoError(Code.TOO_LARGE, "this photo is too large", cap) from None


def _bare(data: bytes, image: Image.Image) -> Photo | None:
    """The file as it is, when it is small and holds the picture only."""
    bare = _is_bare_jpeg(data) if image.format == "JPEG" else _is_bare_png(data)
    if not bare or max(image.size) > LONGEST_SIDE or image.mode not in ("RGB", "L", "P"):
        return None
    return Photo(data, ".jpg" if image.format == "JPEG" else ".png", *image.size)


def _redrawn(image: Image.Image, kind: str) -> Photo:
    small = _small(image)
    small.getexif()[ExifTags.Base.Orientation] = image.getexif().get(ExifTags.Base.Orientation, 1)
    upright = ImageOps.exif_transpose(small)
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    target = io.BytesIO()
    if kind == "JPEG":
        upright.save(target, "JPEG", quality=QUALITY, optimize=True)
    else:
        upright.save(target, "PNG", optimize=True)
    return Photo(target.getvalue(), ".jpg" if kind == "JPEG" else ".png", *upright.size)


def _small(image: Image.Image) -> Image.Image:
    """The pixels alone, as greys or colours on white, at least twice as many each way as a page shows.

    One strip at a time: a photo of 60 million pixels fills 240 MB once, and not for each act.
    """
    factor = max(1, max(image.size) // (2 * LONGEST_SIDE))
    size = [-(-side // factor) for side in image.size]
    small = Image.new("L" if image.mode in _GREY else "RGB", (size[0], size[1]))
    for top in range(0, size[1], _STRIP):
        bottom = min((top + _STRIP) * factor, image.height)
        strip = _opaque(image.crop((0, top * factor, image.width, bottom)))
        small.paste(strip.convert(small.mode).reduce(factor), (0, top))
    return small


def _opaque(strip: Image.Image) -> Image.Image:
    if strip.mode.startswith("I"):  # greys up to 65535, which a conversion would cut off at 255
        return strip.point(lambda grey: grey * (1 / 257)).convert("L")
    if "A" in strip.getbands() or "transparency" in strip.info:
        clear = strip.convert("RGBA")
        return Image.alpha_composite(Image.new("RGBA", clear.size, "white"), clear)
    return strip


def _is_bare_jpeg(data: bytes) -> bool:
    """True when only segments of the picture are before one scan, and nothing behind its end."""
    at = 2
    while data[at : at + 1] == b"\xff" and at + 4 <= len(data):
        marker, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        if marker == 0xDA:
            scan = data[at + 2 + length :]
            inner = scan.replace(b"\xff\x00", b"")
            for restart in range(0xD0, 0xD8):
                inner = inner.replace(bytes((0xFF, restart)), b"")
            return inner.endswith(b"\xff\xd9") and inner.count(b"\xff") == 1
        if marker not in _JPEG_BARE or (marker == 0xE0 and length != _JFIF):
            return False
        at += 2 + length
    return False


def _is_bare_png(data: bytes) -> bool:
    at, found = 8, b""
    while at + 12 <= len(data):
        length, found = int.from_bytes(data[at : at + 4], "big"), data[at + 4 : at + 8]
        if found not in _PNG_BARE:
            return False
        at += 12 + length
    return at == len(data) and found == b"IEND"
