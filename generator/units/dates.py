"""Dates as a spec and a record of a build write them."""

from __future__ import annotations

import datetime
import re

A_DATE = "a date such as 2026-11-03 (year-month-day)"


def is_date(text: str) -> bool:
    """Whether a text is a day of the calendar, written as YYYY-MM-DD (ISO 8601)."""
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text, re.ASCII):
        return False
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return False
    return True
