"""The term sheet and the day table, computed by a spreadsheet engine and compared with the calendar in Python."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.plan.facts import day_count
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import MeetingNumber, Phrase, Weekday
from syllabus_io.resolve.records import Certainty, Resolved, ResolvedItem
from syllabus_io.resolve.term import DayOff, Meeting, Term
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.workbook.days import FIRST_ROW
from syllabus_io.workbook.layout import DAYS, TERM, Name, class_count_name, class_kind_count_name
from tests.dates.calendars import CALENDARS, TERMS
from tests.workbook.term_workbook import PROBE, TermBook, as_day, iron_values

MO, TU, WE, TH, FR = (Weekday(number) for number in range(1, 6))
COURSE = "BIO 110"


def _range(book: TermBook, name: str) -> tuple[str, list[str]]:
    """The sheet and the cells of a defined name that is one column wide."""
    sheet, cells = book.book.workbook.defined_names[name].attr_text.rsplit("!", 1)
    first, last = cells.replace("$", "").split(":")
    letters = first.rstrip("0123456789")
    rows = range(int(first[len(letters) :]), int(last[len(letters) :]) + 1)
    return sheet.strip("'"), [f"{letters}{row}" for row in rows]


def _column(book: TermBook, name: str) -> list[object]:
    """What the engine computes in the column of a defined name."""
    sheet, cells = _range(book, name)
    found = iron_values(book.content(), {sheet: cells})
    return [found[sheet, cell] for cell in cells]


def _columns(book: TermBook, *names: str) -> list[list[object]]:
    ranges = [_range(book, name) for name in names]
    wanted: dict[str, list[str]] = {}
    for sheet, cells in ranges:
        wanted.setdefault(sheet, []).extend(cells)
    found = iron_values(book.content(), wanted)
    return [[found[sheet, cell] for cell in cells] for sheet, cells in ranges]


def _lab_item() -> ResolvedItem:
    """An item that counts labs, so that the day table counts them too."""
    tree = MeetingNumber(1, "lab")
    mention = Mention(Phrase("Lab 1", 0, 5, tree), Place("outline.pdf"), "Lab 1", "Lab 1")
    resolution = Resolved(date(2027, 3, 5), None, Certainty.DERIVED, tree)
    return ResolvedItem("one", Kind.QUIZ, "Quiz", resolution, mention, Item(Kind.QUIZ, "Quiz", (mention,)))


@pytest.mark.parametrize("name", list(CALENDARS))
def test_week_table_is_that_of_the_calendar(name: str) -> None:
    calendar = CALENDARS[name]
    book = TermBook.of(calendar.term, {COURSE: calendar.meetings})
    numbers, mondays = _columns(book, Name.WEEK_NUMBERS, Name.WEEK_MONDAYS)
    shown = [
        (int(str(number).split(".")[0]) if number != "" else None, as_day(monday))
        for number, monday in zip(numbers, mondays, strict=True)
    ]
    assert shown == list(calendar.weeks[: len(shown)])
    assert len(shown) * 7 > (calendar.bounds[1] - calendar.week_one).days


@pytest.mark.parametrize("name", list(CALENDARS))
def test_day_table_is_that_of_the_calendar(name: str) -> None:
    calendar = CALENDARS[name]
    book = TermBook.of(calendar.term, {COURSE: calendar.meetings})
    days, off, counts = _columns(book, Name.DAY_DATES, Name.DAY_OFF, class_count_name(1))
    first = as_day(days[0])
    assert isinstance(first, date) and first == calendar.week_one - timedelta(weeks=4)
    assert [as_day(day) for day in days] == [first + timedelta(days=n) for n in range(day_count(book.book.plan))]
    assert [day for day, flag in zip(days, off, strict=True) if flag == 1] == [
        day for day in days if calendar.is_off(_as_date(day))
    ]
    reached = [
        _as_date(day) for n, day in enumerate(days) if counts[n] != "" and (n == 0 or counts[n] != counts[n - 1])
    ]
    assert reached == list(calendar.meetings_dates())
    assert set(counts[:28]) == {""}, "the count is blank before the term"


def _as_date(value: object) -> date:
    day = as_day(value)
    assert isinstance(day, date)
    return day


def test_labs_are_counted_when_a_date_needs_it() -> None:
    calendar = CALENDARS["trimester"]
    book = TermBook.of(calendar.term, {COURSE: calendar.meetings}, [_lab_item()])
    (counts,) = _columns(book, class_kind_count_name(1, "lab"))
    assert max(count for count in counts if isinstance(count, float)) == len(calendar.meetings_dates("lab"))


def test_every_name_stands_for_cells_of_its_sheet() -> None:
    calendar = CALENDARS["school-year"]
    book = TermBook.of(calendar.term, {COURSE: calendar.meetings})
    names = book.book.workbook.defined_names
    for name in (
        Name.TERM_NAME, Name.FIRST_DAY, Name.LAST_DAY, Name.FINALS_FIRST, Name.FINALS_LAST, Name.WEEK_ONE,
        Name.BREAKS_COUNT, Name.CLASSES_END, Name.ROTATION_FIRST, Name.WEEK_NUMBERS, Name.WEEK_MONDAYS, Name.OFF_NAMES,
        Name.OFF_FIRST, Name.OFF_LAST, Name.OFF_COURSES, Name.CLASS_COURSES, Name.CLASS_KINDS, Name.CLASS_DAYS,
        Name.CLASS_STARTS, Name.CLASS_ENDS, Name.CLASS_ROOMS, Name.CLASS_TEACHERS,
    ):  # fmt: skip
        assert names[name].attr_text.startswith(f"'{TERM}'!"), name
    for name in (Name.DAY_DATES, Name.DAY_OFF, Name.OFF_UNTIL, Name.OFF_FOR, Name.ROTATION_COUNT, class_count_name(1)):
        assert names[name].attr_text.startswith(f"'{DAYS}'!"), name
    assert book.book.workbook[DAYS].sheet_state == "hidden"


class TestChanges:
    """What a person changes on the sheet, and what must follow."""

    TERM = Term("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11), no_class=())
    MEETINGS = (Meeting((TU, TH)),)

    def _book(self, term: Term = TERM) -> TermBook:
        book = TermBook.of(term, {COURSE: self.MEETINGS, "ART 5": (Meeting((MO,)),)})
        book.probe(1, f"INDEX({Name.DAY_DATES},MATCH(5,{class_count_name(1)},0))")
        book.probe(2, f"INDEX({Name.DAY_DATES},MATCH(3,{class_count_name(2)},0))")
        book.probe(3, f"INDEX({Name.WEEK_MONDAYS},MATCH(4,{Name.WEEK_NUMBERS},0))")
        book.probe(4, Name.CLASSES_END)
        return book

    def _probes(self, book: TermBook) -> list[date | str | None]:
        found = iron_values(book.content(), {PROBE: ["A1", "A2", "A3", "A4"]})
        return [as_day(found[PROBE, f"A{row}"]) for row in range(1, 5)]

    def _add_day_off(self, book: TermBook, *values: object) -> None:
        row = book.free_row_of(Name.OFF_NAMES)
        for column, value in zip("ABCD", values, strict=False):
            book.change(f"{column}{row}", value)

    def test_as_written(self) -> None:
        # By hand: fifth class of TU TH from 31 August is 15 September; third Monday is the 14th.
        assert self._probes(self._book()) == [
            date(2026, 9, 15),
            date(2026, 9, 14),
            date(2026, 9, 21),
            date(2026, 12, 11),
        ]

    def test_day_off_without_a_last_day_is_one_day(self) -> None:
        book = self._book()
        self._add_day_off(book, "Storm", date(2026, 9, 8))
        assert self._probes(book)[:2] == [date(2026, 9, 17), date(2026, 9, 14)]

    def test_day_off_of_one_course_moves_that_course_alone(self) -> None:
        book = self._book()
        self._add_day_off(book, "Trip", date(2026, 9, 7), date(2026, 9, 8), "ART 5")
        assert self._probes(book)[:2] == [date(2026, 9, 15), date(2026, 9, 21)]

    def test_day_off_of_an_unknown_course_moves_none(self) -> None:
        book = self._book()
        self._add_day_off(book, "Trip", date(2026, 9, 7), date(2026, 9, 8), "XYZ 9")
        assert self._probes(book) == self._probes(self._book())

    def test_last_day_before_the_first_is_taken_as_one_day(self) -> None:
        book = self._book()
        self._add_day_off(book, "Storm", date(2026, 9, 8), date(2026, 9, 1))
        assert self._probes(book)[0] == date(2026, 9, 17)

    def test_week_off_takes_its_number_away_and_the_switch_gives_it_back(self) -> None:
        book = self._book()
        self._add_day_off(book, "Break", date(2026, 9, 7), date(2026, 9, 11))
        assert self._probes(book)[2] == date(2026, 9, 28)
        book.change(book.cell_of(Name.BREAKS_COUNT), "yes")
        assert self._probes(book)[2] == date(2026, 9, 21)

    def test_examinations_typed_into_the_term_end_the_classes(self) -> None:
        book = self._book()
        book.change(book.cell_of(Name.FINALS_FIRST), date(2026, 12, 7))
        assert self._probes(book)[3] == date(2026, 12, 6)

    def test_other_monday_of_week_one(self) -> None:
        book = self._book()
        row = int(book.cell_of(Name.FINALS_LAST)[1:]) + 1
        book.change(f"B{row}", date(2026, 9, 9))
        assert self._probes(book)[2] == date(2026, 9, 28)

    def test_first_day_on_a_weekend(self) -> None:
        book = self._book()
        book.change(book.cell_of(Name.FIRST_DAY), date(2026, 8, 29))
        calendar = TermCalendar(replace(self.TERM, first_day=date(2026, 8, 29)), self.MEETINGS)
        week = calendar.week(4)
        assert week is not None and self._probes(book)[2] == week[0]

    def test_second_meeting_row_of_a_course_counts_too(self) -> None:
        book = self._book()
        row = book.free_row_of(Name.CLASS_COURSES)
        book.change(f"A{row}", COURSE)
        book.change(f"I{row}", "x")  # Friday
        assert self._probes(book)[0] == date(2026, 9, 10)

    def test_office_hours_are_not_counted(self) -> None:
        book = self._book()
        row = book.free_row_of(Name.CLASS_COURSES)
        for column, value in zip("ABI", (COURSE, "office hours", "x"), strict=True):
            book.change(f"{column}{row}", value)
        assert self._probes(book)[0] == date(2026, 9, 15)


def test_text_of_an_outline_never_becomes_a_formula() -> None:
    term = replace(
        TERMS["trimester"], name="=1+1", no_class=(DayOff("=HYPERLINK(1)", date(2027, 4, 5), date(2027, 4, 9)),)
    )
    book = TermBook.of(term, {"=SUM(1)": (Meeting((MO,), room="=A1"),)})
    cells = [
        cell for row in book.book.workbook[TERM].iter_rows() for cell in row if str(cell.value or "").startswith("=")
    ]
    typed = [cell for cell in cells if cell.value in ("=1+1", "=HYPERLINK(1)", "=SUM(1)", "=A1")]
    assert len(typed) == 4 and all(cell.data_type == "s" for cell in typed)


def test_assumed_facts_are_to_be_checked_on_the_sheet() -> None:
    term = replace(TERMS["trimester"], assumed=("the first day is that of the first row of BIO 110",))
    book = TermBook.of(term, {COURSE: ()})
    texts = [str(cell.value) for row in book.book.workbook[TERM].iter_rows() for cell in row]
    assert any("first row of BIO 110" in text and "check" in text for text in texts)


def test_weeks_name_what_is_off_and_the_examinations() -> None:
    calendar = CALENDARS["semester"]
    book = TermBook.of(calendar.term, {COURSE: calendar.meetings})
    _, cells = _range(book, Name.WEEK_NUMBERS)
    labels = [f"D{cell[1:]}" for cell in cells]
    found = iron_values(book.content(), {TERM: labels})
    said = {monday: found[TERM, label] for (_, monday), label in zip(calendar.weeks, labels, strict=False)}
    assert said[date(2026, 9, 7)] == "Labor Day"
    assert said[date(2026, 11, 23)] == "Thanksgiving break", "the first of two days off is named"
    assert said[date(2026, 12, 14)] == "examinations"
    assert said[date(2026, 9, 21)] == ""
    assert said[date(2026, 12, 28)] == ""


def test_day_table_begins_under_its_headings() -> None:
    book = TermBook.of(TERMS["semester"], {COURSE: ()})
    assert book.cell_of(Name.DAY_DATES) == f"A{FIRST_ROW}"
