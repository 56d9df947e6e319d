"""Days off as an outline names them."""

from __future__ import annotations

from datetime import date, timedelta

from syllabus_io.outline.records import Kind, NoClass, Outline
from syllabus_io.resolve.expression import FullDate, MonthDay, NamedDay, Span, Week, Weekday, WeekdayIn, WeekOf
from syllabus_io.resolve.outlines import resolve_outline
from tests.resolve.made_outlines import AUTUMN, item, mention, no_class, outline, rows

MONDAYS = [date(2026, 8, 31) + timedelta(weeks=n) for n in range(10)]


def days_off(made: Outline) -> list[tuple[str, date, date]]:
    return [(off.name, off.first_day, off.last_day) for off in resolve_outline(made, AUTUMN, "BOT 210").no_class]


def test_a_week_off_is_its_monday_to_friday() -> None:
    off = NoClass("Autumn break", mention(WeekOf(MonthDay(10, 14)), "week of Oct 14"))
    assert days_off(outline(no_class=(off,))) == [("Autumn break", date(2026, 10, 12), date(2026, 10, 16))]


def test_a_break_on_the_monday_of_a_schedule_by_weeks_is_the_whole_week() -> None:
    dated = rows(MONDAYS)
    made = outline(row_dates=dated, no_class=(NoClass("Autumn break", dated[6]), NoClass("Founders' Day", dated[2])))
    assert days_off(made) == [
        ("Founders' Day", date(2026, 9, 14), date(2026, 9, 14)),
        ("Autumn break", date(2026, 10, 12), date(2026, 10, 16)),
    ]


def test_classes_off_in_one_week_are_one_stretch_unless_a_class_lies_between() -> None:
    off = tuple(no_class("No class", date(2026, 10, day)) for day in (12, 14, 16))
    assert days_off(outline(no_class=off)) == [("No class", date(2026, 10, 12), date(2026, 10, 16))]
    held = rows([date(2026, 10, 13)])
    assert days_off(outline(no_class=off[:2], row_dates=held)) == [
        ("No class", date(2026, 10, 12), date(2026, 10, 12)),
        ("No class", date(2026, 10, 14), date(2026, 10, 14)),
    ]
    later = (off[0], no_class("No class", date(2026, 10, 19)))
    assert len(days_off(outline(no_class=later))) == 2


def test_a_day_inside_a_stretch_is_not_listed_again() -> None:
    stretch = NoClass("Break", mention(Span(FullDate(date(2026, 10, 12)), FullDate(date(2026, 10, 14))), "Oct 12-14"))
    assert days_off(outline(no_class=(stretch, no_class("Holiday", date(2026, 10, 12))))) == [
        ("Break", date(2026, 10, 12), date(2026, 10, 14))
    ]


def test_a_day_off_without_a_date_is_a_note() -> None:
    made = outline(no_class=(NoClass("Harvest day", mention(NamedDay("Harvest day"), "Harvest day")),))
    resolved = resolve_outline(made, AUTUMN, "BOT 210")
    assert resolved.no_class == ()
    assert len(resolved.notes) == 1
    assert resolved.notes[0].startswith("the day off “Harvest day” has no date:")


def test_a_week_off_given_by_its_number_takes_a_number() -> None:
    week = Week(6)
    off = NoClass("Reading week", mention(Span(WeekdayIn(week, Weekday.MO), WeekdayIn(week, Weekday.FR)), "week 6"))
    paper = item(Kind.ASSIGNMENT, "Essay", mention(WeekdayIn(Week(10), Weekday.WE), "Wednesday of week 10"))
    resolved = resolve_outline(outline(no_class=(off,), items=(paper,)), AUTUMN, "BOT 210")
    monday = AUTUMN.first_day - timedelta(days=AUTUMN.first_day.isoweekday() - 1)
    assert [day.first_day for day in resolved.no_class] == [monday + timedelta(weeks=5)]
    assert [one.date for one in resolved.items] == [monday + timedelta(weeks=9, days=2)]
