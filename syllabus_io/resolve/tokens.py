"""Text to tokens: words, numbers, clock times and signs, each with its place and the classes it belongs to.

A class is a name in angle brackets ("<month>", "<weekday>") under which the rules know a token, with its value.
Typographic dashes, wide and no-break blanks, full-width digits and raised letters are read as their plain forms;
no character is added or dropped, so places in the tokens are places in the text.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from functools import lru_cache
from itertools import pairwise
from typing import ClassVar, Final

from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.words import (
    ABBREVIATIONS,
    CAPITAL_WORDS,
    CLASS_KINDS,
    COMMON_WORDS,
    DAY_PARTS,
    LETTER_DAYS,
    MONTHS,
    NUMBERS,
    ORDINALS,
    PATTERN_DAYS,
    PLURAL_WEEKDAYS,
    TENS,
    UNITS,
    WEEKDAYS,
    ZONES,
)

__all__ = [
    "BREAK",
    "NUMBER_CLASSES",
    "TOKEN_CLASSES",
    "UNKNOWN",
    "Lexicon",
    "Sort",
    "Token",
    "full_year",
    "plain_text",
]

#: The word of the token that stands for an empty line; no rule reaches across it.
BREAK: Final = "\n"
#: The word of a dash that opens a line, as in a list.
BULLET: Final = "•"

Classes = tuple[tuple[str, object], ...]

_WORD_TABLES: Final[Mapping[str, Mapping[str, object]]] = {
    "<month>": MONTHS,
    "<weekday>": WEEKDAYS,
    "<weekdays>": PLURAL_WEEKDAYS,
    "<numword>": NUMBERS,
    "<tens>": TENS,
    "<ordword>": ORDINALS,
    "<unit>": UNITS,
    "<classkind>": CLASS_KINDS,
    "<part>": DAY_PARTS,
    "<zone>": ZONES,
}
#: The classes of a row of digits.
NUMBER_CLASSES: Final = ("<num>", "<dd>", "<hh>", "<mm>", "<yy>", "<year>", "<hhmm>", "<0hhmm>")
_OTHER_CLASSES = ("<nth>", "<clock>", "<'yy>", "<ampm>", "<ap>", "<letterday>", "<pattern>", "<letter>")
#: Every class of a single token; any other slot of a rule is filled by rules.
TOKEN_CLASSES: Final = frozenset((*_WORD_TABLES, *NUMBER_CLASSES, *_OTHER_CLASSES))

_TOKEN = re.compile(
    r"(?P<nth>\d{1,3}(?:st|nd|rd|th|[ºª])(?![^\W_]))"
    r"|(?P<clock>(?<![\d:])[0-2]?\d:[0-5]\d(?::[0-5]\d)?(?![\d:]))"
    r"|(?P<num>\d+)"
    r"|(?P<ampm>(?<![^\W\d_])[ap](?:m|\.[ ]?m\b\.?)(?![^\W_]))"
    r"|(?P<yy>'\d\d(?!\w))"
    r"|(?P<word>[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<gap>\n[^\S\n]*\n\s*)"
    r"|(?P<sign>[^\s\w]|_)"
)
_PATTERN_RUN = re.compile(r"(?:MO|Mo|M|TU|Tu|TH|Th|T|WE|We|W|R|FR|Fr|F|SA|Sa|SU|Su)+")
_PATTERN_PART = re.compile(r"mo|m|tu|th|t|we|w|r|fr|f|sa|su")


def _plain_characters() -> dict[int, str]:
    table: dict[int, str] = {}
    for code in (
        *range(0xA0, 0x0250),
        *range(0x02B0, 0x02E5),
        *range(0x1D2C, 0x1D80),
        *range(0x2000, 0x2190),
        *range(0xFF01, 0xFF5F),
        0x3000,
    ):
        plain = unicodedata.normalize("NFKC", chr(code))
        if len(plain) == 1 and plain != chr(code) and plain.isascii():
            table[code] = plain
    for signs, plain in (
        ("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63\uff0d\u00ad", "-"),
        ("\u2018\u2019\u201b\u02bc\u2032\u0060\u00b4", "'"),
        ("\u201c\u201d\u201f\u2033", '"'),
        ("\u2044\u2215", "/"),
        ("\u200b\u200c\u200d\u2060\ufeff\t\x0b\x0c\r\x1c\x1d\x1e\x1f\x85", " "),
        ("\u2028", "\n"),
        ("ºª", "º"),
    ):
        table.update({ord(sign): plain for sign in signs})
    return table


_PLAIN = _plain_characters()


def plain_text(text: str) -> str:
    """The text with every typographic sign in its plain form, as long as it was."""
    return text if text.isascii() and "\r" not in text and "\t" not in text else text.translate(_PLAIN)


def full_year(two_digits: int) -> int:
    """The year two digits stand for, by the pivot of POSIX ``strptime`` %y: 69 to 99 are of the 1900s."""
    return two_digits + (1900 if two_digits >= 69 else 2000)


class Sort:
    """What rules may know a token by: its word, if a rule has it, and its classes. Tokens of one sort are alike to
    every rule; ``keys`` are the word and the names of the classes, in the order of the values."""

    __slots__ = ("keys", "number")
    _known: ClassVar[dict[tuple[str, ...], Sort]] = {}

    def __init__(self, keys: tuple[str, ...], number: int) -> None:
        self.keys = keys
        self.number = number

    @classmethod
    def of(cls, word: str, classes: Classes) -> Sort:
        """The sort of a word with these classes, the same object for the same keys."""
        keys = (word, *[name for name, _ in classes])
        known = cls._known.get(keys)
        if known is None:
            known = cls._known[keys] = Sort(keys, len(cls._known) + 1)
        return known


#: The sort of words that no rule knows.
UNKNOWN: Final = Sort((), 0)


class Token:
    """One word, number, clock time or sign. ``word`` is its plain lower-case form without the abbreviation's stop;
    ``values`` holds the values of its classes, with nothing in the place of the word itself."""

    __slots__ = ("end", "glued", "sort", "start", "values", "word")

    def __init__(self, word: str, start: int, end: int, glued: bool, entry: Entry) -> None:
        self.word = word
        self.start = start
        self.end = end
        self.glued = glued
        self.sort, self.values = entry

    def value(self, *classes: str) -> object:
        """The value of the first of these classes that the token has, None when it has none."""
        keys = self.sort.keys
        return next((self.values[keys.index(name)] for name in classes if name in keys), None)

    def __repr__(self) -> str:
        return f"Token({self.word!r}, {self.start}, {self.end})"


Entry = tuple[Sort, tuple[object, ...]]


def _entry(word: str, classes: Classes) -> Entry:
    return Sort.of(word, classes), (None, *[value for _, value in classes])


def _number_classes(digits: str) -> Classes:
    value = int(digits)
    found: list[tuple[str, object]] = [("<num>", value)]
    if len(digits) <= 2:
        if 1 <= value <= 31:
            found.append(("<dd>", value))
        if value <= 24:
            found.append(("<hh>", value))
        if len(digits) == 2:
            if value < 60:
                found.append(("<mm>", value))
            found.append(("<yy>", full_year(value)))
    elif value // 100 <= 24 and value % 100 < 60:
        found.append(("<hhmm>", (value // 100, value % 100)))
        if len(digits) == 4 and digits[0] == "0":
            found.append(("<0hhmm>", (value // 100, value % 100)))
    if len(digits) == 4 and 1900 <= value < 2200:
        found.append(("<year>", value))
    return tuple(found)


@lru_cache(maxsize=1024)
def _pattern_days(written: str) -> tuple[Weekday, ...]:
    """The days of MWF, TTh, TuTh and the like; empty when it is no such run of two days or more in order."""
    if len(written) > 12 or not _PATTERN_RUN.fullmatch(written):
        return ()
    days = tuple(PATTERN_DAYS[part] for part in _PATTERN_PART.findall(written.lower()))
    return days if len(days) > 1 and all(a < b for a, b in pairwise(days)) else ()


class Lexicon:
    """The words of the rules with their classes, from the word tables and from the word groups of the rules
    ("{to}": -, to, through). Words that no rule has are all alike."""

    def __init__(self, groups: Mapping[str, Iterable[str]], literals: Iterable[str]) -> None:
        grouped: dict[str, list[tuple[str, object]]] = {word: [] for word in literals}
        for name, words in groups.items():
            for word in words:
                grouped.setdefault(word, []).append((name, None))
        classes: dict[str, list[tuple[str, object]]] = {}
        for name, table in _WORD_TABLES.items():
            for word, value in table.items():
                classes.setdefault(word, []).append((name, value))
        self._grouped = {word: tuple(found) for word, found in grouped.items()}
        self._classes: dict[str, Classes] = {
            word: (*classes.get(word, ()), *self._grouped.get(word, ())) for word in classes.keys() | grouped.keys()
        }
        self._literals = frozenset(literals)
        self._entries: dict[str, Entry] = {word: self._entry(word, found) for word, found in self._classes.items()}

    def tokens(self, text: str) -> list[Token]:
        """The tokens of a text, left to right. Every place is a place in ``text``."""
        plain = plain_text(text)
        lower = plain.lower()
        if len(lower) != len(plain):  # a few capitals have a longer lower-case form
            lower = "".join(c.lower() if len(c.lower()) == 1 else c for c in plain)
        has_capitals = lower != plain
        found: list[Token] = []
        entries = self._entries
        end_before = -1
        for match in _TOKEN.finditer(lower):
            kind = match.lastgroup
            start, end = match.span()
            word = lower[start:end]
            if kind == "word":
                entry = entries.get(word, _NO_ENTRY)
                if end < len(lower) and lower[end] == "." and word in ABBREVIATIONS:
                    end += 1
                if has_capitals and (end - start <= 12):
                    entry = self._by_writing(plain[start:end], word, entry, lower, end)
                if start == end_before and word in ("a", "p") and found[-1].word[-1:].isdigit():
                    entry = self._entry(word, (*self._classes.get(word, ()), ("<ap>", word + "m")))
            elif kind == "num":
                entry = _number(word)
            elif kind == "sign":
                if end_before > start:  # the stop of an abbreviation, already taken
                    continue
                entry = entries.get(word, _NO_ENTRY)
                if word == "-" and _opens_line(lower, start):
                    word, entry = BULLET, _NO_ENTRY
            else:
                word, entry = _other(kind, word)
            found.append(Token(word, start, end, start == end_before, entry))
            end_before = end
        _settle_bullets(found, entries["-"])
        return found

    def _entry(self, word: str, classes: Classes) -> Entry:
        return _entry(word if word in self._literals else "", classes)

    def _by_writing(self, written: str, word: str, entry: Entry, lower: str, end: int) -> Entry:
        """The entry of a word in a text with capitals: letters may name weekdays, small words may not."""
        if written[0] == word[0]:
            small = word in CAPITAL_WORDS or (word in COMMON_WORDS and not lower[end : end + 2].strip()[:1].isdigit())
            return self._entry(word, self._grouped.get(word, ())) if small else entry
        classes = self._classes.get(word, ())
        days = _pattern_days(written)
        if days:
            return self._entry(word, (*classes, ("<pattern>", days)))
        if len(word) == 1:
            classes = (*classes, ("<letter>", written))
            if word in LETTER_DAYS:
                classes = (*classes, ("<letterday>", LETTER_DAYS[word]))
            return self._entry(word, classes)
        return entry


_NO_ENTRY: Final[Entry] = (UNKNOWN, ())


@lru_cache(maxsize=4096)
def _number(digits: str) -> Entry:
    return _entry("", _number_classes(digits)) if len(digits) <= 4 else _NO_ENTRY


@lru_cache(maxsize=4096)
def _other(kind: str | None, word: str) -> tuple[str, Entry]:
    """A number with its ending, a clock time, am or pm, a year with an apostrophe, or an empty line."""
    if kind == "nth":
        return word, _entry("", (("<nth>", int(re.sub(r"\D", "", word))),))
    if kind == "clock":
        hour, minute = word.split(":")[:2]
        if int(hour) > 24:
            return word, _NO_ENTRY
        return word, _entry("", (("<clock>", (int(hour), int(minute), hour[0] == "0")),))
    if kind == "ampm":
        half = word[0] + "m"
        return half, _entry(half, (("<ampm>", half),))
    if kind == "yy":
        return word, _entry("", (("<'yy>", full_year(int(word[1:]))),))
    return BREAK, _NO_ENTRY


def _opens_line(text: str, place: int) -> bool:
    before = place - 1
    while before >= 0 and text[before] == " ":
        before -= 1
    return before >= 0 and text[before] == "\n"


def _settle_bullets(tokens: list[Token], dash: Entry) -> None:
    """A single dash at the start of a line is a range that was broken there; several are a list."""
    bullets = [token for token in tokens if token.word == BULLET]
    if len(bullets) == 1:
        bullets[0].word = "-"
        bullets[0].sort, bullets[0].values = dash
