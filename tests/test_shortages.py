"""Stock that does not do: what is short and what would do, on the pages and of a problem alone."""

from pathlib import Path

import pytest

from generator.bench.solve import solve
from generator.cli import main
from generator.figures.compute import compute
from generator.manual import Manual
from generator.resources import bundled
from generator.spec.load import read_spec


def test_the_plans_say_what_is_short_and_what_would_do() -> None:
    """Two of the three sheets of 12 mm are there, and the poplar is too short for the longest strip."""
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = text.replace(
        "{length: 2440, width: 1220, price: 75}", "{length: 2440, width: 1220, price: 75, count: 2}"
    )
    text = text.replace("{length: 6000, price: 54}", "{length: 1900, price: 54}")
    loaded = read_spec(text, "demo.yml")
    figures, _ = compute(solve(loaded))
    short = {each.material: each for each in figures.cutting.shortages}
    assert (short["ply-12"].more, short["ply-12"].needs) == (1, (2440, 1220))
    # B1 is 1920 long, the bar 1880 between its end trims
    assert (short["bar"].mark, short["bar"].short_by, short["bar"].needs) == ("B1", 40, (1940,)) and short[
        "bar"
    ].count == 4
    assert {"bar", "ply-12"}.isdisjoint(each.material for each in figures.cutting.offcuts)
    manual = Manual(loaded, figures, "demo.yml")
    sheets, bars = ((manual.file(f"docs/{name}.md") or b"").decode() for name in ("sheet-plan", "bar-plan"))
    assert "No plan for 12 mm" in sheets and "1 more sheet of" in sheets and "No plan for 40" not in sheets
    assert "No plan for 40" in bars and "too long for the stock" in bars


@pytest.mark.parametrize(
    ("text", "said"),
    [
        # 12 of 1920 take four bars of three; 6 find room in the two there are
        ("stock: [[6000, 54, 2]]\npieces: [[1920, 12]]\n", ["6 of the pieces of 1920 mm", "2 more bars of 6000 mm"]),
        ("stock: [[6000]]\ntrim: 10\npieces: [[5990, 1], [7000, 1], [100, 9]]\n",
         ["5990 mm is 10 mm too long", "6010 mm or more", "7000 mm is 1020 mm too long"]),
        ("sheets: [[2440, 1220, 54, 1]]\npieces: [[1200, 600, 6]]\n",
         ["2 of the pieces of 1200 mm x 600 mm", "1 more sheet of 2440 mm x 1220 mm"]),
        ("sheets: [[2440, 1220]]\ntrim: 10\npieces: [[1210, 2000, 1, 0], [2430, 500]]\n",
         ["800 mm too large", "1230 mm x 2020 mm or more", "10 mm too large"]),
        ("units: in\nstock: [[96]]\npieces: [[97 1/2, 1]]\n", ["97 1/2 in is 1 1/2 in too long"]),
    ],
)  # fmt: skip
def test_a_problem_that_cannot_be_cut(
    text: str, said: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "problem.yml"
    path.write_text(text)
    assert main(["cuts", str(path)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert all(part in told.err for part in said), told.err
