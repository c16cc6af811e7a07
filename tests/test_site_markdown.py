"""What a build spares Markdown: plain texts, drawings and workings. The page is the same, links are checked."""

from pathlib import Path

import markdown
import pytest

from generator.site import PageMaker, SiteError, build_site
from tests.test_site import mkdocs_yml, project

SIGNS = "plain | a *b* c | `d` | <b>e</b> | &amp; f | \\* g | [h](index.md) | _i_ | j k | {: .right } | https://l.m"
TABLE = (
    f"# T\n\n| {' | '.join('n' * 11)} |\n|{'---|' * 11}\n| {SIGNS} |\n\nplain text\n\ntwo  \nlines, *a* b\n"
)
WORKING = '<div class="bm-workings">\n<p id="w-length" class="bm-working">2 × <a href="#w-length">3</a></p>\n</div>\n'


def test_a_page_is_what_markdown_makes_of_it(tmp_path: Path) -> None:
    maker = PageMaker(project(tmp_path / "pages"))
    extensions = {"admonition": {}, "attr_list": {}, "md_in_html": {}, "tables": {}}
    alone = markdown.markdown(TABLE, extensions=list(extensions)).partition("</h1>")[2]
    page = maker.make("index.md", TABLE, {"site_name": "A bench"})
    assert "<em>b</em>" in alone
    assert alone.replace('href="index.md"', 'href="index.html"') in page


@pytest.mark.parametrize("anchor", ["w-length", "w-width"])
def test_a_link_to_a_working_is_followed(tmp_path: Path, anchor: str) -> None:
    pages = project(tmp_path / "pages", f"# Overview\n\n[2](#{anchor})\n\n{WORKING}", mkdocs_yml())
    if anchor == "w-length":
        build_site(pages, tmp_path / "site")
        assert WORKING.strip() in (tmp_path / "site" / "index.html").read_text(encoding="utf-8")
    else:
        with pytest.raises(SiteError, match="w-width"):
            build_site(pages, tmp_path / "site")
