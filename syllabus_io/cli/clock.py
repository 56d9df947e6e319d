"""The one place where the machine's clock is asked for the day and the moment."""

from __future__ import annotations

from datetime import UTC, date, datetime

__all__ = ["local_day", "moment"]

_BEGIN = datetime(2020, 1, 1, tzinfo=UTC)  # the seconds since then fit an iCalendar number until 2088


def local_day() -> date:
    """The day it is where the program runs."""
    return datetime.now().astimezone().date()


def moment() -> int:
    """Now, in seconds: a number that is higher than that of any earlier moment."""
    return int((datetime.now(UTC) - _BEGIN).total_seconds())
