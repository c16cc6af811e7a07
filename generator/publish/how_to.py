"""The assembly as data for machines: a HowTo of the vocabulary of schema.org, with steps, tools, supplies and time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Any

from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.figures.rows.buying import Purchase
from generator.figures.rows.spec import SourceBench
from generator.publish.public import Public, about
from generator.readings import own_reading

CONTEXT = "https://schema.org"
PAGE = "assembly.html"


def how_to(public: Public, figures: Figures, pictures: Mapping[str, Sequence[str]]) -> dict[str, Any]:
    """The whole assembly. `pictures` are the paths of the steps' drawings, by the step's key."""
    stages = groupby(figures.assembly.steps, key=lambda step: step.stage)
    sections = [
        {
            "@type": "HowToSection",
            "name": own_reading(stage),
            "itemListElement": [_step(public, step, pictures) for step in steps],
        }
        for stage, steps in stages
    ]
    return {
        "@context": CONTEXT,
        **summary(public, figures),
        "tool": [{"@type": "HowToTool", "name": name} for name in _tools(figures)],
        "supply": [_supply(each, figures.materials) for each in figures.purchases],
        "step": sections,
    }


def summary(public: Public, figures: Figures) -> dict[str, Any]:
    """The HowTo without its steps, for a page that lists several."""
    facts = figures.spec
    return {
        "@type": "HowTo",
        "name": f"Build the bench “{facts.title}”",
        "description": about(figures),
        "url": public.at(PAGE),
        "image": public.at(public.card),
        "inLanguage": "en",
        "version": facts.revision,
        **({"dateModified": facts.date} if facts.date else {}),
        **({"creditText": facts.designer} if facts.designer else {}),
        **({"license": {"@type": "CreativeWork", "name": facts.licence}} if facts.licence else {}),
        **({"isBasedOn": [_source(each) for each in facts.adapted_from]} if facts.adapted_from else {}),
        **_times(figures),
    }


def _times(figures: Figures) -> dict[str, str]:
    """At the machines, at the bench, and both with what glue and coats need to dry."""
    before = figures.shop.minutes if figures.shop else 0.0
    work = figures.assembly.minutes
    set_in = sum(each.wait_minutes for each in figures.glue_ups)
    drying = sum(layer.coats * layer.dry_hours * 60 for row in figures.finish for layer in row.layers)
    return {
        **({"prepTime": _duration(before)} if before else {}),
        "performTime": _duration(work),
        "totalTime": _duration(before + work + set_in + drying),
    }


def _source(each: SourceBench) -> dict[str, Any]:
    """A bench that this one was adapted from."""
    told = {"creditText": each.designer, "version": each.revision, "url": each.url}
    licence = {"license": {"@type": "CreativeWork", "name": each.licence}} if each.licence else {}
    return {
        "@type": "CreativeWork",
        "name": each.title,
        **{key: value for key, value in told.items() if value},
        **licence,
    }


def _duration(minutes: float) -> str:
    """A time as ISO 8601 writes it: PT34H20M."""
    hours, rest = divmod(round(minutes), 60)
    return f"PT{hours}H{rest}M"


def _tools(figures: Figures) -> list[str]:
    found = (own_reading(tool) for step in figures.assembly.steps for tool in step.tools)
    return list(dict.fromkeys(found))


def _supply(each: Purchase, materials: Mapping[str, str]) -> dict[str, Any]:
    quantity = {
        "@type": "QuantitativeValue",
        "value": round(float(each.quantity), 3),
        "unitText": each.unit,
    }
    name = materials.get(each.item, each.item)
    return {"@type": "HowToSupply", "name": own_reading(name), "requiredQuantity": quantity}


def _step(public: Public, step: Step, pictures: Mapping[str, Sequence[str]]) -> dict[str, Any]:
    texts = [*step.final, *step.notes, *step.hold]
    shown = [public.at(picture) for picture in pictures.get(step.key, ())]
    return {
        "@type": "HowToStep",
        "position": step.n,
        "name": own_reading(step.title),
        "text": " ".join(own_reading(text) for text in texts) or own_reading(step.title),
        "url": public.at(f"{PAGE}#step-{step.key}"),
        **({"image": shown} if shown else {}),
    }
