"""The commands as a user types them: status, what is said and where, what is written."""

import json
from itertools import count
from pathlib import Path

import jsonschema
import pytest
import yaml

from generator.cli import main

SPECS = Path(__file__).resolve().parents[1] / "specs"


@pytest.fixture(autouse=True)
def _in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_a_new_spec_builds_as_it_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "mine.yml"]) == 0
    assert main(["build", "mine.yml"]) == 0
    said = capsys.readouterr().out
    site = Path("build/mine/site/index.html").resolve()
    assert said.rstrip().endswith(str(site))
    assert site.exists()
    assert Path("build/mine/pages/docs/cut-list.md").exists()


def test_new_overwrites_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    Path("mine.yml").write_text("precious")
    assert main(["new", "mine.yml"]) == 2
    assert Path("mine.yml").read_text() == "precious"
    assert "mine.yml already exists" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_shipped_specs_have_warnings_and_no_error(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(SPECS / f"{name}.yml")]) == 1
    said = capsys.readouterr()
    assert "error:" not in said.err and "error" not in said.out
    assert "[drawers-open]" in said.err


def test_check_says_1_for_findings_and_2_for_faults(capsys: pytest.CaptureFixture[str]) -> None:
    demo = (SPECS / "demo.yml").read_text()
    Path("low.yml").write_text(demo.replace("rating: 180 kg", "rating: 100 kg"))
    assert main(["check", "low.yml"]) == 1
    assert "[caster-rating]" in capsys.readouterr().err
    Path("bad.yml").write_text(demo.replace("depth: 500", "depth: 5oo"))
    assert main(["check", "bad.yml"]) == 2
    assert "zones[0].depth" in capsys.readouterr().err


def test_all_faults_are_said_at_once_and_nothing_is_written(capsys: pytest.CaptureFixture[str]) -> None:
    demo = (SPECS / "demo.yml").read_text()
    broken = demo.replace("height: 880", "hieght: 880").replace("pitch: 96", "pitch: ninety")
    broken = broken.replace("through: posts", "through: post").replace("trim: angle-15", "trim: angel-15")
    Path("bad.yml").write_text(broken)
    assert main(["build", "bad.yml"]) == 2
    said = capsys.readouterr().err
    assert "did you mean 'height'?" in said
    assert "did you mean 'posts'?" in said
    assert "did you mean 'angle-15'?" in said
    assert "top.holes.pitch" in said
    assert "4 faults; nothing was written" in said
    assert not Path("build").exists()


def what_yesterdays_version_left(out: Path) -> None:
    """It marked the pages alone, took any folder, and left its working folders when it was killed."""
    for folder in ("pages/docs", "site", ".site-k3j_92xa/fresh", ".site-0123abcd/old"):
        (out / folder).mkdir(parents=True)
    (out / "pages" / ".bench-manual-files").write_text("docs/old.md\nmkdocs.yml\n")
    (out / "pages" / "docs" / "old.md").touch()
    head = (
        '<html><head><title>A bench</title><meta name="bench-manual" content="a-bench" data-unit="mm"></head>'
    )
    for page in ("index.html", "404.html", "old.html"):
        (out / "site" / page).write_text(head)


def test_what_yesterdays_version_built_is_built_again_and_a_fault_leaves_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    Path("out").mkdir()
    Path("out/letter.txt").write_text("precious")
    what_yesterdays_version_left(Path("out"))
    Path("a.yml").write_text((SPECS / "starter.yml").read_text())
    assert main(["build", "a.yml", "--out", "out"]) == 0
    ours = {".bench-manual", ".bench-manual-made", "pages", "site"}
    assert {path.name for path in Path("out").iterdir()} == {"letter.txt", *ours}
    assert not Path("out/pages/docs/old.md").exists()
    assert not Path("out/site/old.html").exists()
    before = {path: path.read_bytes() for path in Path("out").rglob("*") if path.is_file()}
    Path("a.yml").write_text("spec: 1\n")
    assert main(["build", "a.yml", "--out", "out"]) == 2
    assert before == {path: path.read_bytes() for path in Path("out").rglob("*") if path.is_file()}


def test_figures_prints_json_and_nothing_else(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["figures", str(SPECS / "demo.yml")]) == 0
    printed = capsys.readouterr()
    data = json.loads(printed.out)
    assert data["layout"]["frame_height"] == 725
    # what to decide about the bench is said beside it, not in it
    heads = [line for line in printed.err.splitlines() if line.startswith("demo.yml")]
    assert len(heads) == 3 and all(" warning: " in line for line in heads)


