"""Numbered work against its own numbers."""

from __future__ import annotations

from datetime import date, timedelta

from syllabus_io.outline.records import Category, GradingScheme, Kind
from syllabus_io.resolve.cross_check import Dated
from syllabus_io.resolve.expression import FullDate
from syllabus_io.resolve.numbered_work import number_order_reasons
from syllabus_io.resolve.outlines import resolve_outline
from tests.resolve.made_outlines import AUTUMN, item, mention, outline

TUESDAYS = [date(2026, 9, 8) + timedelta(weeks=n) for n in range(5)]


def quizzes(days: list[date]) -> list[Dated]:
    return [Dated(str(n), Kind.QUIZ, f"Quiz {n}", day, number=n) for n, day in enumerate(days, start=1)]


def test_a_number_out_of_order_is_marked_alone() -> None:
    days = [*TUESDAYS]
    days[2] = date(2026, 11, 22)
    reasons = number_order_reasons(quizzes(days))
    assert set(reasons) == {"3"}
    assert reasons["3"] == (
        "“Quiz 3” on Sun 22 Nov 2026 is out of order: “Quiz 2” is on Tue 15 Sep 2026 and “Quiz 4” on Tue 29 Sep 2026"
    )


def test_rising_numbers_and_several_on_one_day_are_in_order() -> None:
    assert number_order_reasons(quizzes(TUESDAYS)) == {}
    assert number_order_reasons(quizzes([TUESDAYS[0]] * 5)) == {}


def test_other_work_with_numbers_is_another_series() -> None:
    labs = [Dated(f"lab{n}", Kind.QUIZ, f"Lab quiz {n}", TUESDAYS[-n], number=n) for n in (1, 2)]
    assert number_order_reasons([*quizzes(TUESDAYS), *labs]) == {}


def test_a_count_that_differs_is_a_note_of_the_course() -> None:
    days = [item(Kind.QUIZ, f"Quiz {n}", mention(FullDate(TUESDAYS[n]), "day"), category="Quizzes") for n in range(4)]
    scheme = GradingScheme((Category("Quizzes", weight=20, count=5), Category("Attendance", weight=10, count=28)))
    resolved = resolve_outline(outline(days, grading=scheme), AUTUMN, "BOT 210")
    assert resolved.notes == ("the outline counts 5 in “Quizzes”; 4 of them have a date",)
    assert not any(one.reasons for one in resolved.items)
