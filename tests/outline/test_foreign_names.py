"""Names of months and weekdays in other languages, against the library ``dateparser``, which knows them all."""

from __future__ import annotations

import pytest
from dateparser import parse

from syllabus_io.outline.foreign_names import foreign_month, foreign_weekday
from syllabus_io.resolve.words import FOREIGN_MONTHS, FOREIGN_WEEKDAYS

MONTHS = [(language, word) for language, row in FOREIGN_MONTHS.items() for word in row.split()]
WEEKDAYS = [(language, word) for language, row in FOREIGN_WEEKDAYS.items() for word in row.split()]


@pytest.mark.parametrize(("language", "word"), MONTHS)
def test_a_month_has_the_number_the_library_gives_it(language: str, word: str) -> None:
    if word in ("juni", "juli"):  # the library reads these in English order too; they are June and July in German
        assert foreign_month(word) == {"juni": 6, "juli": 7}[word]
        return
    found = parse(f"15 {word} 2026", languages=[language])
    assert found is not None and foreign_month(word.upper()) == found.month


@pytest.mark.parametrize(("language", "word"), WEEKDAYS)
def test_a_weekday_is_the_one_the_library_gives(language: str, word: str) -> None:
    found = parse({"sonnabend": "samstag"}.get(word, word), languages=[language])  # another name of Saturday
    assert found is not None and foreign_weekday(word.capitalize()) == found.isoweekday()


def test_english_words_are_none() -> None:
    assert foreign_month("May") is None and foreign_weekday("Friday") is None
