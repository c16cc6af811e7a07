"""A published manual says to the web what it is, in words that public vocabularies know; a private one says nothing."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
import yaml
from PIL import Image

from generator.figures.compute import figures_of
from generator.figures.rows.spec import SourceBench
from generator.findings import SpecError
from generator.manual import Manual
from generator.publish.how_to import how_to
from generator.publish.manifest import licence_id, manifest
from generator.publish.public import CARD_HEIGHT, CARD_WIDTH, Public, public_of, with_data
from generator.resources import bundled
from generator.spec.load import read_spec_file

KNOWN = yaml.safe_load((Path(__file__).parents[1] / "data" / "web-vocabularies.yml").read_text())
HERE = "https://example.org/benches/wall/"
DATA = re.compile(r'<script type="application/ld\+json">(.*)</script>')


@pytest.fixture(scope="module")
def wall() -> Manual:
    """The manual of the wall bench, published."""
    loaded = read_spec_file(bundled("specs") / "wall-bench.yml")
    return Manual(loaded, figures_of(loaded)[0], "wall-bench.yml", public=public_of(loaded, HERE))


def text(manual: Manual, path: str) -> str:
    return (manual.file(path) or b"").decode()


def nodes(value: Any) -> Iterator[Mapping[str, Any]]:
    """All typed things in the data."""
    if isinstance(value, list):
        for each in value:
            yield from nodes(each)
    elif isinstance(value, dict):
        if "@type" in value:
            yield value
        for each in value.values():
            yield from nodes(each)


def test_a_private_manual_says_nothing_to_the_web(shipped: Callable[[str], Mapping[str, bytes]]) -> None:
    files = shipped("demo")
    assert not [path for path in files if "okh" in path or "sitemap" in path or "card." in path]
    for path in ("docs/assembly.md", "docs/index.md", "mkdocs.yml"):
        assert not re.search(rb"ld\+json|^description:|^site_url|  card:", files[path], re.MULTILINE)


def test_the_assembly_has_its_steps_tools_and_supplies_in_words_of_the_vocabulary(wall: Manual) -> None:
    found = DATA.search(text(wall, "docs/assembly.md"))
    assert found is not None
    data = json.loads(found[1])
    for node in nodes(data):
        strange = node.keys() - {"@type", "@context"} - set(KNOWN["schema.org"][node["@type"]])
        assert strange == set(), node["@type"]
    steps = [step for section in data["step"] for step in section["itemListElement"]]
    assert [step["position"] for step in steps] == [step.n for step in wall.figures.assembly.steps]
    assert all(step["text"] and step["url"].startswith(f"{HERE}assembly.html#step-") for step in steps)
    pictures = [picture.removeprefix(HERE) for step in steps for picture in step.get("image", ())]
    assert pictures
    assert all(wall.file(f"docs/{picture}") for picture in pictures)
    assert len(data["supply"]) == len(wall.figures.purchases)
    times = {
        key: re.fullmatch(r"PT(\d+)H(\d+)M", data[key]) for key in ("prepTime", "performTime", "totalTime")
    }
    minutes = {key: int(found[1]) * 60 + int(found[2]) for key, found in times.items() if found}
    pieces = sum(len(step.parts) for step in wall.figures.assembly.steps)
    fasteners = sum(each.count for step in wall.figures.assembly.steps for each in step.fixings)
    assert minutes["performTime"] == 2 * pieces + fasteners > 60
    assert minutes["totalTime"] >= minutes["prepTime"] + minutes["performTime"] - 1


def test_data_for_machines_cannot_end_its_element() -> None:
    title = "</script><b>x"
    page = with_data("", {"name": title})
    assert page.count("</script>") == 1
    found = DATA.search(page)
    assert found is not None
    assert json.loads(found[1])["name"] == title


def test_the_manifest_has_the_fields_of_the_specification(wall: Manual) -> None:
    public = Public(HERE, "https://example.org/repository/")
    files = ["downloads/wall-bench-pack.zip", "downloads/dxf/TOP.dxf", "downloads/part-sheets-A4.pdf"]
    data = tomllib.loads(manifest(public, wall.figures, files, "wall-bench.yml"))
    known = KNOWN["okh"]
    assert set(known["required"]) <= data.keys() <= set(known["fields"])
    assert data["okhv"] in known["versions"]
    assert data["repo"] == "https://example.org/repository/"
    assert data["license"] == wall.figures.spec.licence
    assert data["mass"] == round(wall.figures.mass.empty * 1000)
    assert data["export"] == ["downloads/dxf/TOP.dxf", "downloads/part-sheets-A4.pdf"]
    assert set(data["outer-dimensions"]) == set(known["dimensions"])
    assert len(data["part"]) == len(wall.figures.parts)
    for part in data["part"]:
        assert {"name", "source"} <= part.keys() <= set(known["part"])


def test_licence_and_chain_are_on_each_page_and_in_what_machines_read(wall: Manual) -> None:
    chain = (
        SourceBench("First", "Ada", "CC0-1.0"),
        SourceBench("Second", "Mara", "", "C", "0123456789ab", "https://example.org/2/"),
    )
    figures = replace(wall.figures, spec=replace(wall.figures.spec, licence="CC-BY-4.0", adapted_from=chain))
    public = Public(HERE, HERE)
    based = how_to(public, figures, {})["isBasedOn"]
    assert [(each["name"], each.get("url")) for each in based] == [
        ("First", None),
        ("Second", "https://example.org/2/"),
    ]
    assert {key for node in nodes(based) for key in node} - {"@type"} <= set(
        KNOWN["schema.org"]["CreativeWork"]
    )
    files = ["downloads/wall-bench-pack.zip"]
    assert (
        tomllib.loads(manifest(public, figures, files, "wall-bench.yml"))["forkOf"]
        == "https://example.org/2/"
    )
    manual = Manual(wall.loaded, figures, "wall-bench.yml")
    said = "Adapted from Second by Mara, revision C, itself from First by Ada (CC0-1.0)."
    for page in ("fits", "checks", "replicate"):
        foot = " ".join(text(manual, f"docs/{page}.md").split())
        assert f"Licence: CC-BY-4.0, {figures.spec.designer}. {said}" in foot
    replicate = text(manual, "docs/replicate.md")
    assert "| First | Ada | CC0-1.0 |" in replicate
    boxes = re.findall(r'data-bm="measured/([^"]+)"', replicate)
    assert len(boxes) == len(set(boxes)) == replicate.count('class="bm-blank"') > 6


@pytest.mark.parametrize(
    ("licence", "named"),
    [
        ("CC-BY-4.0", "CC-BY-4.0"),
        ("MIT OR CC0-1.0", "MIT OR CC0-1.0"),
        ("", "LicenseRef-NONE"),
        ("ask me first", "LicenseRef-ask-me-first"),
    ],
)
def test_a_licence_is_named_as_the_specification_asks(licence: str, named: str) -> None:
    assert licence_id(licence) == named


def test_the_picture_is_made_from_the_bench(wall: Manual) -> None:
    with Image.open(BytesIO(wall.file("docs/assets/card.png") or b"")) as image:
        assert image.size == (CARD_WIDTH, CARD_HEIGHT)
        colours = image.convert("RGB").getcolors(1 << 20) or []
    assert len(colours) > 20
    painted = sum(count for count, colour in colours if colour != (255, 255, 255))
    assert painted > CARD_WIDTH * CARD_HEIGHT / 10


def test_a_picture_of_ones_own_is_taken_bare(tmp_path: Path) -> None:
    spec = tmp_path / "mine.yml"
    site = f"site: {{url: {HERE}, image: bench.png}}\n"
    spec.write_text((bundled("specs") / "starter.yml").read_text(encoding="utf-8") + site, encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        read_spec_file(spec)
    assert [(each.code, each.where and each.where.path) for each in caught.value.findings] == [
        ("no-file", "site.image")
    ]
    Image.new("RGB", (40, 30), "red").save(tmp_path / "bench.png", dpi=(72, 72))
    public = public_of(read_spec_file(spec))
    assert public is not None
    assert public.picture is not None
    assert (public.url, public.card, public.picture.width) == (HERE, "assets/card.png", 40)
    assert b"pHYs" not in public.picture.data
