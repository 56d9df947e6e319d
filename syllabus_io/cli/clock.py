"""The one place where the machine's clock is asked for the day."""

from __future__ import annotations

from datetime import date, datetime

__all__ = ["local_day"]


def local_day() -> date:
    """The day it is where the program runs."""
    return datetime.now().astimezone().date()
