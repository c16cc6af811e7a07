"""Guide: from an idea to the first cut, for whoever writes a spec."""

from __future__ import annotations

from generator.pages.page import Page, no_context

PAGE = Page("guide", "Write a spec", no_context)
