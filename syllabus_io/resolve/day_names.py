"""Names of holidays and days off: when two of them mean the same days."""

from __future__ import annotations

import re
from datetime import date, timedelta
from enum import IntEnum
from functools import lru_cache

__all__ = [
    "NameFit",
    "compare_names",
    "day_after_thanksgiving",
    "feast_day",
    "is_break",
    "names_nothing",
    "normalize_words",
]

# Words that say that a day is off, not which day it is.
_BREAK_WORDS = frozenset(
    {"break", "recess", "vacation", "vacations", "holidays", "week", "weekend", "closure", "intersession"}
)
_EMPTY_WORDS = _BREAK_WORDS | frozenset(
    {
        "a", "all", "an", "and", "begins", "campus", "celebrated", "class", "classes", "closed", "college",
        "day", "days", "during", "for", "holiday", "in", "is", "national", "no", "observance", "observed",
        "of", "off", "on", "our", "public", "school", "the", "university",
    }
)  # fmt: skip
_SPELLINGS = {
    "autumn": "fall", "eves": "eve", "fathers": "father", "independance": "independence", "mid": "middle",
    "mlk": "martin luther king", "mothers": "mother", "new years": "new year", "patricks": "patrick",
    "pres": "president", "presidents": "president", "saint": "st", "thxgiving": "thanksgiving",
    "valentines": "valentine", "veteran": "veterans", "xmas": "christmas", "years": "year",
    "workers": "labor", "labour": "labor", "bank": "bank", "midterm": "middle term",
    "midsemester": "middle term", "semester": "term", "peoples": "people", "patriots": "patriot",
}  # fmt: skip
# Names of one and the same day. Each group is written as its words are after the spellings above.
_SAME_DAY = (
    frozenset({"president", "washington birthday", "washington lincoln", "george washington birthday"}),
    frozenset(
        {"martin luther king", "martin luther king jr", "dr martin luther king jr", "martin luther king birthday"}
    ),
    frozenset({"martin luther king", "king", "martin luther king junior"}),
    frozenset({"columbus", "indigenous people", "columbus indigenous people"}),
    frozenset({"independence", "july 4th", "4th july", "july fourth", "fourth july", "july 4", "4 july"}),
    frozenset({"juneteenth", "juneteenth independence"}),
    frozenset({"memorial", "decoration"}),
    frozenset({"may", "early may bank", "first may bank"}),
    frozenset({"spring bank", "late may bank"}),
    frozenset({"late summer bank", "summer bank", "august bank"}),
    frozenset({"veterans", "armistice"}),
    frozenset({"easter", "easter sunday"}),
    frozenset({"christmas", "christmas 25 december"}),
    frozenset({"st stephens", "boxing"}),
    frozenset({"pentecost", "whit sunday"}),
    frozenset({"victoria", "may 24th"}),
    frozenset({"chinese new year", "lunar new year", "chinese lunar new year"}),
    frozenset({"diwali", "deepavali"}),
)
_SEASONS = frozenset(
    {"fall", "spring", "summer", "winter", "middle", "term", "reading", "study", "early", "late", "new"}
)
_CLOSE_ENOUGH = 86.0
"""Likeness of two names in percent (Levenshtein ratio) from which one is taken as a misspelling of the other."""
_SHORTEST_MISSPELT = 6


class NameFit(IntEnum):
    """How well two names fit; more is better."""

    NONE = 0
    PART = 1
    MISSPELT = 2
    OTHER_SORT = 3
    SAME_DAY = 4
    SAME_WORDS = 5


@lru_cache(maxsize=4096)
def normalize_words(text: str) -> str:
    """The words in lower case without punctuation, possessives or a leading article; for comparing, not for show."""
    text = re.sub(r"[’'`](?:s\b)?", "", text.casefold())
    words = re.findall(r"[^\W_]+", text)
    while words and words[0] in ("the", "a", "an", "your", "our", "my", "their"):
        words = words[1:]
    return " ".join(words)


@lru_cache(maxsize=4096)
def _core(name: str) -> str:
    words = [_SPELLINGS.get(word, word) for word in normalize_words(name).split()]
    return " ".join(word for word in " ".join(words).split() if word not in _EMPTY_WORDS)


@lru_cache(maxsize=4096)
def is_break(name: str) -> bool:
    """Whether the name is that of several days ("spring break"), not of one ("Labor Day")."""
    return not _BREAK_WORDS.isdisjoint(normalize_words(name).split())


def names_nothing(name: str) -> bool:
    """Whether the name only says that it is a day off ("the break", "holiday"), not which."""
    return not _core(name)


def compare_names(asked: str, offered: str) -> NameFit:
    """How well a name that was asked for fits one that a calendar offers.

    OTHER_SORT: the same name, but one is a break of several days and the other a day ("Thanksgiving" and
    "Thanksgiving break"). PART: every word that was asked for stands in the offered name.
    """
    if normalize_words(asked) == normalize_words(offered):
        return NameFit.SAME_WORDS
    left, right = _core(asked), _core(offered)
    if not left or not right:
        return NameFit.NONE
    if left == right or any(left in group and right in group for group in _SAME_DAY):
        return NameFit.SAME_DAY if is_break(asked) == is_break(offered) else NameFit.OTHER_SORT
    if set(left.split()) < set(right.split()) and not set(left.split()) <= _SEASONS:
        return NameFit.PART
    if len(left) >= _SHORTEST_MISSPELT and left[:1] == right[:1]:
        from rapidfuzz import fuzz

        if fuzz.ratio(left, right) >= _CLOSE_ENOUGH and _numbers(left) == _numbers(right):
            return NameFit.MISSPELT
    return NameFit.NONE


def _numbers(text: str) -> list[str]:
    return re.findall(r"\d+", text)


# Days that have the same date wherever they are kept; Western Easter by the Gregorian computus.
_FIXED = {
    "may": (5, 1),
    "new year": (1, 1), "new year eve": (12, 31), "groundhog": (2, 2), "valentine": (2, 14),
    "st valentine": (2, 14), "st patrick": (3, 17), "april fools": (4, 1), "earth": (4, 22),
    "halloween": (10, 31), "all saints": (11, 1), "guy fawkes": (11, 5), "christmas": (12, 25),
    "christmas eve": (12, 24), "boxing": (12, 26), "st stephens": (12, 26), "epiphany": (1, 6),
    "international women": (3, 8), "womens": (3, 8), "all souls": (11, 2), "pi": (3, 14),
    "international labor": (5, 1),
    "juneteenth": (6, 19),
}  # fmt: skip
_FROM_EASTER = {
    "easter": 0, "easter sunday": 0, "good friday": -2, "easter monday": 1, "palm sunday": -7,
    "ash wednesday": -46, "holy thursday": -3, "maundy thursday": -3, "shrove tuesday": -47,
    "mardi gras": -47, "easter saturday": -1, "holy saturday": -1, "ascension": 39, "pentecost": 49,
    "whit sunday": 49, "whit monday": 50, "pentecost monday": 50, "corpus christi": 60,
    "mothering sunday": -21,
}  # fmt: skip


def feast_day(name: str, year: int) -> date | None:
    """The day of a feast that has the same date in every region ("Christmas", "Good Friday"), or None."""
    if is_break(name):
        return None
    core = _core(name)
    if core in _FIXED:
        return date(year, *_FIXED[core])
    if core in _FROM_EASTER:
        from dateutil.easter import easter

        return easter(year) + timedelta(days=_FROM_EASTER[core])
    return None


def day_after_thanksgiving(name: str) -> bool:
    """Whether the name is that of the Friday after Thanksgiving."""
    return _core(name) == "black friday"
