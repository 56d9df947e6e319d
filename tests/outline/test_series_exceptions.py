"""Where a recurring rule does not hold, as outlines say it. The sentences are invented."""

from __future__ import annotations

import pytest

from syllabus_io.outline.records import Kind, SeriesException
from syllabus_io.outline.series_exceptions import read_exceptions
from syllabus_io.resolve.expression import MonthDay, NamedDay, Week, Weekday, WeekOf

EXAM_WEEKS = SeriesException(around=Kind.EXAM)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Labs are due every Friday.", ()),
        ("Labs are due every Friday except exam weeks.", (EXAM_WEEKS,)),
        ("Labs are due on Fridays, with the exception of weeks in which there is a test.", (EXAM_WEEKS,)),
        ("Labs are due on Fridays. There is no lab due in weeks with a midterm.", (EXAM_WEEKS,)),
        ("Labs are due Mondays and Thursdays. No labs are due the first week of class.", (SeriesException(Week(1)),)),
        (
            "Labs are due Mondays and Thursdays. In exam weeks no lab is due on Thursday.",
            (SeriesException(around=Kind.EXAM, weekdays=(Weekday.TH,)),),
        ),
        (
            "Labs are due on Mondays, except the week of October 12; labs will be due on Wednesday that week.",
            (SeriesException(WeekOf(MonthDay(10, 12)), instead=(Weekday.WE,)),),
        ),
        (
            "Labs are due on Fridays. There will be no labs the week of spring break.",
            (SeriesException(WeekOf(NamedDay("spring break"))),),
        ),
        (
            "Labs are due every Monday, except on exam Mondays.",
            (SeriesException(around=Kind.EXAM, same_day=True),),
        ),
        ("Labs are due on Fridays. No essay is due in week 3.", ()),
        ("Labs are due on Fridays. No late labs are accepted.", ()),
    ],
)
def test_exceptions_are_read_from_the_sentences_of_a_passage(text: str, expected: tuple[SeriesException, ...]) -> None:
    assert read_exceptions(text, "Lab") == expected
