"""Changes of the demo, each of which makes one thing wrong: the text that goes, and the text that comes."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SPECS = ROOT / "specs"
DEMO = (SPECS / "demo.yml").read_text(encoding="utf-8")
#: The demo with a plain top: no check looks at its holes, and they take half the time.
BASE = DEMO.replace(", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", "")

ON_CASTERS = "base: {casters: caster, count: 6, plate: {size: [170, 170], thickness: 10}}"
LOADS = "\n\nloads: {drawer: 20 kg, shelf: 15 kg, top: 100 kg,"


def on_wide_pads() -> tuple[str, str]:
    """Text from the demo's goods to its base, as it is and on feet with pads of 120."""
    old = BASE[BASE.index("  caster: {kind: caster") : BASE.index(ON_CASTERS)] + ON_CASTERS
    return old, "  foot: {use: foot M10, pad: 120}\n" + old.replace(ON_CASTERS, on_feet())


def with_gussets(card: str) -> tuple[str, str]:
    """Text from the demo's goods to its frame, as it is and with brackets in the corners of the frame."""
    old = DEMO[DEMO.index("  caster: {kind: caster") : DEMO.index("  through: posts")]
    return old, f"  gusset: {{use: corner bracket 80, {card}}}\n{old}  gussets: {{at: [long corners]}}\n"


def thin_rack() -> tuple[str, str]:
    """Shelves of 6 mm, and a rack made of them."""
    old = DEMO[DEMO.index("stack: [{shelf: 60}, {shelf: 288}]") : DEMO.index("shelves: {material: ply-18")]
    old += "shelves: {material: ply-18"
    new = old.replace("[{shelf: 60}, {shelf: 288}]", "[{rack: share}]", 1)
    return old, new.replace("shelves: {material: ply-18", "shelves: {material: ply-6")


def pull_outs(stack: str, width: int = 400, rating: int = 45) -> tuple[str, str]:
    """Text of the demo from its slides to its front bays, as it is and with this stack in one of them alone."""
    old = BASE[BASE.index("rating: 45 kg") : BASE.index("  - name: back")]
    front = old[old.index("      - {name: F1") :]
    bays = f"      - {{name: F1}}\n      - {{name: F2, width: {width}, stack: [{stack}]}}\n      - {{name: F3}}\n"
    return old, old.replace(front, bays).replace("rating: 45 kg", f"rating: {rating} kg")


def thin_pull_out() -> tuple[str, str]:
    """Text of the demo from its front bays to its shelves, as it is and with a pull-out of 6 mm."""
    old = BASE[BASE.index("F2, width: 400") : BASE.index("shelves: {material: ply-18") + 26]
    new = old.replace("[{totes: tote-145, count: 3}]", "[{pull-out: 60}]", 1)
    return old, new.replace("shelves: {material: ply-18", "shelves: {material: ply-6")


def with_pull(card: str, more: str = "") -> tuple[str, str]:
    """Text of the demo from its goods to its drawers, as it is and with a pull."""
    old = DEMO[DEMO.index("  caster: {kind: caster") : DEMO.index("groove: 6}") + len("groove: 6}")]
    keys = ", ".join(filter(None, ("groove: 6, pull: grip", more)))
    return old, f"  grip: {{use: {card}}}\n" + old.removesuffix("groove: 6}") + keys + "}"


def with_door(
    hinge: str = "left", keys: str = "", goods: str = "", sheets: str = "", bay: str = "B1, width: share"
) -> tuple[str, str]:
    """Text of the demo from its materials to its shelves, as it is and with a door before a bay."""
    old = DEMO[DEMO.index("  poplar-15: {kind") : DEMO.index("shelves: {material")]
    new = old.replace(f"name: {bay},", f"name: {bay}, door: {{hinge: {hinge}}},")
    new = sheets + new.replace("  caster: {kind", f"{goods}  caster: {{kind")
    return old, new + f"doors: {{{keys or 'gap: 3'}}}\n"


def with_sockets(at: str) -> tuple[str, str]:
    """The demo with a short socket strip in the divider of the back zone."""
    card = "  sockets: {kind: socket strip, cutout: [200, 52], flange: [220, 66], depth: 60, sockets: 3}\n"
    old, new = with_door(goods=card, bay="-")
    return old, new.replace("doors: {gap: 3}", f"services: [{{item: sockets, in: BD1, at: {at}}}]")


