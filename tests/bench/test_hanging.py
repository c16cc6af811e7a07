"""What hangs on the screws of strips: statics of a drawer pulled right out, and a shelf that shares its load."""

from __future__ import annotations

from generator.bench.hanging import most_on_a_screw
from generator.bench.role import Role
from generator.figures.screws import driven
from tests.bench.benches import changed, solved
from tests.test_every_key import TIMBER

TEXT = TIMBER.read_text(encoding="utf-8")
G = 9.80665


def worst(text: str, role: Role) -> tuple[float, str]:
    bench = solved(text)
    found = [most_on_a_screw(bench, each) for each in driven(bench) if each.role is role]
    return max(each for each in found if each is not None)


def test_both_drawers_of_a_bay_pulled_out_hang_on_its_front_strips() -> None:
    """Moments about the rear strip: R d = F (d / 2 + travel), with half of 2 x 20 kg on each wall."""
    bench = solved(TEXT)
    strips = [part for part in bench.of(Role.PACKING_STRIP) if part.place.bay == "left"]
    front, *_, rear = sorted({float(part.box.y.middle) for part in strips})
    (travel,) = {float(each.travel) for each in bench.goods.slides.values()}
    # 30 from each end and at most 150 apart
    height = float(strips[0].length)
    screws = next(n for n in range(2, 20) if (height - 60) / (n - 1) <= 150)
    expected = 20 * G * ((rear - front) / 2 + travel) / (rear - front) / screws
    load, bay = worst(TEXT, Role.PACKING_STRIP)
    assert (bay, round(load, 6)) == ("left", round(expected, 6))


def test_a_shelf_shares_its_load_among_the_screws_of_both_cleats() -> None:
    bench = solved(TEXT)
    cleats = bench.of(Role.SHELF_CLEAT)
    screws = sum(
        next(n for n in range(2, 20) if (float(part.length) - 60) / (n - 1) <= 150) for part in cleats
    )
    load, _ = worst(TEXT, Role.SHELF_CLEAT)
    assert round(load, 6) == round(15 * G / screws, 6)
    heavier, _ = worst(changed(TEXT, ("shelf: 15 kg", "shelf: 45 kg")), Role.SHELF_CLEAT)
    assert round(heavier, 6) == round(3 * load, 6)
