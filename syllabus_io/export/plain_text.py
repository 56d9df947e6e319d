"""Text for other programs: without signs that steer what shows it, and never a formula where a formula could run."""

from __future__ import annotations

import re

__all__ = ["csv_field", "shown_text"]

# Controls but for line ends and tabs, halves of pairs, characters that are none, marks that turn the direction of
# writing (Unicode Standard Annex 9, section 2), tags, and the mark of byte order. Joiners stay: some scripts need them.
_STEERING = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\ufff9-\ufffb"
    "\ufdd0-\ufdef\ufffe\uffff\ud800-\udfff\U000e0000-\U000e007f]"
)
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def shown_text(text: str) -> str:
    """The text with every sign that could steer a program that shows it turned into a blank; one kind of line end.

    >>> shown_text("due\\u202e 6 Oct")
    'due  6 Oct'
    """
    return _STEERING.sub(" ", text.replace("\r\n", "\n").replace("\r", "\n"))


def csv_field(text: str) -> str:
    """The text for a CSV field: with an apostrophe before it where a spreadsheet program would take it for a formula
    (common practice, no source); programs of some countries also take the wide forms of the signs.

    >>> csv_field("=1+1")
    "'=1+1"
    """
    text = shown_text(text)
    return f"'{text}" if text.lstrip(" \N{NO-BREAK SPACE}").startswith(_STARTS_A_FORMULA) else text
