"""Public holidays of a region. Their dates are checked in test_term_checks against laws."""

from __future__ import annotations

from datetime import date

import pytest

from syllabus_io.errors import BadSetting
from syllabus_io.resolve.public_holidays import ORIGIN, is_region, observances, public_holidays


def _names(region: str, first: date, last: date) -> list[str]:
    return [off.name for off in public_holidays(region, first, last)]


def test_both_ends_of_the_stretch_are_included() -> None:
    days = public_holidays("US", date(2026, 9, 7), date(2026, 11, 26))
    assert [off.first_day for off in days] == [
        date(2026, 9, 7),
        date(2026, 10, 12),
        date(2026, 11, 11),
        date(2026, 11, 26),
    ]
    assert {off.origin for off in days} == {ORIGIN}


def test_a_subdivision_has_its_own_holidays() -> None:
    # Scotland keeps St Andrew's Day, England does not: St Andrew's Day Bank Holiday (Scotland) Act 2007.
    november = (date(2026, 11, 1), date(2026, 11, 30))
    assert any("Andrew" in name for name in _names("GB-SCT", *november))
    assert _names("GB-ENG", *november) == []


def test_an_observed_day_is_listed_beside_the_day_itself() -> None:
    # 4 July 2026 is a Saturday: kept on Friday (Executive Order 11582).
    names = _names("US", date(2026, 7, 1), date(2026, 7, 31))
    assert names == ["Independence Day (observed)", "Independence Day"]


def test_a_stretch_over_new_year() -> None:
    assert _names("US", date(2026, 12, 20), date(2027, 1, 2)) == ["Christmas Day", "New Year's Day"]


def test_two_holidays_on_one_day_are_two() -> None:
    # In 2027 the United States keep Christmas Day (a Saturday) on the 24th.
    assert "Christmas Day (observed)" in _names("US", date(2027, 12, 24), date(2027, 12, 24))


def test_lower_case_and_spaces_do_not_matter() -> None:
    assert _names(" us-oh ", date(2026, 9, 1), date(2026, 9, 30)) == ["Labor Day"]


def test_days_without_a_holiday() -> None:
    # Halloween is no public holiday: common practice, no source.
    october = (date(2026, 10, 1), date(2026, 10, 31))
    assert "Halloween" in [off.name for off in observances("US", *october)]
    assert "Halloween" not in _names("US", *october)


def test_region_without_such_days_has_none() -> None:
    assert observances("FR", date(2026, 2, 1), date(2026, 2, 3)) == ()


@pytest.mark.parametrize("region", ["", "Ohio", "XX", "US-QQ", "12"])
def test_unknown_region_is_refused_with_the_remedy(region: str) -> None:
    assert not is_region(region)
    with pytest.raises(BadSetting, match="ISO 3166"):
        public_holidays(region, date(2026, 1, 1), date(2026, 12, 31))
