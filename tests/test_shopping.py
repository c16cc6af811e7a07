"""What to buy: stock by the plans, hardware by whole packs with spares, prices in the spec's own currency."""

import csv
import io
from functools import cache

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.buying import PIECES_FILE, Bought, Purchase
from generator.findings import Finding
from generator.manual import Manual
from generator.resources import bundled
from generator.spec.load import read_spec
from generator.writers.plans_csv import plans_csv
from tests.prints.bench import figures_of

CHANGES = (
    ("access_hole: 8, entry: slide-in}", "access_hole: 8, entry: slide-in, pack: 10, price: 12.50}"),
    ("travel: 500}", "travel: 500, price: 18, from: Bar and Bolt}"),
    (
        "totes:\n  tote-145",
        "packs:\n  slide screw: {pack: 1000, price: 9}\n  slide scrw: {pack: 3}\ntotes:\n  tote-145",
    ),
)


@cache
def priced() -> tuple[Figures, tuple[Finding, ...], str]:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    for old, new in CHANGES:
        assert text.count(old) == 1
        text = text.replace(old, new)
    loaded = read_spec(text, "demo.yml")
    figures, findings = compute(solve(loaded))
    page = (Manual(loaded, figures, "demo.yml").file("docs/shopping-list.md") or b"").decode()
    return figures, findings, page.replace("\u00a0", " ")


def test_slides_are_bought_by_the_pair() -> None:
    assert "pairs, 500 mm long" in priced()[2]


def test_stock_that_does_not_hold_the_parts_is_not_called_missing() -> None:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    loaded = read_spec(text.replace("{length: 6000, price: 54}", "{length: 1900, price: 54}"), "demo.yml")
    bar = line(compute(solve(loaded))[0], "bar")
    assert bar.buy == () and "not enough stock" in bar.detail and "no stock" not in bar.detail


def line(figures: Figures, item: str) -> Purchase:
    (row,) = [row for row in figures.purchases if row.item == item]
    return row


@pytest.mark.parametrize(
    ("item", "buy", "cost"),
    [
        # 35 joints and a tenth, rounded up, as spare: 39, which is four packs of ten
        ("end-clip", Bought(4, 12.5, pack=10), 50.0),
        # 8 pairs, none spare, by the piece
        ("slide", Bought(8, 18.0), 144.0),
        # 8 pairs of 3 holes in 2 slides: 48 into the packing, 48 shorter ones into the boxes, each with 5 spare
        ("slide screw, 4x16", Bought(1, 9.0, pack=1000), 9.0),
        ("slide screw, 4x10", Bought(1, 9.0, pack=1000), 9.0),
        # those in the corners brake, the two in the middle do not
        ("caster, swivel with brake", Bought(4, None), None),
        ("caster, swivel without brake", Bought(2, None), None),
    ],
)
def test_hardware_by_the_pack(item: str, buy: Bought, cost: float | None) -> None:
    row = line(priced()[0], item)
    assert (row.buy, row.cost) == ((buy,), cost)
    assert row.quantity <= buy.count * (buy.pack or 1)


def test_screws_of_two_lengths_are_two_lines_with_their_own_spares() -> None:
    figures = priced()[0]
    lines = {row.item: (row.quantity, row.detail) for row in figures.purchases if "screw, 4x" in row.item}
    assert lines == {
        "slide screw, 4x16": (53, "48 + 5 spare"),
        "slide screw, 4x10": (53, "48 + 5 spare"),
        "strip screw, 4x25": (80, "72 + 8 spare"),
        "strip screw, 4x40": (53, "48 + 5 spare"),
    }
    for row in figures.hardware:
        bought = [each.quantity for each in figures.purchases if each.item.split(", ")[0] == row.item]
        assert sum(bought) == row.count + row.spare, row.item


def test_stock_by_the_plans() -> None:
    figures = priced()[0]
    assert line(figures, "bar").buy == (Bought(5, 54.0, 6000),)  # type: ignore[arg-type]
    assert line(figures, "ply-12").buy == (Bought(3, 75.0, 2440, 1220),)  # type: ignore[arg-type]
    assert line(figures, "ply-6").cost is None


