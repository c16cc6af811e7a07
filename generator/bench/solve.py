"""`solve`: from a valid spec to placed parts. The only caller of the other modules of this room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.bench.assembly_proof import assembly_proof
from generator.bench.beside import beside
from generator.bench.edge_bands import banded, wrong_bands
from generator.bench.fillings.stack import fill_bays, storage_parts
from generator.bench.finish import coated
from generator.bench.frames import frame_kind
from generator.bench.frames.trays import tray_faults
from generator.bench.grain import grained, wrong_grain
from generator.bench.joints import joinings
from generator.bench.layout import lay_out
from generator.bench.leg_room import knee_faults
from generator.bench.model import Bench, Operation, Part, Suited
from generator.bench.no_size import eaten_by_notches, without_size
from generator.bench.openings import misplaced, opened
from generator.bench.place import Place
from generator.bench.recorded import wrong_marks
from generator.bench.refuse import refusals, unjoined
from generator.bench.role import Role
from generator.bench.stands import stand_kind
from generator.bench.suiting import Wish, suiting
from generator.bench.tops import top_kind
from generator.calculators.reliefs import relief_template
from generator.findings import Finding, SpecError
from generator.geometry import Box
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


def solve(loaded: LoadedSpec) -> Bench:
    """Solve a spec, and what its record asks about: the plan without what was measured, a bench for a bar cut wrong.

    Raises SpecError, with every fault, when no bench follows from it.
    """
    bench = _solved(loaded)
    return replace(
        bench,
        planned=_solved(loaded.without_bays()) if loaded.bay_widths() else None,
        written=_written(loaded),
        suited={mark: _suited(wish) for mark, wish in suiting(bench)},
    )


def _written(loaded: LoadedSpec) -> tuple[Part, ...]:
    if not loaded.measured:
        return ()
    try:
        return _solved(loaded.as_written()).parts
    except SpecError:
        return ()  # the plan alone makes no bench, so there is nothing to compare with


def _suited(wish: Wish) -> Suited:
    try:
        return Suited(wish.path, wish.planned, wish.value, _solved(wish.loaded).parts)
    except SpecError as error:
        return Suited(wish.path, wish.planned, wish.value, why_not=error.findings[0].message)


def _solved(loaded: LoadedSpec) -> Bench:
    spec = loaded.spec
    faults: list[Finding] = list(refusals(loaded))
    try:
        kind = stand_kind(spec)
        layout = lay_out(loaded, kind.height(loaded))
    except SpecError as error:
        raise SpecError([*error.findings, *faults]) from None
    storage, stack_faults = fill_bays(loaded, layout)
    faults += (*stack_faults, *knee_faults(loaded, layout), *tray_faults(loaded, layout))
    if faults:
        raise SpecError(faults)
    system = frame_kind(spec)
    members = system.members(loaded, layout, kind.lines(spec, layout))
    walls = system.walls(loaded, layout)
    boards = (*walls, *_extra_panels(spec), *storage_parts(loaded, layout, storage))
    impossible = (
        *without_size(loaded, layout, (*members, *boards)),
        *eaten_by_notches(loaded, layout, boards),
    )
    if impossible:
        raise SpecError(impossible)
    if wrong := tuple(misplaced(loaded, boards)):
        raise SpecError(wrong)
    boards = opened(loaded, boards)
    frame = system.joined(loaded, layout, members, walls)
    stand = kind.stand(loaded, layout, frame)
    bars = _machined(frame.members, stand.machining)
    top = top_kind(spec).top(loaded, layout, bars)
    parts = banded(loaded, layout, grained(loaded, (*bars, *boards, *top.parts, *stand.parts)))
    bench = Bench(
        loaded=loaded,
        layout=layout,
        parts=parts,
        coats=tuple(coated(spec, parts)),
        joints=frame.joints,
        joinings=joinings(loaded.goods),
        storage=storage,
        sway=system.sway(layout, frame, walls),
        stand=stand,
        grid=top.grid,
        brackets=top.brackets,
        features=top.features,
        relief=relief_template(
            spec.frame.clamp_access.opening,
            spec.frame.clamp_access.guide_bush,
            spec.frame.clamp_access.cutter,
        ),
        findings=tuple(unjoined(loaded, frame.loose)),
    )
    bench = beside(bench, _solved)
    judged = (wrong(loaded, bench.parts) for wrong in (wrong_marks, wrong_grain, wrong_bands))
    if faults := [fault for each in judged for fault in each]:
        raise SpecError(faults)
    if not (spec.assembly.first or spec.assembly.before):
        return bench
    proof = assembly_proof(bench)
    if proof.faults:
        raise SpecError(proof.faults)
    return replace(bench, proof=proof)


def _machined(bars: Sequence[Part], wishes: Sequence[tuple[str, Operation]]) -> tuple[Part, ...]:
    """What the stand asks of bars, behind what the joints ask."""
    asked = {mark: [op for other, op in wishes if other == mark] for mark, _ in wishes}
    return tuple(replace(bar, operations=(*bar.operations, *asked.get(bar.mark, ()))) for bar in bars)


def _extra_panels(spec: Spec) -> Sequence[Part]:
    parts = []
    for number, panel in enumerate(spec.extra.panels, 1):
        sizes = dict(zip("xyz", panel.size, strict=True))
        thin = min(sizes, key=lambda axis: sizes[axis])
        along, across = (axis for axis in "xyz" if axis != thin)
        parts.append(
            Part(
                mark=f"XP{number}",
                name=panel.name,
                role=Role.EXTRA_PANEL,
                material=panel.material,
                kind="sheet",
                box=Box.at(panel.at, panel.size),
                along=along,
                across=across,
                place=Place(),
                thickness=sizes[thin],
            )
        )
    return parts
