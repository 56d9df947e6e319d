"""Work that is due by a rule, numbered."""

from __future__ import annotations

from datetime import date, timedelta

from syllabus_io.outline.records import Category, GradingScheme, Kind
from syllabus_io.resolve.evaluate import evaluate, expand
from syllabus_io.resolve.expression import Every, Frequency, FullDate, MeetingNumber, Offset, Unit, Week, Weekday
from syllabus_io.resolve.records import Resolved
from syllabus_io.resolve.series import number_series, series_size
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.resolve.made_outlines import AUTUMN, TUESDAYS_THURSDAYS, item, mention

CALENDAR = TermCalendar(AUTUMN, (TUESDAYS_THURSDAYS,))
FRIDAYS = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,), start=Week(2))
EACH_CLASS = Every(Frequency.MEETING, shift_days=-1)


def test_surplus_days_in_the_last_week_are_explained_and_earlier_ones_are_not() -> None:
    days = expand(FRIDAYS, CALENDAR)
    assert len(days) == 14
    thirteen = number_series(FRIDAYS, days, 13, CALENDAR, CALENDAR)
    assert [one.number for one in thirteen] == list(range(1, 14))
    assert not any(one.reasons for one in thirteen)
    ten = number_series(FRIDAYS, days, 10, CALENDAR, CALENDAR)
    assert all(one.reasons == ("the rule gives 14 days in the term, but the outline counts only 10",) for one in ten)


def test_every_tree_of_a_series_gives_its_own_day() -> None:
    for rule in (FRIDAYS, EACH_CLASS):
        days = expand(rule, CALENDAR)
        for one in number_series(rule, days, None, CALENDAR, CALENDAR):
            found = evaluate(one.expression, CALENDAR)
            assert isinstance(found, Resolved)
            assert found.date == one.day
            assert not isinstance(one.expression, FullDate), "a rule counted in the term moves with it"


def test_the_night_before_each_class_is_told_from_the_class() -> None:
    days = expand(EACH_CLASS, CALENDAR)
    assert days[0] == date(2026, 8, 31)
    second = number_series(EACH_CLASS, days, None, CALENDAR, CALENDAR)[1]
    assert second.expression == Offset(MeetingNumber(2), -1, Unit.DAY)


def test_a_rule_between_fixed_dates_gives_fixed_dates() -> None:
    rule = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,), start=FullDate(date(2026, 9, 11)))
    series = number_series(rule, [date(2026, 9, 11) + timedelta(weeks=n) for n in range(3)], 3, CALENDAR, CALENDAR)
    assert series[0].expression == FullDate(date(2026, 9, 11))


def test_the_size_is_the_stated_one_or_that_of_a_category_it_alone_fills() -> None:
    scheme = GradingScheme((Category("Homework", weight=30, count=9),))
    rule = mention(FRIDAYS, "every Friday")
    stated = item(Kind.ASSIGNMENT, "Homework", rule, category="Homework", series_count=7)
    alone = item(Kind.ASSIGNMENT, "Homework", rule, category="Homework")
    other = item(Kind.ASSIGNMENT, "Essay", rule, category="Homework")
    assert series_size(stated, [stated, other], scheme) == 7
    assert series_size(alone, [alone], scheme) == 9
    assert series_size(alone, [alone, other], scheme) is None


def test_a_rule_with_its_first_day_and_its_gaps_needs_no_last_day() -> None:
    start, gap = FullDate(date(2026, 9, 11)), FullDate(date(2026, 10, 16))
    days = [date(2026, 12, 4), date(2026, 12, 11)]
    open_rule = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,), start=start)
    told = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,), start=start, except_in=(gap,))
    last = [number_series(rule, days, None, CALENDAR, CALENDAR)[-1] for rule in (open_rule, told)]
    assert any("no end" in reason for reason in last[0].reasons)
    assert not last[1].reasons
