"""Photos: upright, small, without place and time; what is no photo is refused; what is bare passes as it is."""

from __future__ import annotations

import io
import os
import struct
import subprocess
import sys
import zlib
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image, PngImagePlugin

from generator.spec import photo as photo_module
from generator.spec.photo import LONGEST_SIDE, PhotoError, read_photo

GPS = 0x8825
ORIENTATION = 0x0112


def taken(size: tuple[int, int] = (300, 200), orientation: int = 1, comment: bytes = b"") -> bytes:
    """A JPEG as a phone writes it: with its place, its time and which side was up. The left half is red."""
    image = Image.new("RGB", size, "blue")
    image.paste("red", (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[0x0132] = "2026:11:03 10:11:12"
    exif.get_ifd(GPS)[2] = (47.0, 22.0, 30.5)
    exif.get_ifd(GPS)[1] = "N"
    target = io.BytesIO()
    image.save(target, "JPEG", exif=exif, comment=comment, xmp=b"<x>47.375</x>")
    return target.getvalue()


def test_place_and_time_are_gone_and_the_picture_is_there(tmp_path: Path) -> None:
    data = taken(comment=b"at home")
    assert b"Exif" in data
    (tmp_path / "a.jpg").write_bytes(data + b"a film behind the picture")
    photo = read_photo(tmp_path, "a.jpg")
    image = Image.open(io.BytesIO(photo.data))
    assert dict(image.getexif()) == {}
    for leaked in (b"Exif", b"47.375", b"at home", b"2026", b"film"):
        assert leaked not in photo.data
    assert (photo.width, photo.height, photo.suffix) == (300, 200, ".jpg")
    red, green, blue = image.convert("RGB").getpixel((20, 100))  # type: ignore[misc]
    assert (red > 200, green < 60, blue < 60) == (True, True, True)


def test_a_photo_that_was_taken_sideways_stands_upright(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(taken(orientation=6))  # Exif 2.32, 4.6.4: row 0 is the right-hand side
    photo = read_photo(tmp_path, "a.jpg")
    assert (photo.width, photo.height) == (200, 300)
    pixel = Image.open(io.BytesIO(photo.data)).convert("RGB").getpixel((100, 20))
    assert isinstance(pixel, tuple)
    assert pixel[0] > 200


@pytest.mark.parametrize("name", ["a.jpg", "a.JPEG", "deep/er/a.jpg"])
def test_what_is_large_becomes_small_and_then_stays(name: str, tmp_path: Path) -> None:
    (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / name).write_bytes(taken((3000, 1500)))
    once = read_photo(tmp_path, name)
    assert (once.width, once.height) == (LONGEST_SIDE, LONGEST_SIDE // 2)
    (tmp_path / name).write_bytes(once.data)
    assert read_photo(tmp_path, name) == once


def test_a_png_loses_its_texts_and_then_stays(tmp_path: Path) -> None:
    note = PngImagePlugin.PngInfo()
    note.add_text("Comment", "at home")
    Image.new("RGBA", (40, 30), (255, 0, 0, 0)).save(tmp_path / "a.png", pnginfo=note)
    once = read_photo(tmp_path, "a.png")
    assert b"at home" not in once.data
    assert Image.open(io.BytesIO(once.data)).convert("RGB").getpixel((5, 5)) == (255, 255, 255)
    (tmp_path / "a.png").write_bytes(once.data)
    assert read_photo(tmp_path, "a.png") == once


def ramp(top: int, size: tuple[int, int] = (256, 64)) -> NDArray[np.uint32]:
    """Greys from 0 at the left to `top` at the right."""
    return np.tile(np.linspace(0, top, size[0]).astype(np.uint32), (size[1], 1))


@pytest.mark.parametrize("size", [(256, 64), (8000, 500)])
def test_greys_of_16_bits_stay_greys(size: tuple[int, int], tmp_path: Path) -> None:
    Image.fromarray(ramp(65535, size).astype(np.uint16)).save(tmp_path / "a.png")
    photo = read_photo(tmp_path, "a.png")
    shown = np.asarray(Image.open(io.BytesIO(photo.data)).convert("L"), dtype=int)
    assert np.abs(shown - ramp(255, (photo.width, photo.height))).max() <= 2


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA"])
@pytest.mark.parametrize("size", [(300, 200), (6501, 263)])
def test_every_kind_of_png_is_shown_as_it_looks_on_white(
    mode: str, size: tuple[int, int], tmp_path: Path
) -> None:
    """Half black and half clear where it can be; a border between strips would show as a wrong row."""
    image = Image.new("RGBA", size, (0, 0, 0, 255))
    image.paste(
        (200, 0, 0, 0) if mode in ("LA", "RGBA") else (255, 255, 255, 255), (0, 0, size[0] // 2, size[1])
    )
    image.convert(mode).save(tmp_path / "a.png")
    photo = read_photo(tmp_path, "a.png")
    assert max(photo.width, photo.height) == min(max(size), LONGEST_SIDE)
    clear = Image.open(io.BytesIO(photo.data)).convert("RGBA")
    white = Image.new("RGBA", clear.size, "white")
    shown = np.asarray(Image.alpha_composite(white, clear).convert("L"), dtype=int)
    middle = photo.width // 2
    assert shown[:, : middle - 5].min() == 255
    assert shown[:, middle + 5 :].max() == 0


@pytest.mark.parametrize(("name", "mode"), [("a.png", "RGBA"), ("a.jpg", "RGB")])
def test_the_largest_photo_takes_less_than_500_mb(name: str, mode: str, tmp_path: Path) -> None:
    Image.new(mode, (7700, 7700)).save(tmp_path / name, compress_level=1)  # 59 million pixels
    code = (
        "import sys\nfrom pathlib import Path\nfrom generator.spec.photo import read_photo\n"
        "from tests.peak_memory import peak_kilobytes\n"
        "read_photo(Path(sys.argv[1]), sys.argv[2])\n"
        "print(peak_kilobytes())\n"
    )
    root = Path(photo_module.__file__).resolve().parents[2]
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path), name],
        cwd=root,
        capture_output=True,
        text=True,
        check=True,
    )
    assert int(done.stdout) < 500_000  # KB


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("../a.jpg", "outside-the-folder"),
        ("/etc/a.jpg", "outside-the-folder"),
        ("b/../../a.jpg", "outside-the-folder"),
        ("c:a.jpg", "outside-the-folder"),
        ("b\\a.jpg", "outside-the-folder"),
        ("link.jpg", "outside-the-folder"),
        ("links/a.jpg", "outside-the-folder"),
        ("a.txt", "not-a-photo"),
        ("a", "not-a-photo"),
        ("none.jpg", "no-file"),
        ("folder.jpg", "no-file"),
    ],
)
def test_names_that_are_refused(name: str, code: str, tmp_path: Path) -> None:
    inside, outside = tmp_path / "in", tmp_path / "out"
    for folder in (inside, outside, inside / "folder.jpg"):
        folder.mkdir()
    (outside / "a.jpg").write_bytes(taken())
    (inside / "link.jpg").symlink_to(outside / "a.jpg")
    (inside / "links").symlink_to(outside)
    with pytest.raises(PhotoError) as caught:
        read_photo(inside, name)
    assert caught.value.code == code


def bomb(side: int) -> bytes:
    """A PNG of one row of data that claims to be a square of that side."""
    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(bytes(90_001))), (b"IEND", b""))
    body = b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in chunks
    )
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"", "broken-photo"),
        (b"no picture at all", "broken-photo"),
        (taken()[:700], "broken-photo"),
        (b"GIF89a" + bytes(50), "broken-photo"),
        (bomb(8_000), "too-large"),
        (bomb(30_000), "too-large"),
    ],
)
def test_what_is_no_whole_photo_is_refused(data: bytes, code: str, tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(data)
    with pytest.raises(PhotoError) as caught:
        read_photo(tmp_path, "a.jpg")
    assert caught.value.code == code


def test_a_huge_file_is_not_read_to_its_end(tmp_path: Path) -> None:
    with (tmp_path / "a.jpg").open("wb") as stream:
        os.truncate(stream.fileno(), 40_000_000)
    with pytest.raises(PhotoError) as caught:
        read_photo(tmp_path, "a.jpg")
    assert (caught.value.code, caught.value.allowed) == ("too-large", "30 MB or less")
