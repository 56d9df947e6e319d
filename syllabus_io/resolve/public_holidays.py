"""Public holidays of a country or of a part of it, by the ``holidays`` library, which cites its sources."""

from __future__ import annotations

import warnings
from datetime import date
from functools import lru_cache

from syllabus_io.errors import BadSetting
from syllabus_io.resolve.term import DayOff

__all__ = ["ORIGIN", "is_region", "observances", "public_holidays"]

ORIGIN = "public holiday"
_WITHOUT_A_DAY_OFF = ("unofficial", "optional", "half_day")


def public_holidays(region: str, first: date, last: date) -> tuple[DayOff, ...]:
    """The public holidays of ``region`` from ``first`` to ``last``, both included, in order of day.

    ``region`` is an ISO 3166 country ("US") or subdivision ("US-OH"). A holiday that is kept on another day is
    listed on both, the second named as observed. Names are those of the library. Raises BadSetting when the
    region is not known.
    """
    found = _named_days(region, first.year, last.year, public=True)
    return tuple(DayOff(name, day, day, ORIGIN) for day, name in found if first <= day <= last)


def observances(region: str, first: date, last: date) -> tuple[DayOff, ...]:
    """Days of ``region`` that have a name though schools and offices stay open (Halloween, Mother's Day), in order.

    Empty where the library knows none. Raises BadSetting when the region is not known.
    """
    found = _named_days(region, first.year, last.year, public=False)
    return tuple(DayOff(name, day, day, "observance") for day, name in found if first <= day <= last)


def is_region(region: str) -> bool:
    """Whether public holidays are known for an ISO 3166 country or subdivision."""
    import holidays

    country, _, part = region.strip().upper().partition("-")
    known = holidays.list_supported_countries()
    return country in known and (not part or part in known[country])


@lru_cache(maxsize=64)
def _named_days(region: str, first_year: int, last_year: int, public: bool) -> tuple[tuple[date, str], ...]:
    import holidays

    if not is_region(region):
        raise BadSetting(
            f"holidays = {region!r}",
            "is no country or part of a country whose public holidays are known",
            'give an ISO 3166 code such as "US", "US-OH" or "GB-SCT", or leave it out and list the days off',
        )
    country, _, part = region.strip().upper().partition("-")
    years = range(first_year, last_year + 1)
    # The library warns of years for which it knows only some holidays; such a day is then not found, and says so.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)
        spared = holidays.country_holidays(country, subdiv=part or None, years=years)
        if not public:
            kinds = tuple(kind for kind in _WITHOUT_A_DAY_OFF if kind in spared.supported_categories)
            if not kinds:
                return ()
            spared = holidays.country_holidays(country, subdiv=part or None, years=years, categories=kinds)
    pairs: list[tuple[date, str]] = []
    for day, names in sorted(spared.items()):
        pairs += [(day, name) for name in names.split("; ")]
    return tuple(pairs)
