"""What is printed on a PDF page: letters with their places, and straight rules."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

from syllabus_io.extract.pdf_interpret import bounded_layout
from syllabus_io.provenance import Box

__all__ = ["Glyph", "PageMarks", "Rule", "Style", "read_marks"]

RULE_THICKNESS_POINTS = 3.0
"""A filled bar no thicker than this is a rule, not a shaded area."""
SLANT_POINTS = 1.0
"""How far the two ends of a rule may differ across its direction."""
SHORTEST_RULE_POINTS = 2.0
DOUBLE_SHARE = 0.08
"""The same letter again within this share of its size is overprinting (imitated bold)."""


class Style(NamedTuple):
    """What the name of a font tells."""

    bold: bool
    italic: bool


class Glyph(NamedTuple):
    """One printed letter: its text (several letters for a ligature), box, baseline and size in points.

    ``struck`` letters are struck through: they are not text, but still show where rows and columns run.
    """

    text: str
    left: float
    top: float
    right: float
    bottom: float
    base: float
    size: float
    style: Style
    struck: bool = False


class Rule(NamedTuple):
    """A straight line along the page's edges: its place across its direction, its two ends, its thickness."""

    at: float
    start: float
    end: float
    thickness: float


@dataclass(frozen=True, slots=True)
class PageMarks:
    """Everything read from a page. ``turned`` is rotated text left out, ``nameless`` counts letters without a code."""

    number: int
    width: float
    height: float
    glyphs: tuple[Glyph, ...]
    across: tuple[Rule, ...]
    down: tuple[Rule, ...]
    turned: str = ""
    nameless: int = 0
    cut_short: bool = False
    has_picture: bool = False


def read_marks(page: Any) -> PageMarks:
    """The letters and rules of a pdfplumber page; letters outside the visible page are left out."""
    collector = _Collector(page)
    laid_out, cut_short = bounded_layout(page)
    collector.walk(laid_out)
    glyphs, across = _with_underscores(list(_without_doubles(collector.glyphs)), collector.across)
    return PageMarks(
        page.page_number,
        float(page.width),
        float(page.height),
        tuple(glyphs),
        tuple(across),
        tuple(collector.down),
        "".join(collector.turned).strip(),
        collector.nameless,
        cut_short,
        collector.has_picture,
    )


class _Collector:
    """Gathers glyphs and rules in one walk over the page's objects."""

    def __init__(self, page: Any) -> None:
        self.height = float(page.height)
        self.shift = float(page.mediabox[0])
        self.drop = float(page.mediabox[1])
        crop = page.cropbox
        self.visible = Box(float(crop[0]), float(crop[1]), float(crop[2]), float(crop[3]))
        self.glyphs: list[Glyph] = []
        self.across: list[Rule] = []
        self.down: list[Rule] = []
        self.turned: list[str] = []
        self.nameless = 0
        self.has_picture = False

    def walk(self, container: Iterable[Any]) -> None:
        from pdfminer.layout import LTChar, LTContainer, LTCurve, LTImage

        for item in container:
            if isinstance(item, LTChar):
                self.take_letter(item)
            elif isinstance(item, LTCurve):
                self.take_path(item)
            elif isinstance(item, LTContainer):
                self.walk(item)
            elif isinstance(item, LTImage):
                self.has_picture = True

    def take_letter(self, item: Any) -> None:
        text = readable(item.get_text())
        if text is None:
            self.nameless += 1
            return
        if ICON_FONT.search(str(item.fontname)) and text not in BULLETS:
            self.nameless += 1
            return
        if not item.upright:
            self.turned.append(text)
            return
        left, right = item.x0 + self.shift, item.x1 + self.shift
        top, bottom = self.flip(item.y1), self.flip(item.y0)
        middle, centre = (top + bottom) / 2, (left + right) / 2
        visible = self.visible
        if not (visible.left <= centre <= visible.right and visible.top <= middle <= visible.bottom):
            return
        self.glyphs.append(
            Glyph(text, left, top, right, bottom, self.flip(item.matrix[5]), item.size, font_style(item.fontname))
        )

    def flip(self, height: float) -> float:
        return self.height - height + self.drop

    def take_path(self, item: Any) -> None:
        if not (item.stroke or item.fill):
            return
        left, right = item.x0 + self.shift, item.x1 + self.shift
        top, bottom = self.flip(item.y1), self.flip(item.y0)
        width, height = right - left, bottom - top
        if height <= RULE_THICKNESS_POINTS and width > height:
            if width >= SHORTEST_RULE_POINTS:
                self.across.append(Rule((top + bottom) / 2, left, right, max(height, _pen(item))))
        elif width <= RULE_THICKNESS_POINTS:
            if height >= SHORTEST_RULE_POINTS:
                self.down.append(Rule((left + right) / 2, top, bottom, max(width, _pen(item))))
        elif item.stroke and _is_drawn(item):
            self.take_sides(item)

    def take_sides(self, item: Any) -> None:
        """The straight sides of a drawn outline that run along the page's edges."""
        pen = _pen(item)
        for (x1, y1), (x2, y2) in _sides(item.original_path or []):
            if abs(y1 - y2) <= SLANT_POINTS and abs(x1 - x2) > SHORTEST_RULE_POINTS:
                ends = sorted((x1 + self.shift, x2 + self.shift))
                self.across.append(Rule(self.flip((y1 + y2) / 2), ends[0], ends[1], pen))
            elif abs(x1 - x2) <= SLANT_POINTS and abs(y1 - y2) > SHORTEST_RULE_POINTS:
                ends = sorted((self.flip(y1), self.flip(y2)))
                self.down.append(Rule((x1 + x2) / 2 + self.shift, ends[0], ends[1], pen))


