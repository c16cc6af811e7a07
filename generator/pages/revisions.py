"""Revisions: which issue of the plan this is, what changed since an earlier one, which sheets are superseded."""

from __future__ import annotations

from generator.pages.page import Page, no_context

PAGE = Page("revisions", "Revisions", no_context)
