"""Downloads: the spec, the figures, the cut list, and each drawing as a file of its own."""

from __future__ import annotations

from generator.pages.page import Page, no_context

PAGE = Page("downloads", "Downloads", no_context)