def test_the_total_names_its_currency_and_what_has_no_price() -> None:
    figures, _, page = priced()
    # 270 bars, 225 sheets, 63 poplar, 12 angle; 50 + 144 + twice 9 of hardware
    assert figures.purchase_total.cost == 270 + 225 + 63 + 12 + 50 + 144 + 2 * 9
    assert (
        "caster plate" in figures.purchase_total.unpriced and "slide" not in figures.purchase_total.unpriced
    )
    assert "**782.00 EUR**" in page and "4 packs of 10 at 12.50 EUR" in page


def test_each_supplier_has_an_order_and_so_has_a_cutting_service() -> None:
    figures = priced()[0]
    own, others = figures.purchase_total.orders
    assert (own.supplier, own.items, own.cost, own.file) == (
        "Bar and Bolt",
        ("slide",),
        144,
        "order-bar-and-bolt.csv",
    )
    assert own.cost + others.cost == figures.purchase_total.cost
    assert {*own.items, *others.items} == {row.item for row in figures.purchases}
    files = plans_csv(figures)
    assert len(files[own.file].splitlines()) == 1 + 1
    pieces = list(csv.DictReader(io.StringIO(files[PIECES_FILE].removeprefix("\ufeff"))))
    assert sum(int(row["count"]) for row in pieces) == sum(part.count for part in figures.parts)
    # drawer boxes are cut to the measured bay
    assert {row["part"] for row in pieces if row["when"] == "later"} == {
        part.name for part in figures.parts if part.waits
    }


def test_without_a_currency_the_page_says_so() -> None:
    assert figures_of("demo").spec.currency == "EUR"
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    loaded = read_spec(text.replace(", currency: EUR", ""), "demo.yml")
    page = (
        Manual(loaded, compute(solve(loaded))[0], "demo.yml").file("docs/shopping-list.md") or b""
    ).decode()
    assert "Prices come from the [spec]" in page and "**570.00**" in page


def test_a_pack_for_hardware_that_is_not_there_is_told_with_the_nearest_name() -> None:
    (finding,) = [each for each in priced()[1] if each.code == "unknown-hardware"]
    assert (finding.found, finding.nearest) == ("slide scrw", "slide screw")
    assert finding.where and finding.where.path == "packs.slide scrw"


@pytest.mark.parametrize(("budget", "over"), [(500, True), (5000, False)])
def test_a_budget_is_held_against_all_prices(budget: int, over: bool) -> None:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    loaded = read_spec(text.replace("units: mm", f"units: mm\nbudget: {budget}"), "demo.yml")
    figures, findings = compute(solve(loaded))
    # five bars, three sheets, two angles and seven strips, by the prices of the demo
    cost = 5 * 54 + 3 * 75 + 2 * 6 + 7 * 9
    assert figures.purchase_total.cost == cost
    told = [finding for finding in findings if finding.code == "budget"]
    assert bool(told) == over
    if over:
        assert (told[0].found, told[0].allowed) == (f"{cost} EUR", "500 EUR or less")
        assert "bar 270.00, ply-12 225.00, poplar-15 63.00" in told[0].advice
        assert f"{len(figures.purchase_total.unpriced)} items have no price" in told[0].advice
    page = (Manual(loaded, figures, "demo.yml").file("docs/shopping-list.md") or b"").decode()
    rest = f"{cost - budget}.00 EUR too much" if over else f"{budget - cost:,}.00 EUR left".replace(",", "")
    assert rest in page.replace("\u00a0", " ").replace("*", "")


def test_defaults_of_a_finish_have_their_units_on_the_page_of_assumed_values() -> None:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8") + "finish: {top: {coat: oil}}\n"
    loaded = read_spec(text, "demo.yml")
    page = (
        Manual(loaded, compute(solve(loaded))[0], "demo.yml").file("docs/assumed-values.md") or b""
    ).decode()
    rows = [
        row for row in page.replace("\u00a0", " ").splitlines() if "finish" in row and row.startswith("|")
    ]
    assert {unit for unit in (" m²/l", " h ", " l ") if any(unit in row for row in rows)} == {
        " m²/l",
        " h ",
        " l ",
    }
    assert not any(" mm" in row for row in rows)
