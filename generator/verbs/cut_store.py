"""The store of off-cuts beside a plan: what it gives and gets, and the second act that says that the plan is cut."""

from __future__ import annotations

import datetime
import hashlib
import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from generator.verbs.cut_files import CutFiles
from generator.verbs.saying import GOOD, counted, fail, say_waiting, unwritten

if TYPE_CHECKING:
    from generator.figures.combined_cuts import CombinedPlan

CHANGED = "{} is not what it was when this plan was made: off-cuts were taken or added. Make the plan again"


def mark_of(text: str) -> str:
    """Eight letters and digits that identify a text."""
    return hashlib.sha256(text.encode()).hexdigest()[:8]


@dataclass(frozen=True)
class StoredPlan:
    """A plan made with a store; `data` is the plan as it is printed."""

    path: Path
    read: CutFiles
    combined: CombinedPlan
    data: dict[str, Any]

    @property
    def mark(self) -> str:
        """Tells the store and the plan that belong together."""
        plan = json.dumps(self.data, sort_keys=True)
        return f"{mark_of(self.read.store_before)}-{mark_of(plan)}"

    def shown(self, text: str, command: str) -> tuple[dict[str, Any], str]:
        """The plan with what it takes from the store, what it leaves, and the command for the second act."""
        from generator.figures.offcut_stock import not_used
        from generator.verbs.saying import report
        from generator.writers.combined_text import store_data, store_text_lines

        store = self.read.store.offcuts if self.read.store else ()
        for material in self.combined.materials:
            report(not_used(material.problem, material.sources[0], store))
        more = {"store": {**store_data(store, self.combined, self.read.units), "mark": self.mark}}
        lines = store_text_lines(f"off-cut store {self.path}", store, self.combined, command, self.read.units)
        return {**self.data, **more}, f"{text.rstrip()}\n\n{lines}"

    def write_back(self, mark: str) -> int:
        """Change the store as the plan with this mark does."""
        from generator.offcut_file import StoreChangedError, write_back

        if mark != self.mark or self.read.store is None:
            return fail(
                f"this is not the plan with the mark {mark}: a file, --seconds or the version of bench-manual "
                "is another. Nothing was written"
            )
        added = self.combined.remains(datetime.date.today().isoformat())
        try:
            write_back(
                self.path,
                self.read.store_before,
                self.read.store.after(self.combined.taken, added),
                say_waiting,
            )
        except StoreChangedError:
            return fail(CHANGED.format(self.path))
        except OSError as error:
            return unwritten(error, self.path)
        taken, new = sum(self.combined.taken), sum(each.count for each in added)
        click.echo(f"Wrote {self.path}: {counted(taken, 'off-cut') or 'none'} taken, {new} added")
        return GOOD
