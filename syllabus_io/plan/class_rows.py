"""The rows of the weekly classes: what each outline says of its classes, and the hours of its instructor's office where
days and times can be read out of its words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from syllabus_io.outline.meeting_times import find_meetings
from syllabus_io.resolve.records import ResolvedCourse, ResolvedTerm
from syllabus_io.resolve.term import Meeting

__all__ = ["OFFICE_HOURS", "class_rows", "office_hours"]

OFFICE_HOURS = frozenset({"office hours", "office hour"})
_KIND = "office hours"
_NAMES = re.compile(
    r"\b(?:office|student|drop-?in|consultation|help)\s+hours?\b:?|\bhours?\b:|\b(?:and |or |& )?by appointment\b",
    re.IGNORECASE,
)
_PHONE = re.compile(r"[,;]?\s*(?:tel|phone|ph|ext)?[.:]*\s*(?:\(?\d{3}\)?[-. ]?)?\b\d{3}[-.]\d{4}\b", re.IGNORECASE)
_ON_THE_WEB = re.compile(r"\b(?:online|virtual\w*|zoom|video)\b", re.IGNORECASE)


def class_rows(resolved: ResolvedTerm) -> tuple[tuple[ResolvedCourse, Meeting], ...]:
    """Every weekly class with its course, in the order of the courses; office hours after the classes of theirs."""
    return tuple(_rows(resolved))


def _rows(resolved: ResolvedTerm) -> Iterator[tuple[ResolvedCourse, Meeting]]:
    for course in resolved.courses:
        facts = course.outline.course
        yield from ((course, meeting) for meeting in facts.meetings)
        if facts.office_hours and not any(meeting.kind in OFFICE_HOURS for meeting in facts.meetings):
            yield from ((course, meeting) for meeting in office_hours(facts.office_hours, facts.office))


def office_hours(words: str, office: str | None = None) -> tuple[Meeting, ...]:
    """The weekly hours that the words tell of; none where they give no days with times ("by appointment").

    ``office`` is the room where they name neither a room nor the web.

    >>> [(one.days, str(one.start)) for one in office_hours("Tuesdays 3:00-4:00 pm and by appointment")]
    [((<Weekday.TU: 2>,), '15:00:00')]
    """
    found = find_meetings(_NAMES.sub(" ", words), _KIND)
    usual = None if _ON_THE_WEB.search(words) else _PHONE.sub("", office or "").strip(" ,;") or None
    return tuple(replace(one, kind=_KIND, room=one.room or usual) for one in found if one.end)
