"""One builder for each formula that several cells share. Only functions that every common spreadsheet program has.

No dynamic arrays, no array constants, no ranges made by INDEX: programs disagree about them. The twins in Python are
named beside each builder; tests hold the two together.
"""

from __future__ import annotations

from syllabus_io.plan.start_dates import MOST_SESSIONS
from syllabus_io.workbook.layout import Name
from syllabus_io.workbook.layout_plan import PlanName

__all__ = [
    "column_value",
    "nth_smallest_row",
    "order_key",
    "session_count",
    "session_day",
    "sessions_before",
    "start_by",
]


def nth_smallest_row(keys: str, number: str) -> str:
    """The position within ``keys`` of its n-th smallest number, "" when there are fewer. ``number`` is a formula."""
    return f'IF({number}>COUNT({keys}),"",MATCH(SMALL({keys},{number}),{keys},0))'


def column_value(source: str, column: str, number: bool) -> str:
    """What stands in a column at the position in cell ``source``, "" when that is blank. ``number``: keep a number or
    date (a blank stays blank); else text."""
    found = f"INDEX({column},{source})"
    return f'IF({source}="","",IF(ISNUMBER({found}),{found},""))' if number else f'IF({source}="","",{found}&"")'


def order_key(condition: str, day: str, time: str) -> str:
    """A number that puts rows in order of day, time and row; "" where the condition does not hold.

    What has no time comes last on its day. The row counts for less than three seconds up to row 300, and never reaches
    the next day up to row 6,000.
    """
    return f'IF({condition},{day}+IF(ISNUMBER({time}),{time},0.9994)+ROW()/10000000,"")'


def start_by(day: str, kind: str, weight: str) -> str:
    """The latest sensible start. Twin: ``plan.start_dates.lead_days`` and ``start_day``."""
    factor = f"IF(N({weight})>={Name.HEAVY_FROM},{Name.HEAVY_FACTOR},1)"
    days = _rounded(f"N(INDEX({Name.SET_LEADS},MATCH({kind},{Name.SET_KINDS},0)))*{factor}")
    hours = f"N(INDEX({Name.SET_HOURS},MATCH({kind},{Name.SET_KINDS},0)))*{factor}"
    lead = f"MAX({days},ROUNDUP(ROUND({hours}/{Name.HOURS_PER_DAY},6),0))"
    return f'IF(ISNUMBER({day}),IFERROR(MIN({day},MAX({day}-{lead},{Name.FIRST_DAY})),""),"")'


def sessions_before(start: str, day: str) -> str:
    """How many days open for study there are before the start; "" where the day table does not hold it or the exam."""
    held = f"AND({start}>INDEX({PlanName.PLAN_DAYS},1),{day}-INDEX({PlanName.PLAN_DAYS},1)<=ROWS({PlanName.PLAN_DAYS}))"
    return f'IF(ISNUMBER({start}),IF({held},INDEX({PlanName.STUDY_COUNT},{start}-INDEX({PlanName.PLAN_DAYS},1)),""),"")'


def session_count(start: str, day: str, kind: str, before: str) -> str:
    """How many study sessions there are: as many as are set, as there are open days, and as are laid out at most."""
    asked = f"N(INDEX({Name.SET_SESSIONS},MATCH({kind},{Name.SET_KINDS},0)))"
    count = f"IF({day}>{start},MAX(0,MIN({asked},{_open_until(day)}-{before},{MOST_SESSIONS})),0)"
    return f'IF(ISNUMBER({before}),IFERROR({count},0),"")'


def session_day(number: int, day: str, before: str, count: str, earlier: str) -> str:
    """Study session ``number``, "" when there are fewer. ``earlier`` is the cell of the session before it, ``before``
    and ``count`` those of :func:`sessions_before` and :func:`session_count`.
    Twin: ``plan.start_dates.study_sessions``."""
    least = f"{before}+1"
    wanted = least
    if number > 1:
        share = f"({number - 1}/({count}-1))^{Name.SESSION_SPREAD}"
        wanted = f"{before}+1+{_rounded(f'({_open_until(day)}-{before}-1)*{share}')}"
        least = f"INDEX({PlanName.STUDY_COUNT},{earlier}-INDEX({PlanName.PLAN_DAYS},1)+1)+1"
    chosen = f"MIN({_open_until(day)}-({count}-{number}),MAX({least},{wanted}))"
    return f'IF(N({count})>={number},INDEX({PlanName.PLAN_DAYS},MATCH({chosen},{PlanName.STUDY_COUNT},0)),"")'


def _open_until(day: str) -> str:
    """How many open days there are before the day."""
    return f"INDEX({PlanName.STUDY_COUNT},{day}-INDEX({PlanName.PLAN_DAYS},1))"


def _rounded(value: str) -> str:
    return f"ROUND(ROUND({value},6),0)"
