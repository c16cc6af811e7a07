"""Replicate: what a stranger must measure, and what changes when it differs."""

from __future__ import annotations

from generator.pages.page import Page, no_context

PAGE = Page("replicate", "Replicate", no_context)
