"""One builder for each formula that several cells share. Only functions that every common spreadsheet program has.

No dynamic arrays, no array constants, no ranges made by INDEX: programs disagree about them. The twins in Python are
named beside each builder; tests hold the two together.
"""

from __future__ import annotations

from syllabus_io.plan.start_dates import MOST_SESSIONS
from syllabus_io.workbook.layout import Name

__all__ = ["column_value", "nth_smallest_row", "order_key", "session_day", "start_by"]


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


def session_day(number: int, start: str, day: str, kind: str, before: str) -> str:
    """Study session ``number``, "" when there are fewer. ``before`` is the cell of the session before it.
    Twin: ``plan.start_dates.study_sessions``."""
    count = f"MIN(N(INDEX({Name.SET_SESSIONS},MATCH({kind},{Name.SET_KINDS},0))),{day}-{start},{MOST_SESSIONS})"
    if number == 1:
        return f'IF(ISNUMBER({start}),IFERROR(IF({count}>=1,{start},""),""),"")'
    share = f"({number - 1}/({count}-1))^{Name.SESSION_SPREAD}"
    step = _rounded(f"({day}-{start}-1)*{share}")
    return f'IF(ISNUMBER({before}),IFERROR(IF({count}>={number},MAX({start}+{step},{before}+1),""),""),"")'


def _rounded(value: str) -> str:
    return f"ROUND(ROUND({value},6),0)"
