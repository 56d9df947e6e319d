"""Tables of requirements with due dates: a row a piece of work, its date or dates in a column of their own."""

from __future__ import annotations

import re
from collections.abc import Iterator

from syllabus_io.extract.document import Cell, Table
from syllabus_io.outline.day_keys import day_key
from syllabus_io.outline.grids import Column, Grid, cell_text
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.mentions import Draft
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import DAY_NOT_THE_CLASS, Item, Kind, Mention
from syllabus_io.outline.titles import entry_title, singular, tidy_title
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.week_series import WeekSeries, week_series
from syllabus_io.outline.work_words import find_heads, is_announced, number_of
from syllabus_io.resolve.expression import MeetingNumber, Phrase, Week, WeekdayIn
from syllabus_io.resolve.expression_parts import parts_of

__all__ = ["is_no_work", "read_requirements"]

WEEK_ONLY = "the outline names only the week, and not the day"
CHOICE = "the outline leaves a choice of days; find out which one is yours"
_CHOICE = re.compile(
    r"\b(?:schedule[ds]?|sign(?:ed)?[\s-]?up|arranged?|between|any ?time|your choice|choose|appointment|starting)\b",
    re.IGNORECASE,
)
_NO_WORK = re.compile(
    r"\b(?:break|recess|vacation|holidays?|no class(?:es)?|(?:first|last) (?:day|class)|classes (?:begin|end|resume)|"
    r"(?:add|drop|withdraw\w*|refund|census|registration)\b.{0,20}\b(?:date|day|deadline|period)|(?:labou?r|memorial|election|"
    r"reading|study) days?|thanksgiving|deadline to (?:add|drop|withdraw)|commencement|graduation)\b",
    re.IGNORECASE,
)
_BESIDE = re.compile(r"\s*[,(:–—-]?\s*(?:[ap]\.?m\.?)?\s*[,(:–—-]?\s*(?:in\s+|of\s+)?", re.IGNORECASE)
_SPECIFICATION = re.compile(
    r"\s*\((?=[^()]*(?:\d|\b(?:individual|group|pairs?|teams?|invigilated|supervised|online|in class|closed book|"
    r"open book)\b))(?![^()]*\b(?:part|draft|final|due)\b)[^()]*\)\s*$",
    re.IGNORECASE,
)
_OTHER_CLASS = re.compile(
    r"\b(?:in|during)\s+(?:your\s+|own\s+|the\s+)*(?:workshops?|tutorials?|labs?|sections?|recitations?|practicals?)\b",
    re.IGNORECASE,
)
_WEEK_LABEL = re.compile(
    r"^\W*(?:week|wk)\.?\s*\d{1,2}\W*(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day\W*)?", re.IGNORECASE
)
_WHERE = re.compile(r"\W*(?:in|at|during|to|via)\s+(?:the\s+|your\s+|own\s+)*\w+(?:\s+\w+)?\W*$", re.IGNORECASE)
_NAME_ROLES = (ColumnRole.WORK, ColumnRole.EXAM, ColumnRole.TOPIC, ColumnRole.DUE, ColumnRole.LETTER, None)


def read_requirements(table: Table, columns: tuple[Column, ...], body: int, group: int) -> Iterator[Draft]:
    """The work of a requirements table, each with its due date; several dates in a row are several works."""
    grid = table.grid()
    for due_column in (column for column in columns if column.role is ColumnRole.DUE_DATE):
        name_column = _name_column(columns, due_column)
        if name_column is not None:
            yield from _read_rows(grid[body:], name_column, due_column, group)


def _name_column(columns: tuple[Column, ...], due: Column) -> Column | None:
    """The column with the names of the works that a column of due dates dates: the first, or of several such pairs
    side by side the one before it."""
    names = [column for column in columns if column.role in _NAME_ROLES]
    if sum(column.role is ColumnRole.DUE_DATE for column in columns) > 1:
        names = [column for column in names if column.index == due.index - 1]
    return names[0] if names else None


def _read_rows(rows: Grid, name_column: Column, due_column: Column, group: int) -> Iterator[Draft]:
    for row in rows:
        name, due = row[name_column.index], row[due_column.index]
        if name is None or due is None or name is due:
            continue
        title = _row_title(cell_text(name), name_column)
        text = " ".join(due.text.split())
        phrases = [phrase for phrase in phrases_in(text) if _is_due_date(phrase)]
        if not title or not phrases or is_no_work(title) or not (find_heads(title) or name_column.role is not None):
            continue
        series = week_series(text)
        context = " | ".join(dict.fromkeys(cell_text(cell) for cell in row if cell is not None and cell_text(cell)))[
            :400
        ]
        if series is not None:
            yield from _weekly_drafts(title, due, series, context, group)
        else:
            yield from _row_drafts(title, due, text, _without_weeks(text, phrases), context, group)


