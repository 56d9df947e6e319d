"""Names of months and weekdays in other languages, against the library ``dateparser``, which knows them all."""

from __future__ import annotations

import pytest
from dateparser import parse

from syllabus_io.resolve.words import (
    FOREIGN_MONTH_NUMBERS,
    FOREIGN_MONTHS,
    FOREIGN_WEEKDAY_NAMES,
    FOREIGN_WEEKDAYS,
)
from syllabus_io.resolve.words import (
    MONTHS as ENGLISH_MONTHS,
)
from syllabus_io.resolve.words import (
    WEEKDAYS as ENGLISH_WEEKDAYS,
)

MONTHS = [(language, word) for language, row in FOREIGN_MONTHS.items() for word in row.split()]
WEEKDAYS = [(language, word) for language, row in FOREIGN_WEEKDAYS.items() for word in row.split()]


@pytest.mark.parametrize(("language", "word"), MONTHS)
def test_a_month_has_the_number_the_library_gives_it(language: str, word: str) -> None:
    if word in ("juni", "juli"):  # the library reads these in English order too; they are June and July in German
        assert FOREIGN_MONTH_NUMBERS[word] == {"juni": 6, "juli": 7}[word]
        return
    found = parse(f"15 {word} 2026", languages=[language])
    assert found is not None and FOREIGN_MONTH_NUMBERS[word] == found.month


@pytest.mark.parametrize(("language", "word"), WEEKDAYS)
def test_a_weekday_is_the_one_the_library_gives(language: str, word: str) -> None:
    found = parse({"sonnabend": "samstag"}.get(word, word), languages=[language])  # another name of Saturday
    assert found is not None and FOREIGN_WEEKDAY_NAMES[word] == found.isoweekday()


def test_english_words_are_none() -> None:
    assert not ENGLISH_MONTHS.keys() & FOREIGN_MONTH_NUMBERS.keys()
    assert not ENGLISH_WEEKDAYS.keys() & FOREIGN_WEEKDAY_NAMES.keys()
