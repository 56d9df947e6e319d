"""How text looks in a Word file: bold, italic, size, indents, outline level, resolved through styles.

Rules of ECMA-376 part 1: style inheritance in section 17.7.2, toggle properties in 17.7.3 (a property that is set
at two levels of styles cancels itself out), conditional formatting of tables in 17.7.6.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from lxml import etree

from syllabus_io.extract.word_package import w

__all__ = [
    "ParagraphFormat",
    "RunFormat",
    "Styles",
    "TableLook",
    "is_on",
    "twentieths",
]

DEFAULT_SIZE_POINTS = 10.0
"""Of a document without any setting: ECMA-376 part 1, section 17.3.2.38."""
MAX_STYLE_CHAIN = 30
UNITS = {"pt": 20.0, "in": 1440.0, "cm": 1440 / 2.54, "mm": 144 / 2.54, "pc": 240.0, "pi": 240.0}


@dataclass(frozen=True, slots=True)
class RunFormat:
    """How a run of text looks. ``size`` is in points; ``font`` is the name of its Latin face, may be empty."""

    bold: bool = False
    italic: bool = False
    underlined: bool = False
    struck: bool = False
    hidden: bool = False
    size: float = DEFAULT_SIZE_POINTS
    font: str = ""
    raised: bool = False


@dataclass(frozen=True, slots=True)
class ParagraphFormat:
    """How a paragraph stands. Lengths in points; ``outline_level`` 1 to 9 for headings, 0 for body text.

    ``list_id`` and ``list_level`` (from 0) name the numbering it takes part in; ``list_id`` is None outside lists.
    ``first_line`` is the shift of the first line against ``left``, negative for a hanging indent; both are None
    where nothing says so. ``left_is_own`` tells that ``left`` ranks above what the list level says.
    """

    style: str = ""
    style_name: str = ""
    outline_level: int = 0
    list_id: str | None = None
    list_level: int = 0
    left: float | None = None
    first_line: float | None = None
    left_is_own: bool = False
    before: float = 0.0
    after: float = 0.0
    new_page: bool = False


@dataclass(frozen=True, slots=True)
class TableLook:
    """What a table's style makes bold, and whether anything draws its lines."""

    bold_all: bool = False
    bold_first_row: bool = False
    bold_first_column: bool = False
    ruled: bool = False


def is_on(parent: etree._Element | None, name: str) -> bool | None:
    """Whether an on/off property is set: None when it is not mentioned (ECMA-376 part 1, section 17.17.4)."""
    child = None if parent is None else parent.find(w(name))
    if child is None:
        return None
    return (child.get(w("val")) or "true").lower() not in ("0", "false", "off", "none")


@lru_cache(maxsize=1024)
def twentieths(value: str | None) -> float | None:
    """A length in points, from twentieths of a point or, in strict files, from a number with its unit."""
    match = re.fullmatch(r"(-?\d+(?:\.\d+)?)(pt|in|cm|mm|pc|pi)?", (value or "").strip())
    if not match:
        return None
    return float(match[1]) * UNITS.get(match[2] or "", 1.0) / 20


def _half_points(value: str | None) -> float | None:
    """A type size in points, from half points or a number with its unit."""
    length = twentieths(value)
    if length is None:
        return None
    return length if (value or "").strip()[-1].isalpha() else length * 10


def _first(parent: etree._Element | None, *names: str) -> str | None:
    for name in names:
        value = None if parent is None else parent.get(w(name))
        if value is not None:
            return str(value)
    return None


