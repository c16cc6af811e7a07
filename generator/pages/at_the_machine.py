"""At the machine: speeds and passes, drills for screws, tightening, time and money."""

from __future__ import annotations

from generator.pages.page import Page, no_context

PAGE = Page("at-the-machine", "At the machine", no_context)
