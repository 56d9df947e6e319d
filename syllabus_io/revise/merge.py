"""A three-way merge: as first read, as it stands in the workbook, as the revised outline says.

What only one side changed is taken. What both changed is kept as the person has it and asked about on Review, with the
three values. Work that the outline no longer names stays, marked, when anything was typed for it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from syllabus_io.outline.records import Outline, UndatedWork
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Notice, PlanSettings
from syllabus_io.resolve.records import ResolvedCourse, ResolvedItem, ResolvedTerm
from syllabus_io.resolve.term import Term
from syllabus_io.revise.changes import Change, Changed
from syllabus_io.revise.identity import Pairing, find_course, pair_rows
from syllabus_io.revise.standing_term import standing_term
from syllabus_io.revise.weight_changes import weight_changes
from syllabus_io.workbook.cell_values import Content, date_of, time_of
from syllabus_io.workbook.edits import Edits, RowEdit, RowKey
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE
from syllabus_io.workbook.review_rows import ReviewRow, review_rows

__all__ = ["Merged", "ShownDays", "merge_course", "merge_outlines", "settle_notices", "typed_rows"]


@dataclass(frozen=True, slots=True)
class Merged:
    """The courses after a merge, what is to be said on Review, the edits under the ids rows now have, and all changes
    in words."""

    resolved: ResolvedTerm
    notices: tuple[Notice, ...]
    edits: Edits
    changes: tuple[Change, ...]


def heading(key: str) -> str:
    """The heading of a column of Review."""
    return REVIEW_TABLE.columns[REVIEW_TABLE.number(key) - 1].heading


def typed_rows(edits: Edits) -> dict[str, RowEdit]:
    """What was typed on Review, by row id."""
    return {edit.key.word: edit for edit in edits.of_sheet(REVIEW) if edit.key.how == "id"}


def settle_notices(notices: Sequence[Notice], edits: Edits) -> tuple[Notice, ...]:
    """The notices that are still open: “keep” or “skip” answers one, and so does another corrected date, or none."""
    typed = typed_rows(edits)
    return tuple(notice for notice in notices if not _is_answered(notice, typed.get(notice.row)))


def _is_answered(notice: Notice, edit: RowEdit | None) -> bool:
    keep = edit.whole.get(heading("keep")) if edit else None
    if keep in ("keep", "skip"):
        return True
    return bool(notice.was) and notice.was != _written(_typed_day(edit))


def _typed_day(edit: RowEdit | None) -> Content:
    """The date a person gave: the corrected one, else the reading that was chosen."""
    if edit is None:
        return None
    corrected = edit.whole.get(heading("corrected"))
    return corrected if corrected is not None else edit.whole.get(heading("pick"))


def _written(content: Content) -> str:
    """A typed date as the notice remembers it."""
    day = date_of(content)
    return day.isoformat() if day else str(content or "-")


def merge_outlines(
    resolved: ResolvedTerm,
    settings: PlanSettings,
    notices: Sequence[Notice],
    edits: Edits,
    outlines: Sequence[Outline],
) -> Merged:
    """The courses with revised outlines merged in, each for the course it is of; an outline of no course is added.

    Dates stay as the term as first read gives them, for the workbook computes them anew from what stands on Term dates.
    What is said of them, and what “keep” keeps, are the days that the workbook shows.
    """
    from syllabus_io.pipeline import course_keys
    from syllabus_io.resolve.outlines import resolve_outline

    standing = standing_term(resolved.term, edits)
    merged = Merged(resolved, tuple(notices), edits, ())
    for outline in outlines:
        course = find_course(outline, merged.resolved.courses)
        if course is None:
            known = [one.outline for one in merged.resolved.courses]
            key = course_keys([*known, outline])[-1]
            added = resolve_outline(outline, resolved.term, key)
            text = f"{key} was added: {len(added.items)} dated items, {len(added.undated)} without a date"
            merged = replace(
                merged,
                resolved=replace(merged.resolved, courses=(*merged.resolved.courses, added)),
                changes=(*merged.changes, Change(Changed.COURSE, key, text)),
            )
        elif course.outline.digest == outline.digest:
            text = f"{outline.file} is the outline this plan was made from; nothing in it is new"
            merged = replace(merged, changes=(*merged.changes, Change(Changed.COURSE, course.key, text)))
        else:
            revised = resolve_outline(outline, merged.resolved.term, course.key)
            shown = None
            if standing != resolved.term:
                again = (resolve_outline(one.outline, standing, course.key) for one in (course, revised))
                read = (_rows(resolved.term, one, settings) for one in (course, revised))
                shown = ShownDays(
                    *(_days(old, _rows(standing, one, settings)) for old, one in zip(read, again, strict=True))
                )
            merged = merge_course(merged, settings, course, revised, shown)
    return merged


Days = Mapping[str, tuple[date | None, date | None]]
"""The first and last day of rows, by their ids."""


@dataclass(frozen=True, slots=True)
class ShownDays:
    """The days that a workbook shows where they differ from those first read, because its term was changed by hand: of
    the rows of the earlier outline and of the revised one."""

    before: Days
    revised: Days


def _days(rows: Sequence[ReviewRow], now: Sequence[ReviewRow]) -> Days:
    """The days of rows as they are now: an earlier revision may have given a row another id than it would get now."""
    return {row.id: (twin.read, twin.until) for row, twin in pair_rows(rows, now).pairs}


def _as_shown(row: ReviewRow, days: Days) -> ReviewRow:
    read, until = days.get(row.id, (row.read, row.until))
    return replace(row, read=read, until=until)


def merge_course(
    merged: Merged,
    settings: PlanSettings,
    course: ResolvedCourse,
    revised: ResolvedCourse,
    shown: ShownDays | None = None,
) -> Merged:
    """One course with its revised outline merged in."""
    return _CourseMerge(merged, settings, course, revised, shown).merged()


def _rows(term: Term, course: ResolvedCourse, settings: PlanSettings) -> tuple[ReviewRow, ...]:
    return review_rows(make_plan(ResolvedTerm(term, (course,)), settings))


class _CourseMerge:
    """The merge of one course, row by row."""

    def __init__(
        self,
        merged: Merged,
        settings: PlanSettings,
        course: ResolvedCourse,
        revised: ResolvedCourse,
        shown: ShownDays | None,
    ) -> None:
        self._before = merged
        self._course, self._revised = course, revised
        self._typed = typed_rows(merged.edits)
        self._anywhere = {edit.key.word for edit in merged.edits.rows if edit.key.how == "id" and not edit.deleted}
        self._anywhere |= {key.word for extra in merged.edits.extras for key, _ in extra.cells if key.how == "id"}
        term = merged.resolved.term
        self._pairing = pair_rows(_rows(term, course, settings), _rows(term, revised, settings))
        if shown:
            self._pairing = Pairing(
                tuple(
                    (_as_shown(row, shown.before), _as_shown(twin, shown.revised)) for row, twin in self._pairing.pairs
                ),
                tuple(_as_shown(row, shown.before) for row in self._pairing.gone),
                tuple(_as_shown(row, shown.revised) for row in self._pairing.new),
            )
        self._changes: list[Change] = []
        self._notices = {notice.row: notice for notice in merged.notices}
        self._new_ids: dict[str, str] = {}
        self._keep_to_date: dict[str, float] = {}

    def merged(self) -> Merged:
        """The result."""
        items = self._named_items()
        for row, twin in self._pairing.pairs:
            self._merge_row(row, twin)
        stay, undated = self._gone()
        self._say_new()
        self._say_course()
        course = replace(
            self._revised,
            items=tuple(sorted([*items, *stay], key=lambda item: (item.date or date.max, str(item.time or "")))),
            undated=(*self._revised.undated, *undated),
        )
        resolved = self._before.resolved
        courses = tuple(course if one.key == course.key else one for one in resolved.courses)
        return Merged(
            replace(resolved, courses=courses),
            tuple(self._notices.values()),
            self._moved_edits(),
            (*self._before.changes, *self._changes),
        )

    # --- ids ---

    def _named_items(self) -> list[ResolvedItem]:
        """The revised items under the ids of the work they are; work without a date takes its typed words along."""
        own = {twin.id: row.id for row, twin in self._pairing.pairs}
        taken = {row.id for row, _ in self._pairing.pairs} | {row.id for row in self._pairing.gone}
        items = []
        revised_ids = {item.id for item in self._revised.items}
        for item in self._revised.items:
            name = own.get(item.id)
            if name is None:
                name, number = item.id, 1
                while name in taken:
                    number += 1
                    name = f"{item.id}~{number}"
                taken.add(name)
            items.append(replace(item, id=name))
        self._new_ids = {
            old: new for new, old in own.items() if new not in revised_ids and old != new
        }  # work that now has no date: its row id is made from its words
        return items

    def _moved_edits(self) -> Edits:
        def moved(key: RowKey) -> RowKey:
            return replace(key, word=self._new_ids[key.word]) if key.how == "id" and key.word in self._new_ids else key

        edits = self._before.edits
        self._notices = {
            self._new_ids.get(row, row): replace(notice, row=self._new_ids.get(row, row))
            for row, notice in self._notices.items()
        }
        rows = tuple(replace(self._with_kept_date(edit), key=moved(edit.key)) for edit in edits.rows)
        extras = tuple(
            replace(extra, cells=tuple((moved(key), content) for key, content in extra.cells)) for extra in edits.extras
        )
        return replace(edits, rows=rows, extras=extras)

    def _with_kept_date(self, edit: RowEdit) -> RowEdit:
        """“keep” said of a date that the outline then moved becomes that date, so that the question can be asked."""
        number = self._keep_to_date.get(edit.key.word) if edit.sheet == REVIEW else None
        if number is None:
            return edit
        new: dict[str, Content] = {heading("corrected"): number, heading("keep"): None}
        return replace(edit, changes={**edit.changes, **new}, whole={**edit.whole, **new})

    # --- rows ---

    def _merge_row(self, row: ReviewRow, twin: ReviewRow) -> None:
        edit = self._typed.get(row.id)
        if row.title != twin.title:
            self._say(Changed.RENAMED, f"{row.title} is now called {twin.title}")
        questions = [*self._date_question(row, twin, edit), *self._cell_questions(row, twin, edit)]
        old = self._notices.get(row.id)
        if questions:
            corrected = self._keep_to_date.get(row.id, _typed_day(edit))
            text = " ".join(questions) + " Choose “keep” when the row is right as it stands."
            self._notices[row.id] = Notice(row.id, text, asks=True, was=_written(corrected))
            self._say(Changed.QUESTION, f"{twin.title}: {' '.join(questions)}")
        elif old and not old.asks:
            del self._notices[row.id]

    def _date_question(self, row: ReviewRow, twin: ReviewRow, edit: RowEdit | None) -> list[str]:
        """The question of a date that both changed; a date that only the outline changed is said, and taken."""
        if (row.read, row.until, row.time) == (twin.read, twin.until, twin.time):
            return []
        corrected = _typed_day(edit)
        if corrected is None and edit and edit.whole.get(heading("keep")) == "keep" and row.read is not None:
            if row.read == twin.read:
                return []
            from syllabus_io.workbook.cached_values import serial

            corrected = float(serial(row.read))
            self._keep_to_date[row.id] = corrected
        if corrected is None or row.read == twin.read:
            self._say(Changed.MOVED, f"{twin.title}: {_when(row)}, now {_when(twin)}")
            return []
        typed = date_of(corrected)
        if typed is not None and typed == twin.read:
            self._say(Changed.MOVED, f"{twin.title}: {_when(row)}, now {_when(twin)}, as was typed already")
            return []
        shown = _day(typed) if typed else f"“{corrected}”"
        return [
            f"The first outline said {_when(row)}, {shown} was typed, and the revised outline says {_when(twin)}: "
            f"clear what was typed to take the revised one."
        ]

    def _cell_questions(self, row: ReviewRow, twin: ReviewRow, edit: RowEdit | None) -> list[str]:
        """Questions of cells that were typed over and that the revised outline changes too."""
        values: tuple[tuple[str, object, object], ...] = (
            ("title", row.title, twin.title),
            ("kind", row.kind.value, twin.kind.value),
            ("time", row.time, twin.time),
            ("weight", row.weight, twin.weight),
        )
        found = []
        for key, first, now in values:
            typed = edit.changes.get(heading(key)) if edit else None
            if typed is None or first == now or _equal(typed, now):
                continue
            words = f"{heading(key)}: first {_plain(first)}, typed {_plain(_as(typed, first))}, revised {_plain(now)}."
            found.append(words)
        return found

    def _gone(self) -> tuple[list[ResolvedItem], list[UndatedWork]]:
        """Work that the revised outline does not name: what was typed for it keeps it, with a question."""
        by_id = {item.id: item for item in self._course.items}
        undated = {f"{self._course.key}:undated:{one.kind.value}:{one.title}": one for one in self._course.undated}
        items: list[ResolvedItem] = []
        works: list[UndatedWork] = []
        for row in self._pairing.gone:
            if row.id not in self._anywhere:
                self._say(Changed.GONE, f"{row.title} ({_when(row)})")
                self._notices.pop(row.id, None)
                continue
            self._say(Changed.KEPT, f"{row.title} ({_when(row)})")
            text = "The revised outline no longer names this. Choose “keep” to keep it, or “skip”."
            self._notices[row.id] = Notice(row.id, text, asks=True)
            if row.id in by_id:
                items.append(by_id[row.id])
            elif row.id in undated:
                works.append(undated[row.id])
        return items, works

    def _say_new(self) -> None:
        for row in self._pairing.new:
            self._say(Changed.NEW, f"{row.title} ({_when(row)})")

    # --- the course ---

    def _say_course(self) -> None:
        before, now = self._course, self._revised
        for text in weight_changes(before, now, self._pairing.pairs):
            self._say(Changed.WEIGHED, text)
        days = {(off.name, off.first_day, off.last_day) for off in before.no_class}
        days_now = {(off.name, off.first_day, off.last_day) for off in now.no_class}
        for name, first, last in sorted(days_now - days):
            self._say(Changed.DAYS_OFF, f"{name} ({_span(first, last)}) is off now")
        for name, first, last in sorted(days - days_now):
            self._say(Changed.DAYS_OFF, f"{name} ({_span(first, last)}) is no longer off")
        if before.outline.course.meetings != now.outline.course.meetings:
            self._say(Changed.COURSE, "the class times have changed; see Term dates")

    def _say(self, what: Changed, text: str) -> None:
        self._changes.append(Change(what, self._course.key, text))


# --- words ------------------------------------------------------------------------------------------------


def _day(day: date) -> str:
    return f"{day:%a} {day.day} {day:%b %Y}"


def _span(first: date, last: date) -> str:
    return _day(first) if first == last else f"{_day(first)} to {_day(last)}"


def _when(row: ReviewRow) -> str:
    if row.read is None:
        return "no date"
    clock = f" {row.time:%H:%M}" if row.time else ""
    return _span(row.read, row.until or row.read) + clock


def _as(typed: Content, like: object) -> object:
    clock = time_of(typed)
    return clock if clock is not None and not isinstance(like, float | str) else typed


def _equal(typed: Content, now: object) -> bool:
    if isinstance(typed, float) and isinstance(now, float):
        return abs(typed - now) < 1e-9
    return _as(typed, now) == now


def _plain(value: object) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, float):
        return f"{value:g}"
    return f"{value:%H:%M}" if hasattr(value, "hour") else str(value)
