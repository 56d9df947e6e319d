"""What is printed on a PDF page: letters with their places, and straight rules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any, NamedTuple

from syllabus_io.extract.pdf_fonts import Style, font_style, letter_of, readable
from syllabus_io.extract.pdf_interpret import Letter, bounded_layout
from syllabus_io.provenance import Box

__all__ = ["Glyph", "PageMarks", "Rule", "Style", "font_style", "read_marks", "readable"]

RULE_THICKNESS_POINTS = 3.0
"""A filled bar no thicker than this is a rule, not a shaded area."""
SLANT_POINTS = 1.0
"""How far the two ends of a rule may differ across its direction."""
SHORTEST_RULE_POINTS = 2.0
DOUBLE_SHARE = 0.08
"""The same letter again within this share of its size is overprinting (imitated bold)."""


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
            if isinstance(item, Letter):
                self.take_letter(item)
            elif isinstance(item, LTChar):
                self.take_letter(
                    Letter(
                        letter_of(item.get_text(), item.fontname),
                        font_style(item.fontname),
                        item.upright,
                        *item.bbox,
                        item.matrix[5],
                        item.size,
                    )
                )
            elif isinstance(item, LTCurve):
                self.take_path(item)
            elif isinstance(item, LTContainer):
                self.walk(item)
            elif isinstance(item, LTImage):
                self.has_picture = True

    def take_letter(self, letter: Letter) -> None:
        text, style, upright, x0, y0, x1, y1, base, size = letter
        if text is None:
            self.nameless += 1
            return
        if not upright:
            self.turned.append(text)
            return
        height, drop = self.height, self.drop
        left, right = x0 + self.shift, x1 + self.shift
        top, bottom = height - y1 + drop, height - y0 + drop
        middle, centre = (top + bottom) / 2, (left + right) / 2
        visible = self.visible
        if visible[0] <= centre <= visible[2] and visible[1] <= middle <= visible[3]:
            self.glyphs.append(Glyph(text, left, top, right, bottom, height - base + drop, size, style))

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


def _without_doubles(glyphs: list[Glyph]) -> Iterator[Glyph]:
    """The letters, one that is printed again on top of itself only once."""
    seen: dict[str, dict[int, list[Glyph]]] = {}
    for glyph in glyphs:
        if glyph.text.isspace():
            yield glyph
            continue
        square = int(glyph.left / 4) * _SQUARES_ACROSS + int(glyph.base / 4)
        same = seen.setdefault(glyph.text, {})
        if not same or not _is_double(glyph, same, square):
            same.setdefault(square, []).append(glyph)
            yield glyph


_SQUARES_ACROSS = 1_000_003
"""More squares of four points than any page is high, so that each square has a number of its own."""
_NEAR = tuple(x * _SQUARES_ACROSS + y for x in (-1, 0, 1) for y in (-1, 0, 1))


def _is_double(glyph: Glyph, same: dict[int, list[Glyph]], square: int) -> bool:
    """Whether one of the same letters, by the square of the page it stands in, lies on top of this one."""
    left, base, size = glyph.left, glyph.base, glyph.size
    reach = max(DOUBLE_SHARE * size, 0.5)
    for step in _NEAR:
        for other in same.get(square + step, ()):
            if abs(other.left - left) < reach and abs(other.base - base) < reach and abs(other.size - size) < reach:
                return True
    return False


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