def _weekly_drafts(title: str, due: Cell, series: WeekSeries, context: str, group: int) -> Iterator[Draft]:
    """A work of each week of a run ("Weeks 2–6, each closes Sunday"), called by its week."""
    kind = kind_of_work(title) or Kind.ASSIGNMENT
    for number, phrase in series.days:
        mention = Mention(phrase, due.place, phrase.text, context, None, phrase.doubts)
        yield Draft(Item(kind, f"{singular(title)}, week {number}", (mention,)), group, ColumnRole.DUE_DATE)


def _without_weeks(text: str, phrases: list[Phrase]) -> list[Phrase]:
    """The dates of a row without the week that only tells of one of them which week it lies in ("5 May (Week 6)")."""
    days = [phrase for phrase in phrases if not _is_of_week(phrase)]
    return [phrase for phrase in phrases if phrase in days or not any(_is_beside(text, phrase, day) for day in days)]


def _is_of_week(phrase: Phrase) -> bool:
    match phrase.expression:
        case Week() | WeekdayIn(stretch=Week()):
            return True
        case _:
            return False


def _is_beside(text: str, week: Phrase, day: Phrase) -> bool:
    between = text[week.end : day.start] if week.end <= day.start else text[day.end : week.start]
    return _BESIDE.fullmatch(between) is not None


def is_no_work(name: str) -> bool:
    """Whether a row of dates is about days off or the calendar of the school ("Last day of class")."""
    return _NO_WORK.search(name) is not None and all(head.is_weak and not head.number for head in find_heads(name))


def _is_due_date(phrase: Phrase) -> bool:
    expression = phrase.expression
    in_week = isinstance(expression, WeekdayIn) and isinstance(expression.stretch, Week)
    by_class = expression is not None and any(isinstance(part, MeetingNumber) for part in parts_of(expression))
    return expression is not None and (
        in_week or by_class or isinstance(expression, Week) or day_key(expression)[0] in ("date", "span")
    )


def _row_title(text: str, column: Column) -> str:
    text = re.sub(r"^[·•*\s-]+", "", text)
    text = re.sub(r"^(?:\d{1,2}|two|three|four|five|six)\s+(?=[A-Za-z])", "", text, flags=re.IGNORECASE)
    if re.fullmatch(r"#?\d{1,2}", text) and column.heading:
        text = f"{singular(column.heading)} {text}"
    text = _SPECIFICATION.sub("", text)
    return tidy_title(re.sub(r"\(\s*\d+(?:\.\d+)?\s*(?:%|points?|pts)[^)]*\)", "", text))


def _row_drafts(title: str, due: Cell, text: str, phrases: list[Phrase], context: str, group: int) -> Iterator[Draft]:
    starts = [0, *(phrase.end for phrase in phrases)]
    due_dates = [
        phrase
        for phrase, start in zip(phrases, starts, strict=False)
        if not is_announced(text[start : phrase.start])  # "handed out April 21, due April 28"
    ]
    phrases = due_dates or phrases
    for number, phrase in enumerate(phrases, 1):
        begin = max(start for start in starts if start <= phrase.start)
        label = entry_title(text[begin : phrase.start], [])
        label = re.sub(r"^\W*(?:due|by|on)\b\W*", "", label, flags=re.IGNORECASE)
        label = _WHERE.sub("", _WEEK_LABEL.sub("", label))
        name, place_in_series = title, None
        if len(re.sub(r"\W", "", label)) > 2:
            known = bool(find_heads(title)) and label.lower() in title.lower()
            name = title if known else f"{title}: {label}" if not find_heads(label) else _joined(title, label)
        elif len(phrases) > 1:
            name, place_in_series = f"{singular(title)} {number}", number
        heads = find_heads(name)
        kind = kind_of_work(name) or Kind.ASSIGNMENT
        kind = Kind.ASSIGNMENT if kind is Kind.READING else kind  # "Reading autobiography": it has a due date
        if place_in_series is None and heads:
            place_in_series = number_of(heads[-1])
        doubts = (*phrase.doubts, WEEK_ONLY) if isinstance(phrase.expression, Week) else phrase.doubts
        if isinstance(phrase.expression, Week) and _OTHER_CLASS.search(text):
            doubts = (*doubts, DAY_NOT_THE_CLASS)
        if _CHOICE.search(text[begin : phrase.start]):
            doubts = (*doubts, CHOICE)
        mention = Mention(phrase, due.place, phrase.text, context, None, doubts)
        yield Draft(Item(kind, name, (mention,), number=place_in_series), group, ColumnRole.DUE_DATE)


def _joined(title: str, label: str) -> str:
    """A label that names the work itself beside the row's name: both, without saying a word twice."""
    words = {word.lower().rstrip("s") for word in re.findall(r"\w+", title)}
    extra = [word for word in label.split() if word.lower().strip(".,:").rstrip("s") not in words]
    return title if not extra else f"{title}: {label}"
