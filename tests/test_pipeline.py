"""The stages joined: how a term is settled, and how courses get their names."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from syllabus_io.errors import BadSetting
from syllabus_io.outline.records import CourseFacts, Outline
from syllabus_io.pipeline import course_keys, settle_term
from syllabus_io.resolve.term import Rotation, TermFacts
from tests.resolve.made_outlines import outline, rows

AUTUMN = TermFacts("term.toml", "Autumn 2026", date(2026, 8, 31), date(2026, 12, 11))
MONDAYS = [date(2026, 9, 7) + timedelta(weeks=n) for n in range(13)]


def test_a_stated_term_is_taken_as_it_is() -> None:
    term = settle_term([outline(row_dates=rows(MONDAYS), years=(2026,))], AUTUMN)
    assert (term.name, term.first_day, term.last_day, term.assumed) == (
        "Autumn 2026",
        date(2026, 8, 31),
        date(2026, 12, 11),
        (),
    )


def test_public_holidays_of_the_region_become_days_off() -> None:
    """Labor Day is the first Monday of September, Thanksgiving the fourth Thursday of November (5 U.S.C. 6103)."""
    facts = TermFacts("term.toml", None, date(2026, 8, 31), date(2026, 12, 11), holidays="US-OH")
    off = {day_off.first_day for day_off in settle_term([], facts).no_class}
    assert {date(2026, 9, 7), date(2026, 11, 26)} <= off
    assert all(date(2026, 8, 31) <= day <= date(2026, 12, 11) for day in off)


def test_a_region_that_does_not_exist_names_the_term_file() -> None:
    facts = TermFacts("term.toml", None, date(2026, 8, 31), date(2026, 12, 11), holidays="Atlantis")
    with pytest.raises(BadSetting, match=r"term\.toml: holidays .*Atlantis"):
        settle_term([], facts)


def test_a_missing_end_of_the_term_is_worked_out_and_marked() -> None:
    facts = TermFacts("term.toml", "Autumn 2026", first_day=date(2026, 8, 31))
    term = settle_term([outline(row_dates=rows(MONDAYS), years=(2026,))], facts)
    assert (term.first_day, term.last_day) == (date(2026, 8, 31), MONDAYS[-1] + timedelta(days=4))
    assert term.assumed


def test_one_end_of_the_term_that_contradicts_the_outlines_is_refused() -> None:
    facts = TermFacts("term.toml", None, first_day=date(2027, 8, 31))
    with pytest.raises(BadSetting, match="give both first_day and last_day"):
        settle_term([outline(row_dates=rows(MONDAYS), years=(2026,))], facts)


def test_outlines_without_any_date_still_get_a_term_and_a_mark() -> None:
    by_name = settle_term([outline()], TermFacts("term.toml", "Spring 2027"))
    assert by_name.first_day.year == 2027
    assert by_name.assumed
    by_day = settle_term([outline()], None, near=date(2026, 11, 24))
    assert (by_day.first_day, by_day.last_day) == (date(2026, 1, 1), date(2026, 12, 31))
    assert "no date at all" in by_day.assumed[0]


def test_a_rotation_begins_on_the_first_day_unless_said() -> None:
    facts = TermFacts("t.toml", None, date(2026, 8, 31), date(2026, 12, 11), rotation=("A", "B"))
    assert settle_term([], facts).rotation == Rotation(("A", "B"), date(2026, 8, 31))


def named(code: str | None, title: str | None, file: str) -> Outline:
    return outline(file=file, course=CourseFacts(code=code, title=title))


def test_course_names_are_unique_and_fit_a_sheet_name() -> None:
    """A sheet name has at most 31 characters and none of []:*?/\\ (ECMA-376 part 1, 18.2.19)."""
    keys = course_keys(
        [
            named("BOT 110", None, "a.pdf"),
            named("bot 110", None, "b.pdf"),
            named(None, "History of [Very] Long Names: An Introduction / Part 1", "c.pdf"),
            named(None, None, "letters?.pdf"),
            named("***", None, "d.pdf"),
        ]
    )
    assert keys[:2] == ("BOT 110", "bot 110 (2)")
    assert keys[3] == "letters"
    assert len({key.casefold() for key in keys}) == len(keys)
    assert all(len(key) <= 24 and not set(key) & set("[]:*?/\\") for key in keys)
