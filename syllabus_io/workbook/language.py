"""The workbook's texts in another language: a catalogue of all texts, and the way back when a workbook is read.

The program works in English throughout. A finished workbook is translated as the last step, and what is read from one
that comes back is turned into English as the first, so that nothing between knows of languages. The catalogue of a
language is a file in ``languages`` with every text of the program, a text with places for words ({}) among them.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from syllabus_io.errors import BadSetting
from syllabus_io.workbook.cell_values import Restored, plain_text
from syllabus_io.workbook.layout import REVIEW, quote_sheet
from syllabus_io.workbook.layout_store import STORE
from syllabus_io.workbook.own_texts import change_references, change_texts

if TYPE_CHECKING:
    from openpyxl import Workbook

__all__ = ["ENGLISH", "LANGUAGES", "Language", "find_language", "language_of", "restore_workbook", "translate_workbook"]

ENGLISH = "en"
_FOLDER = Path(__file__).parent / "languages"
_SHEET_NAME_LENGTH = 31

LANGUAGES = (ENGLISH, *sorted(path.stem for path in _FOLDER.glob("*.json")))
"""The languages that there are, by their codes (ISO 639-1)."""


@dataclass(frozen=True)
class Language:
    """The texts of a language: ``texts`` and ``patterns`` by the English ones; ``choices`` are the English words among
    them that people choose from lists or that a state is told by."""

    code: str
    texts: Mapping[str, str] = field(default_factory=dict)
    choices: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        patterns = [text for text in self.texts if "{}" in text]
        there = [(_pattern(text), self.texts[text]) for text in patterns]
        back = [(_pattern(self.texts[text]), text) for text in patterns]
        object.__setattr__(self, "_there", there)
        object.__setattr__(self, "_back", back)
        object.__setattr__(self, "_originals", {text: own for own, text in self.texts.items()})

    _there: list[tuple[re.Pattern[str], str]] = field(init=False, repr=False)
    _back: list[tuple[re.Pattern[str], str]] = field(init=False, repr=False)
    _originals: dict[str, str] = field(init=False, repr=False)

    def text(self, english: str) -> str:
        """A text of the program in this language; one that the catalogue lacks stays as it is."""
        return self.texts.get(english) or _by_pattern(self._there, english, self.texts)

    def choice(self, english: str) -> str:
        """The same for a word that a person chooses; any other text stays as it is."""
        return self.texts[english] if english in self.choices else english

    def original(self, text: str) -> str:
        """The English text of one in this language; any other stays as it is."""
        return self._originals.get(text) or _by_pattern(self._back, text, self._originals)

    def original_choice(self, text: str) -> str:
        """The English word of a choice in this language; any other text stays as it is."""
        own = self._originals.get(text)
        return own if own is not None and own in self.choices else text

    def sheet(self, english: str) -> str:
        """The name of a sheet."""
        return self.text(english)[:_SHEET_NAME_LENGTH]


def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(re.escape(text).replace(re.escape("{}"), "(.+?)"), re.DOTALL)


def _by_pattern(patterns: list[tuple[re.Pattern[str], str]], text: str, words: Mapping[str, str]) -> str:
    """The text by the first pattern that it fits, the words in its places in the same language where they are known."""
    for pattern, template in patterns:
        if match := pattern.fullmatch(text):
            return template.format(*(words.get(word, word) for word in match.groups()))
    return text


def language_of(sheets: Collection[str]) -> Language | None:
    """The language in which the sheets of a workbook are named; None when they are of no workbook of this program."""
    for code in LANGUAGES:
        language = find_language(code)
        if language.sheet(REVIEW) in sheets:
            return language
    return None


@cache
def find_language(code: str) -> Language:
    """The language of a code. Raises BadSetting for one that there is not."""
    if code == ENGLISH:
        return Language(ENGLISH)
    if code not in LANGUAGES:
        raise BadSetting(f"language {code!r}", "is not among the languages", f"choose from {', '.join(LANGUAGES)}")
    catalogue = json.loads((_FOLDER / f"{code}.json").read_text(encoding="utf-8"))
    return Language(code, catalogue["texts"], frozenset(catalogue["choices"]))


def translate_workbook(workbook: Workbook, language: Language, own_sheets: Collection[str] = ()) -> None:
    """Translates every text of the program in a finished workbook, the names of its sheets included. ``own_sheets`` are
    those of the user's own, which stay as they are."""
    sheets = [sheet for sheet in workbook.worksheets if sheet.title != STORE and sheet.title not in own_sheets]
    names = {sheet.title: language.sheet(sheet.title) for sheet in sheets}
    references = {_reference(old): _reference(new) for old, new in names.items() if old != new}
    anywhere = re.compile("|".join(map(re.escape, sorted(references, key=len, reverse=True))) or "(?!)")

    def moved(formula: str) -> str:
        return anywhere.sub(lambda match: references[match[0]], formula)

    for sheet in sheets:
        change_texts(sheet, language.text, language.choice)
        change_references(sheet, moved)
    for name in workbook.defined_names.values():
        name.attr_text = moved(name.attr_text or "")
    for sheet in sheets:
        sheet.title = names[sheet.title]


def _reference(sheet: str) -> str:
    return f"{quote_sheet(sheet)}!"


def restore_workbook(workbook: Workbook, language: Language, sheets: Collection[str]) -> None:
    """Turns what was read from a workbook into English: the names of ``sheets`` (the program's own, in English), and
    the texts of the program on them. What a cell held stays beside its English text."""
    if language.code == ENGLISH:
        return
    own = {language.sheet(english): english for english in sheets}
    for sheet in workbook.worksheets:
        if sheet.title not in own:
            continue
        for cell in sheet._cells.values():
            _restore_cell(cell, language)
        sheet.title = own[sheet.title]


def _restore_cell(cell: Any, language: Language) -> None:
    if not isinstance(cell.value, str) or cell.data_type == "f":
        return
    held = plain_text(cell.value)
    english = language.original(held)
    if english != held:
        cell._value = Restored(english, language.original_choice(held))  # the library would make plain text of it