def _pen(item: Any) -> float:
    return float(item.linewidth or 0) if item.stroke else 0.0


def _is_drawn(item: Any) -> bool:
    """Whether the outline is visible: not drawn in white."""
    colour = item.stroking_color
    if isinstance(colour, (int, float)):
        colour = (colour,)
    if not isinstance(colour, (tuple, list)) or not all(isinstance(part, (int, float)) for part in colour):
        return True
    return not (len(colour) in (1, 3) and all(part >= 0.99 for part in colour))


def _sides(path: Iterable[Any]) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    start: tuple[float, float] | None = None
    here: tuple[float, float] | None = None
    for step in path:
        operator = step[0]
        if operator == "h":
            if here is not None and start is not None:
                yield here, start
            continue
        end = step[-1]
        if operator == "m":
            start = end
        elif operator == "l" and here is not None:
            yield here, end
        here = end


ICON_FONT = re.compile(r"awesome|marvosym|icons?\b|glyphicon|material-?icon|webdings", re.IGNORECASE)
"""Fonts of small pictures, whose letters mean nothing as letters."""
BULLETS = frozenset("•◦▪▫●○■□◆◇·∙‣➢✓❖→")
BOLD = re.compile(r"bold|black|heavy|semibd|demi|(?<![a-z])(?:bd|bf|cmbx|ecbx|sfbx|lmbx|cmssbx|bx)|(?:-|,)b(?:i|$)")
ITALIC = re.compile(r"ital|obli|slant|(?<![a-z])(?:it|sl|cmti|ecti|sfti|cmsl|cmmi|cmbxti|cmssi)|(?:-|,)b?i$")


@lru_cache(maxsize=1024)
def font_style(name: str | bytes) -> Style:
    """Bold and italic as the font's name tells, the names of TeX fonts included.

    >>> font_style("ABCDEF+CMBX10")
    Style(bold=True, italic=False)
    >>> font_style("TimesNewRomanPS-BoldItalicMT")
    Style(bold=True, italic=True)
    """
    plain = name.decode("latin-1") if isinstance(name, bytes) else str(name)
    plain = plain.rpartition("+")[2]
    spaced = re.sub(r"(?<=[a-z])(?=[A-Z])", "-", plain).lower()
    bold = bool(BOLD.search(spaced)) or bool(re.search(r"lmroman\w*-bold|-medi$", spaced))
    return Style(bold, bool(ITALIC.search(spaced)))


