"""What the outlines of one term show together about its calendar: whole weeks off, and how weeks are numbered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.outline.records import Outline
from syllabus_io.resolve.benches import MadeBench, make_bench
from syllabus_io.resolve.term import DayOff, Term

__all__ = ["shared_calendar"]


def shared_calendar(outlines: Sequence[Outline], term: Term) -> Term:
    """The term with the weeks off that its outlines name, and the week numbers they agree on.

    Only so can a date such as "Friday of week 9" move with the term in the workbook. A week off counts when no
    outline holds a class in it; facts that the term states itself are not touched.
    """
    benches = [make_bench(outline, term, f"outline {number}") for number, outline in enumerate(outlines, start=1)]
    weeks_off = _weeks_off(benches, term)
    extended = replace(term, no_class=(*term.no_class, *weeks_off))
    evidence = [
        make_bench(outline, extended, f"outline {number}").bench.weeks
        for number, outline in enumerate(outlines, start=1)
    ]
    starts = {each.week_one for each in evidence if each.week_one is not None and not each.unnumbered}
    counts = {each.break_weeks_count for each in evidence if each.break_weeks_count is not None}
    return replace(
        extended,
        week_one=starts.pop() if extended.week_one is None and len(starts) == 1 else extended.week_one,
        break_weeks_count=counts.pop()
        if extended.break_weeks_count is None and len(counts) == 1
        else extended.break_weeks_count,
    )


def _weeks_off(benches: Sequence[MadeBench], term: Term) -> list[DayOff]:
    """The whole weeks off that some outline names and none contradicts, each once."""
    found: dict[date, DayOff] = {}
    for made in benches:
        for off in made.days_off:
            monday = off.first_day + timedelta(days=(1 - off.first_day.isoweekday()) % 7)
            friday = monday + timedelta(days=4)
            if friday > off.last_day or _is_covered(off, term.no_class) or _is_taught(monday, friday, benches):
                continue
            found.setdefault(monday, replace(off, course=None))
    return [found[monday] for monday in sorted(found)]


def _is_covered(off: DayOff, known: Sequence[DayOff]) -> bool:
    return any(each.first_day <= off.first_day and off.last_day <= each.last_day for each in known)


def _is_taught(monday: date, friday: date, benches: Sequence[MadeBench]) -> bool:
    """Whether some outline has a row in the week and does not call its day off."""
    return any(
        monday <= row.first <= friday and not any(off.first_day <= row.first <= off.last_day for off in made.days_off)
        for made in benches
        for row in made.bench.evidence.rows
    )
