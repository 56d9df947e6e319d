"""The numbers and bullets that a word processor puts before list entries, worked out from the numbering part.

Numbers are counted as ECMA-376 part 1, sections 17.9.1 to 17.9.32 describes: instances of one abstract numbering go
on counting together unless an instance overrides the start; a level begins anew after a higher level has moved on.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from lxml import etree

from syllabus_io.extract.word_package import w
from syllabus_io.extract.word_styles import twentieths

__all__ = ["BULLET", "ListMark", "Numbering", "write_number"]

BULLET = "•"
LEVEL_COUNT = 9
MAX_STYLE_LINKS = 10

ONES = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
ORDINAL_WORDS = {
    "one": "first",
    "two": "second",
    "three": "third",
    "five": "fifth",
    "eight": "eighth",
    "nine": "ninth",
    "twelve": "twelfth",
}
ROMAN = (
    (1000, "m"),
    (900, "cm"),
    (500, "d"),
    (400, "cd"),
    (100, "c"),
    (90, "xc"),
    (50, "l"),
    (40, "xl"),
    (10, "x"),
    (9, "ix"),
    (5, "v"),
    (4, "iv"),
    (1, "i"),
)
FOOTNOTE_SIGNS = "*†‡§"


@dataclass(frozen=True, slots=True)
class ListMark:
    """What stands before a list entry. ``left`` is where its text begins, in points, None when not said.

    ``worded`` tells that the mark says more than a number ("Week 3:") and so belongs to the text.
    """

    text: str
    left: float | None = None
    worded: bool = False


@dataclass(slots=True)
class _Level:
    start: int = 1
    form: str = "decimal"
    pattern: str = ""
    restart_after: int | None = None
    legal: bool = False
    left: float | None = None


def write_number(number: int, form: str) -> str:
    """A number in one of the number formats of ECMA-376 part 1, section 17.18.59; unknown formats are decimal.

    >>> [write_number(28, form) for form in ("lowerLetter", "upperRoman", "ordinal", "cardinalText")]
    ['bb', 'XXVIII', '28th', 'Twenty-eight']
    """
    if form in ("lowerLetter", "upperLetter") and number > 0:
        letters = chr(ord("a") + (number - 1) % 26) * min((number - 1) // 26 + 1, 30)
        return letters.upper() if form == "upperLetter" else letters
    if form in ("lowerRoman", "upperRoman") and 0 < number < 4000:
        roman = _roman(number)
        return roman.upper() if form == "upperRoman" else roman
    if form == "decimalZero":
        return f"{number:02}"
    if form == "ordinal":
        return f"{number}{_ordinal_ending(number)}"
    if form in ("cardinalText", "ordinalText") and 0 <= number < 100:
        return _words(number, ordinal=form == "ordinalText").capitalize()
    if form == "chicago" and number > 0:
        return FOOTNOTE_SIGNS[(number - 1) % 4] * min((number - 1) // 4 + 1, 30)
    return "" if form == "none" else str(number)


def _roman(number: int) -> str:
    text = ""
    for value, sign in ROMAN:
        text += sign * (number // value)
        number %= value
    return text


def _ordinal_ending(number: int) -> str:
    if 10 < number % 100 < 14:
        return "th"
    return {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")


def _words(number: int, ordinal: bool) -> str:
    ten, one = divmod(number, 10)
    words = [ONES[number]] if number < 20 else [TENS[ten], *([ONES[one]] if one else [])]
    if ordinal:
        last = words[-1]
        words[-1] = ORDINAL_WORDS.get(last) or (last[:-1] + "ieth" if last.endswith("y") else last + "th")
    return "-".join(words)


class Numbering:
    """The lists of one document and how far each has counted. Ask for marks in reading order, once a paragraph."""

    def __init__(self, root: etree._Element | None) -> None:
        self._abstract: dict[str, etree._Element] = {}
        self._instances: dict[str, etree._Element] = {}
        self._counts: dict[str, list[int | None]] = {}
        self._started: set[str] = set()
        self._levels: dict[str, list[_Level]] = {}
        self._level_of_style: dict[str, int] = {}
        if root is None:
            return
        for abstract in root.findall(w("abstractNum")):
            self._abstract[abstract.get(w("abstractNumId")) or ""] = abstract
            for level in abstract.findall(w("lvl")):
                style = _value(level, "pStyle")
                if style:
                    self._level_of_style[style] = _number(level.get(w("ilvl")), 0)
        for instance in root.findall(w("num")):
            self._instances[instance.get(w("numId")) or ""] = instance

    def level_of_style(self, style: str) -> int:
        """The list level, from 0, that names this paragraph style as its own."""
        return self._level_of_style.get(style, 0)

    def next_mark(self, list_id: str, level: int) -> ListMark | None:
        """The mark of the next entry at a level (from 0) of a list; None when there is no such list."""
        instance = self._instances.get(list_id)
        if instance is None or not 0 <= level < LEVEL_COUNT:
            return None
        abstract_id = self._abstract_id(instance)
        levels = self._levels.get(list_id)
        if levels is None:
            levels = self._levels[list_id] = self._read_levels(instance, abstract_id)
        counts = self._counts.setdefault(abstract_id, [None] * LEVEL_COUNT)
        if list_id not in self._started:
            self._started.add(list_id)
            for index in _restarted_levels(instance):
                counts[index] = None
        _count_on(counts, levels, level)
        return _mark(levels, counts, level)

    def _abstract_id(self, instance: etree._Element) -> str:
        """The numbering an instance counts in; a numbering that only points to a style is followed to its list."""
        identifier = _value(instance, "abstractNumId") or ""
        for _ in range(MAX_STYLE_LINKS):
            abstract = self._abstract.get(identifier)
            link = None if abstract is None else _value(abstract, "numStyleLink")
            if not link:
                break
            owner = next((key for key, part in self._abstract.items() if _value(part, "styleLink") == link), None)
            if owner is None:
                break
            identifier = owner
        return identifier

    def _read_levels(self, instance: etree._Element, abstract_id: str) -> list[_Level]:
        levels = [_Level() for _ in range(LEVEL_COUNT)]
        abstract = self._abstract.get(abstract_id)
        for element in [] if abstract is None else abstract.findall(w("lvl")):
            _read_level(levels, element)
        for override in instance.findall(w("lvlOverride")):
            inner = override.find(w("lvl"))
            if inner is not None:
                _read_level(levels, inner)
            index = _number(override.get(w("ilvl")), -1)
            start = _value(override, "startOverride")
            if start is not None and 0 <= index < LEVEL_COUNT:
                levels[index].start = _number(start, 1)
        return levels


def _restarted_levels(instance: etree._Element) -> list[int]:
    return [
        index
        for override in instance.findall(w("lvlOverride"))
        if override.find(w("startOverride")) is not None
        and 0 <= (index := _number(override.get(w("ilvl")), -1)) < LEVEL_COUNT
    ]


def _read_level(levels: list[_Level], element: etree._Element) -> None:
    index = _number(element.get(w("ilvl")), -1)
    if not 0 <= index < LEVEL_COUNT:
        return
    restart = _value(element, "lvlRestart")
    indent = element.find(f"{w('pPr')}/{w('ind')}")
    levels[index] = _Level(
        start=_number(_value(element, "start"), 0),
        form=_value(element, "numFmt") or "decimal",
        pattern=_value(element, "lvlText") or "",
        restart_after=None if restart is None else _number(restart, 0),
        legal=element.find(w("isLgl")) is not None,
        left=None if indent is None else twentieths(indent.get(w("left")) or indent.get(w("start"))),
    )


def _count_on(counts: list[int | None], levels: list[_Level], level: int) -> None:
    """Move the level's count on by one and let the deeper levels begin anew."""
    before = counts[level]
    counts[level] = levels[level].start if before is None else before + 1
    for upper in range(level):
        if counts[upper] is None:
            counts[upper] = levels[upper].start
    for deeper in range(level + 1, LEVEL_COUNT):
        restart = levels[deeper].restart_after
        # 17.9.10: 0 never begins anew; n begins anew only after level n (from 1) or a higher one has moved on
        if restart is None or (restart != 0 and level + 1 <= restart):
            counts[deeper] = None


def _mark(levels: list[_Level], counts: list[int | None], level: int) -> ListMark:
    own = levels[level]
    if own.form == "bullet":
        return ListMark(BULLET, own.left)

    def number(match: re.Match[str]) -> str:
        index = int(match[1]) - 1
        count = counts[index]
        form = levels[index].form
        if own.legal and form not in ("none", "bullet"):
            form = "decimal"
        return write_number(levels[index].start if count is None else count, form)

    text = re.sub(r"%([1-9])", number, own.pattern).strip()
    words = re.sub(r"%[1-9]", "", own.pattern)
    return ListMark(text, own.left, worded=bool(re.search(r"[^\W\d_]{2}", words)))


def _value(element: etree._Element, child: str) -> str | None:
    found = element.find(w(child))
    value = None if found is None else found.get(w("val"))
    return None if value is None else str(value)


def _number(text: str | None, default: int) -> int:
    return int(text) if text and re.fullmatch(r"-?\d{1,9}", text) else default
