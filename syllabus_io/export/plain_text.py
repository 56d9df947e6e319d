"""Text for other programs: without signs that steer what shows it, and never a formula where a formula could run."""

from __future__ import annotations

import dataclasses
import re
from typing import Any

from syllabus_io.plan.standing import StandingPlan

__all__ = ["csv_field", "plain_plan", "shown_text"]

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


def plain_plan(plan: StandingPlan) -> StandingPlan:
    """The plan with every text in it as :func:`shown_text` gives it."""
    plain: StandingPlan = _plain(plan)
    return plain


def _plain(value: Any) -> Any:
    if type(value) is str:
        return shown_text(value)
    if isinstance(value, tuple):
        return tuple(_plain(one) for one in value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return dataclasses.replace(value, **{f.name: _plain(getattr(value, f.name)) for f in dataclasses.fields(value)})
    return value
