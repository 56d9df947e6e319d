"""What a font's name and a letter's code tell: bold, italic, and the letter in plain form."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import NamedTuple

__all__ = ["Style", "font_style", "letter_of", "readable"]


class Style(NamedTuple):
    """What the name of a font tells."""

    bold: bool
    italic: bool


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


def letter_of(text: str, font: str | bytes) -> str | None:
    """The letter in plain form; None for one without meaning and for the pictures of icon fonts."""
    letter = readable(text)
    return None if letter is not None and ICON_FONT.search(str(font)) and letter not in BULLETS else letter
