"""The whole outline, read: course facts, grading, dated work, readings, days off, work without a date."""

from __future__ import annotations

from dataclasses import replace

from syllabus_io.extract.document import Document
from syllabus_io.outline.bullets import read_lines
from syllabus_io.outline.categories import with_categories
from syllabus_io.outline.class_days import drafts_on_class_days, with_class_days
from syllabus_io.outline.course import read_course, read_years
from syllabus_io.outline.covers import with_covers
from syllabus_io.outline.dated_columns import read_dated_columns
from syllabus_io.outline.due_clocks import read_due_clocks, with_due_time
from syllabus_io.outline.due_rules import apply_due_rules, read_due_rules
from syllabus_io.outline.entry_dates import Reading
from syllabus_io.outline.families import with_projects
from syllabus_io.outline.frames import Passage
from syllabus_io.outline.grading import read_grading
from syllabus_io.outline.items import merge_drafts, title_words
from syllabus_io.outline.key_dates import key_date_entries
from syllabus_io.outline.mentions import Draft, read_drafts
from syllabus_io.outline.no_class import read_no_class
from syllabus_io.outline.numbered_classes import with_doubted_numbers
from syllabus_io.outline.own_names import names_due_where_listed, own_names
from syllabus_io.outline.prose import ONLY_LISTED, read_prose
from syllabus_io.outline.prose_readings import read_prose_readings
from syllabus_io.outline.readings import read_readings
from syllabus_io.outline.records import CourseFacts, Item, Outline
from syllabus_io.outline.requirements import read_requirements
from syllabus_io.outline.rows import Rows
from syllabus_io.outline.schedule import read_tables
from syllabus_io.outline.sections import read_labels
from syllabus_io.outline.series import read_series
from syllabus_io.outline.shorthand import read_shorthand, spelled_out
from syllabus_io.outline.text_names import read_text_names
from syllabus_io.outline.titles import is_name
from syllabus_io.outline.undated import read_undated, without_denied, without_open_series
from syllabus_io.outline.unit_work import read_unit_work
from syllabus_io.outline.week_series import read_week_series
from syllabus_io.outline.week_starts import class_week
from syllabus_io.resolve.expression import Weekday

__all__ = ["read_outline"]


def read_outline(document: Document) -> Outline:
    """What an outline says, as written: nothing is computed, every date is an expression with its place."""
    labels = read_labels(document)
    course = read_course(document, labels)
    grading = read_grading(document)
    years = read_years(document, labels)
    rows = Rows(course=class_week(course.meetings, years))
    read_tables(document, rows)
    read_lines(document, rows)
    names = own_names(grading.categories) | names_due_where_listed(rows.passages)
    meanings = read_shorthand([passage.text for passage in rows.passages], names)
    rows.passages = [part for passage in spelled_out(rows.passages, meanings) for part in key_date_entries(passage)]
    rows.passages = with_doubted_numbers(rows.passages)
    rules = read_due_rules(rows.passages)
    passages = with_class_days(apply_due_rules(rows.passages, rules), rows.class_days)
    reading = Reading(_only_weekday(course), names | frozenset(meanings.values()), read_text_names(rows.passages))
    drafts: list[Draft] = []
    readings: list[Item] = []
    for passage in passages:
        if passage.frame.is_dated or passage.role is not None:
            drafts.extend(read_drafts(passage, reading))
            readings.extend(read_readings(passage, reading))
        else:
            drafts.extend(read_prose(passage, reading.names))
            drafts.extend(read_week_series(passage))
            readings.extend(read_prose_readings(passage))
    drafts.extend(read_unit_work(passages))
    for number, (table, columns, body) in enumerate(rows.requirement_tables, 1):
        drafts.extend(read_requirements(table, columns, body, -number))
    for number, (grid, columns, body) in enumerate(rows.dated_columns, 1):
        drafts.extend(read_dated_columns(grid, columns, body, -len(rows.requirement_tables) - number))
    drafts = drafts_on_class_days([draft for draft in drafts if is_name(draft.item.title)], rows.class_days)
    merged, open_series = without_open_series(merge_drafts(drafts))
    items = with_covers(without_denied(merged, passages), passages)
    items = with_projects(items)
    items = with_categories((*items, *read_series(passages, items, grading)), grading)
    clocks = read_due_clocks(rows.passages)
    items = tuple(with_due_time(_vouched_for(item), clocks) for item in items)
    return Outline(
        file=document.name,
        digest=document.digest,
        pages=document.pages,
        course=course,
        items=(*items, *readings),
        no_class=read_no_class(passages),
        grading=grading,
        undated=read_undated(passages, grading, items, (*open_series, *rows.undated)),
        row_dates=tuple(rows.row_dates),
        week_rows=tuple(rows.week_rows),
        years=years,
        notes=tuple(note.text for note in document.notes if note.kind == "unread"),
    )


def _vouched_for(item: Item) -> Item:
    """The item without the doubt that a listed name may be no work, where the grading scheme counts that name."""
    if item.category is None or not title_words(item.category) <= title_words(item.title):
        return item
    mentions = (
        replace(one, doubts=tuple(doubt for doubt in one.doubts if doubt != ONLY_LISTED)) for one in item.mentions
    )
    return replace(item, mentions=tuple(mentions))


def _only_weekday(course: CourseFacts) -> Weekday | None:
    days = {day for meeting in course.meetings for day in meeting.days if meeting.kind in ("", "lecture", "seminar")}
    return days.pop() if len(days) == 1 else None


def passages_of(document: Document) -> tuple[Passage, ...]:
    """The passages of a document with the frames their places give them, before any rule; for showing what was read."""
    labels = read_labels(document)
    rows = Rows(course=class_week(read_course(document, labels).meetings, read_years(document, labels)))
    read_tables(document, rows)
    read_lines(document, rows)
    return tuple(rows.passages)
