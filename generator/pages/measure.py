"""Measure your goods: how each value of a data card is taken, with what, and where."""

from __future__ import annotations

from generator.pages.page import Page, no_context

PAGE = Page("measure", "Measure your goods", no_context)
