"""Set-up cards: every setting of a machine once, with its test piece; to be signed before parts are cut."""

from __future__ import annotations

from generator.pages.page import Page, no_context

PAGE = Page("set-up-cards", "Set-up cards", no_context)
