"""What stands in each row of Review: items as read, those to check first, then undated work, then the rest."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, time

from syllabus_io.outline.records import Kind, UndatedWork, Weight
from syllabus_io.plan.records import Plan, PlanEntry
from syllabus_io.plan.weights import weight_percent
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import DateExpression, write_expression
from syllabus_io.resolve.records import Ambiguous, Resolved, ResolvedCourse, Unresolved
from syllabus_io.resolve.wording import days_in_words

__all__ = ["MOST_READINGS", "ReviewRow", "review_rows"]

MOST_READINGS = 4
"""How many readings of a date are offered to choose from."""

_CONTEXT_LENGTH = 280
_ID_LENGTH = 150


@dataclass(frozen=True, slots=True)
class ReviewRow:
    """One row. ``course_number`` counts from 1 in the plan's order; ``expression`` is what the date is computed from,
    None where it is a plain date. ``readings`` are the days it can be, the likeliest first, where there are
    several; each with its last day. ``weight`` is a share of the grade from 0 to 1, ``stated`` what is written."""

    id: str
    course: str
    course_number: int
    kind: Kind
    title: str
    words: str
    page: int | None
    read: date | None
    until: date | None
    why: str
    time: time | None
    weight: float | None
    candidates: str
    readings: tuple[tuple[date, date | None], ...]
    expression: DateExpression | None
    covers: str
    category: str | None
    stated: Weight | None
    places: tuple[Place, ...] = ()
    """Where its date stands, and the other places that date it."""
    asks: bool = False
    """Whether its reason is a question that a typed date does not answer, only “keep” or “skip”."""

    @property
    def written_expression(self) -> str:
        """The expression in compact notation, empty when there is none."""
        return write_expression(self.expression) if self.expression else ""


def review_rows(plan: Plan) -> tuple[ReviewRow, ...]:
    """All rows, each with an id of its own."""
    numbers = {course.key: number for number, course in enumerate(plan.resolved.courses, start=1)}
    by_key = {course.key: course for course in plan.resolved.courses}
    rows = [_entry_row(entry, numbers[entry.course]) for entry in plan.entries if not _is_listed_undated(entry, by_key)]
    check = sorted((row for row in rows if row.why), key=lambda row: row.kind is Kind.READING)
    rest = [row for row in rows if not row.why]
    undated = [_undated_row(course, numbers[course.key], work) for course in by_key.values() for work in course.undated]
    named = _with_notices(plan, list(_with_own_ids([*check, *undated, *rest])))
    return tuple(sorted(named, key=lambda row: not row.asks))


def _with_notices(plan: Plan, rows: list[ReviewRow]) -> list[ReviewRow]:
    """The rows with what revised outlines brought about, without those that a person removed."""
    notices = {notice.row: notice for notice in plan.notices}
    shown = []
    for row in rows:
        if row.id in plan.left_out:
            continue
        if notice := notices.get(row.id):
            why = "\n".join(part for part in (notice.text, row.why) if part)
            row = replace(row, why=why, asks=notice.asks)
        shown.append(row)
    return shown


def _is_listed_undated(entry: PlanEntry, courses: dict[str, ResolvedCourse]) -> bool:
    """Whether an item without a date stands among the course's undated work too, and would be listed twice."""
    undated = courses[entry.course].undated
    return isinstance(entry.item.resolution, Unresolved) and any(
        (work.kind, work.title) == (entry.item.kind, entry.item.title) for work in undated
    )


def _with_own_ids(rows: list[ReviewRow]) -> Iterator[ReviewRow]:
    taken: set[str] = set()
    for row in rows:
        base = _fit_for_lookup(row.id)
        own, number = base, 1
        while own.casefold() in taken:
            number += 1
            own = f"{base}#{number}"
        taken.add(own.casefold())
        yield replace(row, id=own)


def _fit_for_lookup(own: str) -> str:
    """An id that other sheets can look up: a lookup takes ``*?~`` as patterns and no more than 255 characters."""
    plain = "".join("-" if character in "*?~" or not character.isprintable() else character for character in own)
    if plain == own and len(own) <= _ID_LENGTH:
        return own
    return f"{plain[:_ID_LENGTH]}#{hashlib.sha256(own.encode('utf-8', 'replace')).hexdigest()[:8]}"


def _entry_row(entry: PlanEntry, number: int) -> ReviewRow:
    item = entry.item
    resolution = item.resolution
    candidates = ""
    readings: tuple[tuple[date, date | None], ...] = ()
    if isinstance(resolution, Ambiguous):
        others = resolution.candidates[1:]
        readings = tuple((one.date, one.end_date) for one in resolution.candidates[:MOST_READINGS])
        candidates = "; ".join(f"{days_in_words(one.date, one.end_date)} ({one.reason})" for one in others)
    why = "\n".join(map(_sentence, [*item.reasons, *([f"It could also be {candidates}"] if candidates else [])]))
    return ReviewRow(
        id=item.id,
        course=entry.course,
        course_number=number,
        kind=item.kind,
        title=item.title,
        words=_words(item.mention.words, item.mention.context, item.time_note),
        page=item.mention.place.page,
        read=item.date,
        until=item.end_date,
        why=why,
        time=time(item.time.hour, item.time.minute) if item.time else None,
        weight=entry.weight_percent / 100 if entry.weight_percent is not None else None,
        candidates=candidates,
        readings=readings,
        expression=resolution.expression if isinstance(resolution, Resolved) else None,
        covers=item.item.covers or "",
        category=item.item.category,
        stated=item.weight or item.item.weight,
        places=tuple(mention.place for mention in dict.fromkeys((item.mention, *item.item.mentions))),
    )


def _undated_row(course: ResolvedCourse, number: int, work: UndatedWork) -> ReviewRow:
    percent = weight_percent(work.weight, work.category, course.outline.grading)
    return ReviewRow(
        id=f"{course.key}:undated:{work.kind.value}:{work.title}",
        course=course.key,
        course_number=number,
        kind=work.kind,
        title=work.title,
        words=_words("", work.context, ""),
        page=work.place.page,
        read=None,
        until=None,
        why=_sentence(work.reason or "the outline gives no date"),
        time=None,
        weight=percent / 100 if percent is not None else None,
        candidates="",
        readings=(),
        expression=None,
        covers="",
        category=work.category,
        stated=work.weight,
        places=(work.place,),
    )


def _sentence(reason: str) -> str:
    """A reason as a sentence of its own."""
    text = reason.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")


def _words(words: str, context: str, note: str) -> str:
    """The date's words within their surroundings, cut to a readable length, then what was made of a named time."""
    words, context = " ".join(words.split()), " ".join(context.split())
    at = context.find(words) if words else 0
    if at < 0:
        context, at = f"{words} — {context}" if context else words, 0
    if len(context) > _CONTEXT_LENGTH:
        start = max(0, min(at - _CONTEXT_LENGTH // 2, len(context) - _CONTEXT_LENGTH))
        end = start + _CONTEXT_LENGTH
        context = ("… " if start else "") + context[start:end].strip() + (" …" if end < len(context) else "")
    return f"{context}\n({note})" if note else context