def test_figures_of_a_bench_with_error_findings_are_printed_all_the_same(
    capsys: pytest.CaptureFixture[str],
) -> None:
    demo = (SPECS / "demo.yml").read_text().replace("rating: 180 kg", "rating: 100 kg")
    Path("low.yml").write_text(demo)
    assert main(["figures", "low.yml"]) == 0
    printed = capsys.readouterr()
    assert json.loads(printed.out)["casters"]["rating"] == 100
    assert "[caster-rating]" in printed.err


def test_the_schema_accepts_every_shipped_spec(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema"]) == 0
    validator = jsonschema.Draft202012Validator(json.loads(capsys.readouterr().out))
    for path in SPECS.glob("*.yml"):
        if path.name != "cards.yml":
            data = json.loads(json.dumps(yaml.safe_load(path.read_text()), default=str))
            assert [error.message for error in validator.iter_errors(data)] == [], path.name


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["build", "nowhere.yml"], "nowhere.yml"),
        (["build", "."], "folder"),
        (["bild", "x.yml"], "No such command"),
        (["build"], "Missing argument"),
        (["new", "no/such/folder/x.yml"], "cannot be written"),
    ],
)
def test_a_wrong_call_is_one_message_and_status_2(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(arguments) == 2
    printed = capsys.readouterr()
    assert said in printed.out + printed.err
    assert "Traceback" not in printed.err


def test_an_output_folder_that_cannot_be_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    Path("file").write_text("")
    assert main(["build", str(SPECS / "starter.yml"), "--out", "file"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_a_cutting_problem_alone_is_planned_and_proved(capsys: pytest.CaptureFixture[str]) -> None:
    """The bars of the worked bench: 5 of 6000 are the least there is."""
    pieces = "[[1920, 4], [820, 12], [725, 4], [645, 7], [485, 2]]"
    Path("bars.yml").write_text(
        f"name: demo bars\nstock: [[6000, 1, null]]\nkerf: 4\ntrim: 10\npieces: {pieces}\n"
    )
    assert main(["cuts", "bars.yml", "--json"]) == 0
    plan = json.loads(capsys.readouterr().out)
    assert (plan["name"], plan["cost"], plan["bound"], plan["proved"]) == ("demo bars", 5, 5, True)
    assert sum(len(bar["pieces"]) for bar in plan["bars"]) == 29
    assert max(bar["offcut"] for bar in plan["bars"]) == 3843
    assert plan["seconds"] >= 0
    assert main(["cuts", "bars.yml"]) == 0
    assert "proved" in capsys.readouterr().out


def test_progress_goes_to_standard_error_alone_and_changes_no_byte(
    capsys: pytest.CaptureFixture[str],
) -> None:
    pieces = "[[811, 402, 9, 1], [610, 333, 12, 0], [457, 291, 14, 1], [390, 207, 11, 0]]"
    Path("sheets.yml").write_text(
        f"name: doors\nsheets: [[2440, 1220, 60], [1525, 1525, 52]]\nkerf: 3\ntrim: 10\npieces: {pieces}\n"
    )
    said = []
    for option in ("--no-progress", "--progress"):
        assert main(["cuts", "sheets.yml", "--json", "--seconds", "0.3", option]) == 0
        said.append(capsys.readouterr())
    plans = [json.loads(each.out) | {"seconds": 0} for each in said]
    assert plans[0] == plans[1]
    assert said[0].err == ""
    shares = [int(part.split(" %")[0].split()[-1]) for part in said[1].err.strip().split("\r")]
    assert shares[0] == 0 and shares == sorted(set(shares)) and len(shares) > 2


def test_a_slow_computer_is_stopped_and_the_plan_says_so(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each look at the clock is a hundred seconds later, so the first look ends the search."""
    pieces = "[[811, 402, 9, 1], [610, 333, 12, 0], [457, 291, 14, 1], [390, 207, 11, 0]]"
    Path("sheets.yml").write_text(f"sheets: [[2440, 1220, 60]]\nkerf: 3\ntrim: 10\npieces: {pieces}\n")
    ticks = count(0, 100)
    monkeypatch.setattr("time.process_time", lambda: next(ticks))
    assert main(["cuts", "sheets.yml", "--json", "--seconds", "3"]) == 0
    said = capsys.readouterr()
    plan = json.loads(said.out)
    assert plan["stopped"] is True
    assert sum(len(sheet["pieces"]) for sheet in plan["sheets"]) == 46
    assert "was stopped" in said.err


def test_by_itself_progress_is_for_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    Path("bars.yml").write_text("stock: [[6000]]\npieces: [[1920, 4]]\n")
    assert main(["cuts", "bars.yml", "--json"]) == 0
    assert capsys.readouterr().err == ""


def test_a_piece_longer_than_any_stock_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    Path("long.yml").write_text(
        "name: long\nstock: [[1000, 1, null]]\nkerf: 3\ntrim: 10\npieces: [[990, 1]]\n"
    )
    assert main(["cuts", "long.yml"]) == 2
    said = capsys.readouterr().err
    assert "990" in said
    assert "10" in said


def test_help_lists_the_commands_in_the_order_of_the_work(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    said = capsys.readouterr().out
    names = ["new", "check", "build", "print", "serve", "record", "compare", "adapt"]
    places = [said.index(f"\n  {name} ") for name in names]
    assert places == sorted(places)
    assert "..." not in said.partition("Commands:")[2]


def test_the_cutting_problems_in_the_help_are_planned(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cuts", "--help"]) == 0
    lines = [line.strip() for line in capsys.readouterr().out.splitlines()]
    bars = lines[lines.index(next(line for line in lines if line.startswith("units:"))) :][:5]
    sheets, boards = ([line] for line in lines if line.startswith("sheets:"))
    sheets += [line for line in lines if line.startswith("pieces:")][1:]
    boards += [*(line for line in lines if line.startswith("clear:")), "pieces: [[580, 170, 3]]"]
    said = {"bars": "bars, cost ", "sheets": "sheets, cost ", "boards": "piece 580 x 170 at 1166, 0"}
    for name, text in (("bars", bars), ("sheets", ["kerf: 3", *sheets]), ("boards", ["kerf: 3", *boards])):
        Path(f"{name}.yml").write_text("\n".join(text))
        assert main(["cuts", f"{name}.yml"]) == 0, text
        assert said[name] in capsys.readouterr().out


def test_a_misspelt_spec_is_not_served(capsys: pytest.CaptureFixture[str]) -> None:
    Path("bench.yml").write_text("spec: 1")
    assert main(["serve", "bensh.yml", "--port", "0"]) == 2
    said = capsys.readouterr()
    assert "did you mean 'bench.yml'?" in said.err
    assert said.out == ""


@pytest.mark.parametrize("command", ["build", "print", "gallery"])
@pytest.mark.parametrize("place", ["out/site/index.html", "out/pages/docs/index.md", "out/letter.txt"])
def test_files_of_others_are_left_alone_before_anything_is_written(
    command: str, place: str, capsys: pytest.CaptureFixture[str]
) -> None:
    Path(place).parent.mkdir(parents=True)
    Path(place).write_text("precious")
    before = sorted(Path("out").rglob("*"))
    assert main([command, str(SPECS / "starter.yml"), "--out", "out"]) == 2
    said = capsys.readouterr().err
    assert "has files that bench-manual did not write" in said
    assert "--out" in said
    assert sorted(Path("out").rglob("*")) == before
    assert Path(place).read_text() == "precious"


@pytest.mark.parametrize("out", [".", "/", "mine.yml", "/dev/null/below"])
def test_a_folder_that_is_none_of_ours_is_refused(out: str, capsys: pytest.CaptureFixture[str]) -> None:
    text = (SPECS / "starter.yml").read_text()
    Path("mine.yml").write_text(text)
    for command in ("build", "print", "gallery"):
        assert main([command, "mine.yml", "--out", out]) == 2
        said = capsys.readouterr().err
        assert said.startswith("bench-manual: ") and said.count("\n") == 1, said
    assert [path.name for path in Path().iterdir()] == ["mine.yml"]
    assert Path("mine.yml").read_text() == text


def test_a_pdf_is_no_folder_to_print_into(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["print", str(SPECS / "starter.yml"), "--out", "shop.pdf"]) == 2
    said = capsys.readouterr().err
    assert "--out names a folder" in said and "Write --out shop" in said
    assert list(Path().iterdir()) == []


def test_check_counts_what_is_to_be_mended(capsys: pytest.CaptureFixture[str]) -> None:
    demo = (SPECS / "demo.yml").read_text()
    Path("low.yml").write_text(demo.replace("rating: 180 kg", "rating: 100 kg"))
    assert main(["check", "low.yml"]) == 1
    assert capsys.readouterr().out == "low.yml: 1 error and 3 warnings; do not cut from it yet\n"
