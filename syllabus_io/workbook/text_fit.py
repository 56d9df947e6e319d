"""How much room text takes: row heights are set from it, since not every program adjusts them when a file is opened."""

from __future__ import annotations

import math

__all__ = ["count_lines", "row_height", "text_width"]

# Widths of ASCII 32 to 126 in thousandths of the type size, of the face that Arial and its replacements are drawn to
# (Adobe's published metrics of Helvetica, typed from memory; a test holds them against another copy of the table).
_WIDTHS = (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
)  # fmt: skip
_DIGIT = 556
_WIDE = 1000  # scripts written in squares
_BOLD = 1.08
_NARROWEST = 525 / 556  # some programs round a digit of 7.4 pixels to 7, and make columns narrower
_PADDING = 0.9  # characters of a column's width that stay free at its sides
_LINE_POINTS = 12.6  # a line of 10 points
_LEAST = 16.0
_MOST = 409.0  # the highest row the file format allows, in points
_USUAL_SIZE = 10.0


def text_width(text: str, bold: bool = False) -> float:
    """The width of a line of text in digits: the unit in which columns are measured."""
    total = sum(_character(character) for character in text)
    return total * (_BOLD if bold else 1.0) / _DIGIT


def _character(character: str) -> int:
    code = ord(character)
    if 32 <= code <= 126:
        return _WIDTHS[code - 32]
    return _WIDE if code >= 0x2E80 or code in (0x2014, 0x2026) else 611


def count_lines(text: str, width: float, bold: bool = False) -> int:
    """How many lines the text takes in a column of that width, wrapped between words, long words broken."""
    room = max(width * _NARROWEST - _PADDING, 1.0)
    return sum(_lines_of_paragraph(paragraph, room, bold) for paragraph in text.split("\n"))


def _lines_of_paragraph(paragraph: str, room: float, bold: bool) -> int:
    lines, used = 1, 0.0
    space = text_width(" ", bold)
    for word in paragraph.split(" "):
        own = text_width(word, bold)
        if used and used + space + own > room:
            lines, used = lines + 1, 0.0
        if own > room:
            lines += math.ceil(own / room) - 1
            own %= room
        used += own + (space if used else 0.0)
    return lines


def row_height(
    texts: list[tuple[str, float]], size: float = _USUAL_SIZE, least: float = _LEAST, bold: bool = False
) -> float:
    """The height in points of a row that shows each text wrapped in a column of the given width in characters."""
    lines = max([1, *(count_lines(text, width * _USUAL_SIZE / size, bold) for text, width in texts)])
    return min(max(least, lines * _LINE_POINTS * size / _USUAL_SIZE + 3.5), _MOST)