class Styles:
    """The styles of one document."""

    def __init__(self, root: etree._Element | None) -> None:
        self._styles: dict[str, etree._Element] = {}
        self._defaults: dict[str, str] = {}
        self._run_default: etree._Element | None = None
        self._paragraph_default: etree._Element | None = None
        self._paragraph_cache: dict[str, ParagraphFormat] = {}
        self._run_cache: dict[tuple[str, str, bool], RunFormat] = {}
        if root is None:
            return
        self._run_default = root.find(f"{w('docDefaults')}/{w('rPrDefault')}/{w('rPr')}")
        self._paragraph_default = root.find(f"{w('docDefaults')}/{w('pPrDefault')}/{w('pPr')}")
        for style in root.findall(w("style")):
            identifier = style.get(w("styleId")) or ""
            self._styles.setdefault(identifier, style)
            if (style.get(w("default")) or "").lower() in ("1", "true", "on"):
                self._defaults.setdefault(style.get(w("type")) or "", identifier)

    def paragraph_style(self, properties: etree._Element | None) -> str:
        """The identifier of a paragraph's style, the default style where none is named."""
        named = None if properties is None else _first(properties.find(w("pStyle")), "val")
        return named if named in self._styles else self._defaults.get("paragraph", "")

    def paragraph(self, properties: etree._Element | None, level_of_style: Callable[[str], int]) -> ParagraphFormat:
        """How a paragraph with these direct properties stands; ``level_of_style`` names the list level a style owns."""
        style = self.paragraph_style(properties)
        form = self._paragraph_cache.get(style)
        if form is None:
            form = self._paragraph_cache[style] = self._styled_paragraph(style)
        if properties is not None:
            form = _with_direct(form, properties)
        return self._with_list(form, properties, self._chain(style), level_of_style)

    def _styled_paragraph(self, style: str) -> ParagraphFormat:
        """How a paragraph of a style stands by itself, its list left out."""
        chain = self._chain(style)
        layers = [found for part in chain if (found := part.find(w("pPr"))) is not None]
        if self._paragraph_default is not None:
            layers.append(self._paragraph_default)
        return ParagraphFormat(
            style=style,
            style_name=(_first(chain[0].find(w("name")), "val") or "") if chain else "",
            outline_level=_outline_level(layers) or 0,
            left=_length(layers, "ind", "left", "start"),
            first_line=_first_line(layers),
            before=_length(layers, "spacing", "before") or 0.0,
            after=_length(layers, "spacing", "after") or 0.0,
            new_page=next((on for layer in layers if (on := is_on(layer, "pageBreakBefore")) is not None), False),
        )

    def _with_list(
        self,
        form: ParagraphFormat,
        properties: etree._Element | None,
        chain: list[etree._Element],
        level_of_style: Callable[[str], int],
    ) -> ParagraphFormat:
        """The same format with the list it is in: from the paragraph itself, else from the nearest style with one."""
        direct = None if properties is None else properties.find(w("numPr"))
        number = None if direct is None else _first(direct.find(w("numId")), "val")
        level = None if direct is None else _first(direct.find(w("ilvl")), "val")
        if number is None:
            for style in chain:
                listed = style.find(f"{w('pPr')}/{w('numPr')}")
                number = None if listed is None else _first(listed.find(w("numId")), "val")
                if listed is not None and number is not None:
                    level = level or _first(listed.find(w("ilvl")), "val")
                    level = level or str(level_of_style(_first(style, "styleId") or ""))
                    break
        if number in (None, "0"):
            return form
        # a list named by the paragraph itself ranks above its style, one named by the style below it (17.7.2)
        own = direct is not None and _length([] if properties is None else [properties], "ind", "left", "start") is None
        level_number = int(level) if level and level.isdigit() else 0
        return replace(form, list_id=number, list_level=level_number, left_is_own=form.left is not None and not own)

    def run(self, properties: etree._Element | None, paragraph_style: str, bold_by_table: bool = False) -> RunFormat:
        """How a run with these direct properties looks in a paragraph of the named style."""
        character = None if properties is None else _first(properties.find(w("rStyle")), "val")
        key = (paragraph_style, character or "", bold_by_table)
        base = self._run_cache.get(key)
        if base is None:
            base = self._run_cache[key] = self._styled_run(*key)
        return base if properties is None or not len(properties) else _direct(base, properties)

    def _styled_run(self, paragraph_style: str, character_style: str, bold_by_table: bool) -> RunFormat:
        levels = [
            [found for part in self._chain(style) if (found := part.find(w("rPr"))) is not None]
            for style in (character_style, paragraph_style)
        ]
        default = [] if self._run_default is None else [self._run_default]

        def toggled(name: str, by_table: bool = False) -> bool:
            if default and is_on(default[0], name):
                return True
            states = [next((on for part in level if (on := is_on(part, name)) is not None), False) for level in levels]
            return (sum(states) + by_table) % 2 == 1

        flat = [part for level in levels for part in level] + default
        return RunFormat(
            bold=toggled("b", bold_by_table),
            italic=toggled("i"),
            underlined=next((on for part in flat if (on := is_on(part, "u")) is not None), False),
            struck=toggled("strike") or toggled("dstrike"),
            hidden=toggled("vanish"),
            size=next((size for part in flat if (size := _size(part)) is not None), DEFAULT_SIZE_POINTS),
            font=next((font for part in flat if (font := _font(part))), ""),
            raised=next((v for part in flat if (v := _first(part.find(w("vertAlign")), "val"))), "") == "superscript",
        )

    def table(self, properties: etree._Element | None) -> TableLook:
        """What the table's style and its own properties say about emphasis and lines."""
        named = None if properties is None else _first(properties.find(w("tblStyle")), "val")
        chain = self._chain(named if named in self._styles else self._defaults.get("table", ""))
        first_row, first_column = _look_flags(properties)
        ruled = _draws_lines(properties) or any(_draws_lines(style.find(w("tblPr"))) for style in chain)
        return TableLook(
            bold_all=any(is_on(style.find(w("rPr")), "b") for style in chain),
            bold_first_row=first_row and _bold_in(chain, "firstRow"),
            bold_first_column=first_column and _bold_in(chain, "firstCol"),
            ruled=ruled,
        )

    def _chain(self, identifier: str) -> list[etree._Element]:
        """The style and those it is based on, nearest first."""
        chain: list[etree._Element] = []
        while identifier in self._styles and len(chain) < MAX_STYLE_CHAIN:
            style = self._styles[identifier]
            chain.append(style)
            identifier = _first(style.find(w("basedOn")), "val") or ""
        return chain