SYMBOLS = {
    0xF0B7: "•", 0xF0A7: "▪", 0xF0D8: "➢", 0xF0FC: "✓", 0xF0A8: "▪", 0xF076: "❖", 0xF06E: "■", 0xF06C: "●",
    0xF071: "□", 0xF0E0: "→", 0xF02D: "-", 0xF020: " ", 0xF0D7: "·", 0xF0E8: "➢", 0xF0BE: "—",
}  # fmt: skip
"""Private codes under which symbol fonts keep bullets and arrows (0xF000 plus the font's own code)."""
NAMELESS = re.compile(r"^\(cid:\d+\)$")
UNUSED_CODE = "(cid:127)"
"""A code without a letter of its own in the Windows encoding: it prints a bullet (ISO 32000-1, annex D.2, note 3)."""


@lru_cache(maxsize=4096)
def readable(text: str) -> str | None:
    """The letter in plain form, ligatures taken apart; None when the file gives it no meaning.

    >>> readable("\\ufb03")
    'ffi'
    >>> readable("(cid:17)") is None
    True
    """
    if NAMELESS.match(text):
        return "•" if text == UNUSED_CODE else None
    out = []
    for letter in text:
        code = ord(letter)
        if code in SYMBOLS:
            out.append(SYMBOLS[code])
        elif letter in "\t\n\r\x0b\x0c":
            out.append(" ")
        elif unicodedata.category(letter) in ("Co", "Cc", "Cn", "Cs") or letter == "\ufffd":
            continue
        elif 0xFB00 <= code <= 0xFB06 or 0x1D400 <= code <= 0x1D7FF:
            out.append(unicodedata.normalize("NFKC", letter))
        else:
            out.append(letter)
    return "".join(out) or None


def _without_doubles(glyphs: list[Glyph]) -> Iterator[Glyph]:
    """The letters, one that is printed again on top of itself only once."""
    seen: dict[tuple[str, int, int], list[Glyph]] = {}
    for glyph in glyphs:
        if glyph.text.isspace():
            yield glyph
            continue
        reach = max(DOUBLE_SHARE * glyph.size, 0.5)
        column, line = int(glyph.left / 4), int(glyph.base / 4)
        near = (
            other
            for x in (column - 1, column, column + 1)
            for y in (line - 1, line, line + 1)
            for other in seen.get((glyph.text, x, y), ())
        )
        if any(
            abs(other.left - glyph.left) < reach
            and abs(other.base - glyph.base) < reach
            and abs(other.size - glyph.size) < reach
            for other in near
        ):
            continue
        seen.setdefault((glyph.text, column, line), []).append(glyph)
        yield glyph


UNDERSCORE_SHARE = (0.15, 0.8)
"""A rule between two letters that is so long, as a share of their size, is a drawn underscore (TeX draws it so)."""


def _with_underscores(glyphs: list[Glyph], across: list[Rule]) -> tuple[list[Glyph], list[Rule]]:
    """The letters with drawn underscores among them, and the other rules."""
    rules = []
    for rule in across:
        before = None
        if rule.end - rule.start < 12:
            before = next((glyph for glyph in glyphs if _is_underscore_after(rule, glyph)), None)
        if before is not None and any(
            abs(glyph.base - before.base) < 0.5 and -0.6 <= glyph.left - rule.end <= 0.2 * before.size
            for glyph in glyphs
        ):
            height = before.base
            glyphs.append(before._replace(text="_", left=rule.start, right=rule.end, base=height))
        else:
            rules.append(rule)
    return glyphs, rules


def _is_underscore_after(rule: Rule, glyph: Glyph) -> bool:
    return (
        not glyph.text.isspace()
        and UNDERSCORE_SHARE[0] * glyph.size <= rule.end - rule.start <= UNDERSCORE_SHARE[1] * glyph.size
        and -0.5 <= rule.at - glyph.base <= 0.3 * glyph.size
        and -0.6 <= rule.start - glyph.right <= 0.2 * glyph.size
    )
