"""Pictures that wait until they are looked at: in the end a page shows what the built one shows, and nothing old."""

from __future__ import annotations

import re
import urllib.error
from pathlib import Path

import pytest

from generator.in_sight import InSight, Sizes
from generator.manual import IN_SHARES, Manual, begun, frame_files
from generator.output import write_changed
from generator.pages import PAGES
from generator.resources import bundled
from generator.site import PageMaker
from generator.spec.load import read_spec
from tests.serving import Served, serving

SPECS = bundled("specs")
DRAWN = [page for page in PAGES if page.slug in (IN_SHARES, "part-sheets")]
PAGE = next(page for page in DRAWN if page.slug == IN_SHARES)
BOX = re.compile(r'<svg\b[^>]* id="([^"]+)"[^>]* data-awaited="([^"]+)"[^>]*>.*?</svg>')
PICTURE = re.compile(r'<svg\b[^>]* id="([^"]+)".*?</svg>')


def manual_of(text: str) -> Manual:
    return begun(read_spec(text, "bench.yml"), "bench.yml")[0]


def waiting(text: str, sizes: Sizes) -> tuple[Manual, InSight]:
    manual = manual_of(text)
    pictures = InSight(manual.figures, sizes)
    manual.take(IN_SHARES, pictures.boxes())
    return manual, pictures


@pytest.mark.parametrize("name", ["starter.yml", "samples/joiner.yml"])
def test_a_page_whose_pictures_have_come_is_the_built_page(name: str, tmp_path: Path) -> None:
    write_changed(frame_files(), tmp_path)
    maker, text = PageMaker(tmp_path), (SPECS / name).read_text(encoding="utf-8")
    sizes: Sizes = {}
    earlier, pictures = waiting(text, sizes)
    boxes = [box for page in DRAWN for box in BOX.findall(earlier.page(page))]
    drawn = {
        found[1]: found[0]
        for which in {which for _, which in boxes}
        for found in PICTURE.finditer(pictures.picture(which) or "")
    }
    assert len(boxes) == len(drawn) > 60
    manual, _ = waiting(text, sizes)  # with the sizes of all: the page of a wide picture lies on paper
    whole = manual_of(text)
    for page in DRAWN:
        made = maker.make(page.file, manual.page(page), manual.facts)
        shown = BOX.sub(lambda box: drawn[box[1]], made)
        assert shown == maker.make(page.file, whole.page(page), whole.facts)
    downloads = next(page for page in PAGES if page.slug == "downloads")
    assert earlier.page(downloads) == whole.page(downloads)
    for _, which in (boxes[0], boxes[-1]):
        assert manual.file(f"docs/drawings/{which}.svg") == whole.file(f"docs/drawings/{which}.svg")
    assert pictures.picture("picture-of-nothing") is None


def test_a_box_is_as_large_as_its_picture_was_and_its_picture_is_new() -> None:
    text, sizes = (SPECS / "starter.yml").read_text(encoding="utf-8"), {}
    before, steps = waiting(text, sizes)
    # that of the last step: pictures of acts are the same for a longer bench
    which = BOX.findall(before.page(PAGE))[-1][1]
    old = steps.picture(which)
    after, anew = waiting(text.replace("length: 1300", "length: 1700"), sizes)
    boxes = {found[2]: found[0] for found in BOX.finditer(after.page(PAGE)) if "-slim" not in found[1]}
    frame = r'viewBox="([^"]+)"'
    assert old and re.findall(frame, boxes[which]) == re.findall(frame, old)[:1]
    whole = manual_of(text.replace("length: 1300", "length: 1700"))
    new = anew.picture(which)
    assert new and new != old
    assert all(found[0] in whole.page(PAGE) for found in PICTURE.finditer(new))


def test_a_picture_of_an_earlier_save_is_refused(tmp_path: Path) -> None:
    spec, text = tmp_path / "bench.yml", (SPECS / "starter.yml").read_text(encoding="utf-8")
    spec.write_text(text, encoding="utf-8")
    with serving(spec) as served:
        state = served.state()
        which = BOX.findall(served.get("assembly.html"))[0][1]
        assert served.get(f"pictures/{state['manual']}/{which}").startswith("<svg")
        assert refused(served, f"pictures/{state['manual']}/picture-of-nothing") == 404
        spec.write_text(text.replace("length: 1300", "length: 1700"), encoding="utf-8")
        later = served.state(state["state"])
        assert refused(served, f"pictures/{state['manual']}/{which}") == 409
        assert served.get(f"pictures/{later['manual']}/{which}").startswith("<svg")


def refused(served: Served, path: str) -> int:
    with pytest.raises(urllib.error.HTTPError) as error:
        served.get(path)
    error.value.close()
    return error.value.code