def two_doors(hinges: tuple[str, str], goods: str = "", pulls: str = "") -> tuple[str, str]:
    """The two bays in the middle with a shelf each, behind doors with these hinges; none where it is empty."""
    old, new = with_door(goods=goods, bay="-")
    for bay, hinge in zip(("F2", "F3"), hinges, strict=True):
        door = f" door: {{hinge: {hinge}}}," if hinge else ""
        totes = f"name: {bay}, width: 400, stack: [{{totes: tote-145, count: 3}}]"
        assert totes in new
        new = new.replace(totes, f"name: {bay}, width: 400,{door} stack: [{{shelf: 200}}]")
    return old, new.replace("groove: 6}", f"groove: 6{pulls}}}")


def with_knee(
    width: int = 700, front: int = 500, depth: int = 900, rail: int = 525, more: str = ""
) -> tuple[str, str]:
    """Text of the demo from its size to its drawers, as it is and with leg room beside a front corner."""
    old = DEMO[DEMO.index("bench: {length: 2000") : DEMO.index("drawers: {slide")]
    zones = old[old.index("zones:") : old.index("panels: {material")]
    bays = f"[{{name: F1, width: {width}, knee: true}}, {{name: F2}}]"
    ours = f"zones:\n  - {{name: front, depth: {front}, bays: {bays}}}\n  - {{name: back, bays: [{{name: B1}}]}}\n"
    new = (
        old.replace(zones, ours)
        .replace("depth: 900", f"depth: {depth}")
        .replace("bottom: 525", f"bottom: {rail}")
    )
    return old, new + more


def wide_bay_below_dry_boards() -> tuple[str, str]:
    """Text of the demo from a bay to its top, as it is and with wide bays below boards that are not glued."""
    old = BASE[BASE.index("F2, width: 400") : BASE.index("overhang: 0") + len("overhang: 0")]
    narrow = "F2, width: 150, stack: []"
    new = old.replace("F2, width: 400, stack: [{totes: tote-145, count: 3}]", narrow)
    return old, new + ", boards: [share, share], joint: dry"


def narrow_edging() -> tuple[str, str]:
    """Text of the demo from its strip to its top, as it is and with an edging narrower than the top."""
    old = BASE[BASE.index("  poplar-15: {kind") : BASE.index("overhang: 0") + len("overhang: 0")]
    new = old.replace("width: 50", "width: 15", 1)
    assert new != old
    return old, new + ", edging: {material: poplar-15, sides: [front]}"


def mitred_alone() -> tuple[str, str]:
    """Text of the demo's top, as it is and with mitred edging at one side."""
    return "overhang: 0", "overhang: 0, edging: {material: poplar-15, sides: [front], corners: mitred}"


def with_banding(
    thickness: int = 1, width: int = 22, roll: str = "50 m", boards: str = ""
) -> tuple[str, str]:
    """The demo's hardware, and with a banding on the edges that are seen, and on those of some boards."""
    card = f"{{kind: edge banding, thickness: {thickness}, width: {width}, roll: {roll}}}"
    return "hardware:\n", f"edges: {{banding: band, boards: {{{boards}}}}}\nhardware:\n  band: {card}\n"


SOLID_TOP = "  mdf-18: {use: mdf 18}"


def solid_edging() -> tuple[str, str]:
    """Text of the demo from its top's sheet to its top, as it is and of solid wood with an edging at one end."""
    old = BASE[BASE.index(SOLID_TOP) : BASE.index("overhang: 0") + len("overhang: 0")]
    new = old.replace("mdf 18}", "mdf 18, species: red oak}")
    return old, new + ", edging: {material: poplar-15, sides: [front, left]}"


def on_feet(size: str = "[140, 140]", thickness: int = 10, count: int = 6) -> str:
    return f"base: {{feet: foot, count: {count}, plate: {{size: {size}, thickness: {thickness}}}}}"


def on_sleeves() -> tuple[str, str]:
    """Text from the demo's goods to its base, as it is and on feet whose stem is longer than its sleeve."""
    old, new = on_wide_pads()
    return old, new.replace("pad: 120", "drop: 49")


def lifted(card: str = "", size: int = 240) -> tuple[str, str]:
    """Text from the demo's goods to its base, as it is and with feet that lift it off its casters."""
    old, _ = on_wide_pads()
    base = f"base: {{casters: caster, feet: foot, lift: 6, count: 6, plate: {{size: [{size}, 170], thickness: 10}}}}"
    return old, f"  foot: {{use: foot M12 with sleeve{card}}}\n" + old.replace(ON_CASTERS, base)


def on_plinth(keys: str, load: str = "100 kg") -> tuple[str, str]:
    """Text of the demo from its stand to its loads, as it is and on a plinth."""
    return (
        ON_CASTERS + LOADS,
        f"base: {{plinth: {{{keys}}}, count: 6}}" + LOADS.replace("100 kg", load),
    )


MIDDLE_ZONE = "  - {name: middle, depth: 100, bays: [{name: M1, stack: [{drawer: share}]}]}\n  - name: back"