def _with_direct(form: ParagraphFormat, properties: etree._Element) -> ParagraphFormat:
    """The format with what the paragraph's own properties say."""
    own = [properties]
    level, new_page = _outline_level(own), is_on(properties, "pageBreakBefore")
    left, first_line = _length(own, "ind", "left", "start"), _first_line(own)
    before, after = _length(own, "spacing", "before"), _length(own, "spacing", "after")
    return replace(
        form,
        outline_level=form.outline_level if level is None else level,
        left=form.left if left is None else left,
        first_line=form.first_line if first_line is None else first_line,
        before=form.before if before is None else before,
        after=form.after if after is None else after,
        new_page=form.new_page if new_page is None else new_page,
    )


def _direct(base: RunFormat, properties: etree._Element) -> RunFormat:
    """The format with the run's own properties, which stand absolutely."""

    def pick(name: str, before: bool) -> bool:
        on = is_on(properties, name)
        return before if on is None else on

    raised = _first(properties.find(w("vertAlign")), "val")
    struck = [is_on(properties, name) for name in ("strike", "dstrike")]
    return RunFormat(
        bold=pick("b", base.bold),
        italic=pick("i", base.italic),
        underlined=pick("u", base.underlined),
        struck=base.struck if struck == [None, None] else any(struck),
        hidden=pick("vanish", base.hidden),
        size=_size(properties) or base.size,
        font=_font(properties) or base.font,
        raised=base.raised if raised is None else raised == "superscript",
    )


def _size(properties: etree._Element) -> float | None:
    return _half_points(_first(properties.find(w("sz")), "val"))


def _font(properties: etree._Element) -> str:
    return _first(properties.find(w("rFonts")), "ascii", "hAnsi") or ""


def _outline_level(layers: list[etree._Element]) -> int | None:
    for layer in layers:
        value = _first(layer.find(w("outlineLvl")), "val")
        if value is not None and value.isdigit():
            return int(value) + 1 if int(value) < 9 else 0
    return None


def _length(layers: list[etree._Element], element: str, *attributes: str) -> float | None:
    for layer in layers:
        length = twentieths(_first(layer.find(w(element)), *attributes))
        if length is not None:
            return length
    return None


def _first_line(layers: list[etree._Element]) -> float | None:
    for layer in layers:
        indent = layer.find(w("ind"))
        hanging = twentieths(_first(indent, "hanging"))
        if hanging is not None:
            return -hanging
        first = twentieths(_first(indent, "firstLine"))
        if first is not None:
            return first
    return None


def _look_flags(properties: etree._Element | None) -> tuple[bool, bool]:
    """Whether the first row and the first column of a table take their special formatting."""
    look = None if properties is None else properties.find(w("tblLook"))
    if look is None:
        return False, False
    try:
        bits = int(_first(look, "val") or "0", 16)
    except ValueError:
        bits = 0

    def flag(name: str, bit: int) -> bool:
        value = _first(look, name)
        return bool(bits & bit) if value is None else value.lower() in ("1", "true", "on")

    return flag("firstRow", 0x0020), flag("firstColumn", 0x0080)


def _bold_in(chain: list[etree._Element], part: str) -> bool:
    for style in chain:
        for formatting in style.findall(w("tblStylePr")):
            if formatting.get(w("type")) == part:
                on = is_on(formatting.find(w("rPr")), "b")
                if on is not None:
                    return on
    return False


def _draws_lines(properties: etree._Element | None) -> bool:
    borders = None if properties is None else properties.find(w("tblBorders"))
    return borders is not None and any((border.get(w("val")) or "none") not in ("none", "nil") for border in borders)
