"""The guide: a first bench by examples, with what the program makes of each."""

from __future__ import annotations

import json

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page
from generator.resources import bundled

FILE = "my-bench.yml"
WORKFLOW = "publish-workflow.yml"
"""What a repository of specs runs at each push, to publish its manuals."""


def context(figures: Figures, ruler: Ruler) -> Context:
    """What to type, and what appears: written by the tests, which make it again, so that no build has to."""
    shipped = bundled("site_templates")
    examples = json.loads((shipped / "guide.json").read_text(encoding="utf-8"))
    return {"file": FILE, "workflow": (shipped / WORKFLOW).read_text(encoding="utf-8"), **examples}


PAGE = Page(
    "guide",
    "Write a spec",
    "your first bench in 30 minutes, from an idea to the first cut",
    context,
    about_specs=True,
)
