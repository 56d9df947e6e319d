"""Which names of days off mean the same days. Names are invented or those of public holidays."""

from __future__ import annotations

from datetime import date

import pytest
from dateutil.easter import easter

from syllabus_io.resolve.day_names import NameFit, compare_names, feast_day, is_break, names_nothing


@pytest.mark.parametrize(
    ("asked", "offered", "fit"),
    [
        ("Labor Day", "labor day", NameFit.SAME_WORDS),
        ("the Spring Break", "Spring break", NameFit.SAME_WORDS),
        ("spring recess", "Spring break", NameFit.SAME_DAY),
        ("Fall Break", "Autumn break", NameFit.SAME_DAY),
        ("Spring Break", "Spring break – no classes", NameFit.SAME_DAY),
        ("Thanksgiving", "Thanksgiving Day", NameFit.SAME_DAY),
        ("MLK Day", "Martin Luther King Jr. Day", NameFit.SAME_DAY),
        ("Presidents’ Day", "Washington's Birthday", NameFit.SAME_DAY),
        ("Presidents Day", "Washington-Lincoln Day", NameFit.SAME_DAY),
        ("Indigenous Peoples' Day", "Columbus Day", NameFit.SAME_DAY),
        ("July 4th", "Independence Day", NameFit.SAME_DAY),
        ("Labour Day", "Labor Day", NameFit.SAME_DAY),
        ("Juneteenth", "Juneteenth National Independence Day", NameFit.SAME_DAY),
        ("Thanksgiving", "Thanksgiving break", NameFit.OTHER_SORT),
        ("Christmas break", "Christmas Day", NameFit.OTHER_SORT),
        ("Thanksgivng", "Thanksgiving Day", NameFit.MISSPELT),
        ("Columbus Day", "Columbus Day observance trip", NameFit.PART),
        ("Spring break", "Spring Bank Holiday", NameFit.NONE),
        ("Autumn break", "Spring break", NameFit.NONE),
        ("Labor Day", "Memorial Day", NameFit.NONE),
        ("Reading day 1", "Reading day 2", NameFit.NONE),
        ("Independence Day", "Juneteenth National Independence Day", NameFit.PART),
        ("the break", "Spring break", NameFit.NONE),
    ],
)
def test_fit_of_two_names(asked: str, offered: str, fit: NameFit) -> None:
    assert compare_names(asked, offered) is fit


@pytest.mark.parametrize("name", ["break", "the break", "Holiday", "no class", "a day off", "holidays"])
def test_a_name_that_says_only_that_it_is_off(name: str) -> None:
    assert names_nothing(name)


@pytest.mark.parametrize(("name", "several"), [("Spring break", True), ("Labor Day", False), ("Half-term week", True)])
def test_a_break_is_several_days(name: str, several: bool) -> None:
    assert is_break(name) is several


@pytest.mark.parametrize(
    ("name", "day"),
    [
        ("Christmas", date(2026, 12, 25)),
        ("xmas day", date(2026, 12, 25)),
        ("Christmas Eve", date(2026, 12, 24)),
        ("New Year's Day", date(2026, 1, 1)),
        ("New Year’s Eve", date(2026, 12, 31)),
        ("Halloween", date(2026, 10, 31)),
        ("St. Patrick's Day", date(2026, 3, 17)),
        ("Saint Patricks Day", date(2026, 3, 17)),
        ("Valentine's Day", date(2026, 2, 14)),
    ],
)
def test_feasts_of_a_fixed_day(name: str, day: date) -> None:
    """Dates from memory, common knowledge."""
    assert feast_day(name, day.year) == day


@pytest.mark.parametrize("year", [2024, 2026, 2027, 2030])
def test_feasts_told_from_easter(year: int) -> None:
    """Distances in days from Easter Sunday: the Roman calendar, from memory. Easter by dateutil."""
    sunday = easter(year)
    for name, days in (("Good Friday", -2), ("Ash Wednesday", -46), ("Easter Monday", 1), ("Pentecost", 49)):
        found = feast_day(name, year)
        assert found is not None and (found - sunday).days == days, name


def test_a_holiday_of_one_country_is_no_feast_of_all() -> None:
    assert feast_day("Labor Day", 2026) is None
    assert feast_day("Christmas break", 2026) is None
