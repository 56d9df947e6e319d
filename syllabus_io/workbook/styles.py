"""How a workbook looks: looks as data, a small set of named cell styles, and conditional formats.

Course colours are the palette of M. Okabe and K. Ito, "Color Universal Design" (2002, revised 2008), made to be told
apart with any common kind of colour vision. Every pair of text and background reaches a contrast of at least 4.5 to 1
(WCAG 2.2, success criterion 1.4.3); a test computes it. Nothing is told by colour alone: a word says the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from syllabus_io.errors import BadSetting

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.styles import NamedStyle
    from openpyxl.styles.differential import DifferentialStyle

__all__ = [
    "FACE",
    "LOOKS",
    "OKABE_ITO",
    "SIZE",
    "Look",
    "Pair",
    "contrast",
    "differential",
    "find_look",
    "readable_on",
    "register_styles",
]

FACE = "Arial"  # on every common system, or replaced by a face of the same widths
SIZE = 10

OKABE_ITO = ("56B4E9", "E69F00", "009E73", "F0E442", "CC79A7", "D55E00", "0072B2", "000000")
"""Okabe & Ito (2008): sky blue, orange, bluish green, yellow, reddish purple, vermilion, blue, black."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Text colour on a background, both RRGGBB; ``fill`` None is the paper."""

    ink: str
    fill: str | None = None


@dataclass(frozen=True, slots=True)
class Look:
    """A look, as data. ``line`` rules cells, ``strong_line`` rules headings and frames inputs."""

    name: str
    about: str
    title: Pair
    note: Pair
    heading: Pair
    entry: Pair
    warning: Pair
    good: Pair
    quiet: Pair
    link: Pair
    line: str
    strong_line: str
    courses: tuple[Pair, ...]

    def pairs(self) -> Iterator[tuple[str, Pair]]:
        """Every pair of text and background in use, with its purpose."""
        for purpose in ("title", "note", "heading", "entry", "warning", "good", "quiet", "link"):
            yield purpose, getattr(self, purpose)
        for number, pair in enumerate(self.courses, start=1):
            yield f"course {number}", pair

    def course(self, number: int) -> Pair:
        """The colours of a course, numbered from 1; they begin anew when there are more courses than colours."""
        return self.courses[(number - 1) % len(self.courses)]


def contrast(pair: Pair) -> float:
    """The contrast ratio of a pair, 1 to 21, as WCAG 2.2 defines it."""
    light, dark = sorted((_luminance(pair.ink), _luminance(pair.fill or "FFFFFF")), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = (int(colour[start : start + 2], 16) / 255 for start in (0, 2, 4))
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def readable_on(fill: str) -> Pair:
    """The background with black or white text, whichever reads better."""
    return max((Pair("000000", fill), Pair("FFFFFF", fill)), key=contrast)


LOOKS = (
    Look(
        name="clear",
        about="quiet colours, one for each course",
        title=Pair("12365B"),
        note=Pair("595959"),
        heading=Pair("FFFFFF", "12365B"),
        entry=Pair("000000", "FFF7DC"),
        warning=Pair("7A2E00", "FDE7D6"),
        good=Pair("0B4F3A", "E3F3EC"),
        quiet=Pair("595959", "F4F5F7"),
        link=Pair("0B5394"),
        line="C9CED6",
        strong_line="8A94A3",
        courses=tuple(readable_on(colour) for colour in OKABE_ITO[:7]),
    ),
    Look(
        name="warm",
        about="brown on cream, light headings",
        title=Pair("6B2D12"),
        note=Pair("5E554D"),
        heading=Pair("3B1F0E", "F0DEC8"),
        entry=Pair("000000", "EAF4EC"),
        warning=Pair("8A1C1C", "FBE3E0"),
        good=Pair("1D4D2B", "E4F1E2"),
        quiet=Pair("5E554D", "F5F1EC"),
        link=Pair("1A4E8A"),
        line="D8CCBE",
        strong_line="9C8468",
        courses=tuple(readable_on(colour) for colour in (*OKABE_ITO[1:7], OKABE_ITO[0])),
    ),
    Look(
        name="plain",
        about="black on white, saves ink",
        title=Pair("000000"),
        note=Pair("404040"),
        heading=Pair("000000"),
        entry=Pair("000000"),
        warning=Pair("000000"),
        good=Pair("000000"),
        quiet=Pair("404040"),
        link=Pair("000000"),
        line="BFBFBF",
        strong_line="595959",
        courses=(Pair("000000"),),
    ),
)


def find_look(name: str) -> Look:
    """The look of that name. Raises BadSetting when there is none."""
    for look in LOOKS:
        if look.name == name.strip().lower():
            return look
    known = " or ".join(f"{look.name} ({look.about})" for look in LOOKS)
    raise BadSetting(f"look {name!r}", "there is no such look", f"choose {known}")


# --- named cell styles ----------------------------------------------------------------------------------

DATE = "ddd d mmm yyyy"  # the month as a word: no order of day and month can be mistaken
CLOCK = {"letter": "h:mm AM/PM", "a4": "hh:mm"}
FORMATS = {
    "date": DATE,
    "date_short": "ddd d mmm",
    "days": '0;-0;"today"',
    "number": "0.##",
    "whole": "0",
    "percent": "0%",
    "percent_fine": "0.0%",
    "text": "@",
}


@dataclass(frozen=True, slots=True)
class _Form:
    """What sets a named style apart from plain text."""

    pair: str = ""
    size: float = SIZE
    bold: bool = False
    italic: bool = False
    underline: bool = False
    format: str = "General"
    horizontal: str = "left"
    vertical: str = "top"
    wrap: bool = True
    border: str = ""  # "", "line" around, "under", "under_thin", "entry"
    unlocked: bool = False


_FORMS = {
    "title": _Form("title", size=18, bold=True, vertical="center", wrap=False),
    "section": _Form("title", size=12, bold=True, vertical="bottom", wrap=False, border="under"),
    "note": _Form("note"),
    "label": _Form(bold=True),
    "heading": _Form("heading", bold=True, vertical="center", border="line"),
    "heading_centre": _Form("heading", bold=True, vertical="center", horizontal="center", border="line"),
    "text": _Form(border="line"),
    "free": _Form(),
    "line": _Form(wrap=False),
    "line_label": _Form(bold=True, wrap=False),
    "centre": _Form(border="line", horizontal="center"),
    "strong": _Form(border="line", bold=True),
    "date": _Form(border="line", format="date"),
    "date_short": _Form(border="line", format="date_short"),
    "time": _Form(border="line", format="time", horizontal="right"),
    "whole_centre": _Form(border="line", format="whole", horizontal="center"),
    "left_days": _Form(border="line", format="days", horizontal="center"),
    "percent_centre": _Form(border="line", format="percent", horizontal="center"),
    "percent_fine_centre": _Form(border="line", format="percent_fine", horizontal="center"),
    "whole": _Form(border="line", format="whole", horizontal="right"),
    "number": _Form(border="line", format="number", horizontal="right"),
    "number_left": _Form(border="line", format="number"),
    "percent": _Form(border="line", format="percent", horizontal="right"),
    "percent_fine_left": _Form(border="line", bold=True, format="percent_fine"),
    "free_date": _Form(bold=True, format="date"),
    "percent_fine": _Form(border="line", format="percent_fine", horizontal="right"),
    "big": _Form("title", size=14, bold=True, format="percent_fine", horizontal="left"),
    "points": _Form("title", bold=True, format="0.00##", horizontal="right", border="line"),
    "count": _Form("title", size=14, bold=True, format="whole", horizontal="left", wrap=False),
    "figure": _Form("title", size=12, bold=True, format="percent_fine", horizontal="left"),
    "link": _Form("link", underline=True, border="line"),
    "free_link": _Form("link", underline=True),
    "warning": _Form("warning", bold=True, border="line"),
    "good": _Form("good", border="line"),
    "quiet": _Form("quiet", border="line"),
    "doubt": _Form("warning", bold=True),
    "small": _Form(size=7, border="line"),
    "small_head": _Form(size=8, bold=True, border="line", vertical="center", wrap=False),
    "small_day": _Form("quiet", size=7.5, bold=True, border="line", vertical="center", wrap=False),
    "small_time": _Form(size=8, border="line", format="time", horizontal="right", vertical="top"),
    "small_note": _Form("note", size=8),
    "small_task": _Form(size=8.5, border="line"),
    "small_line": _Form(size=8, border="under_thin", vertical="bottom", wrap=False),
    "entry_line": _Form(border="under_thin", vertical="bottom", wrap=False, unlocked=True),
    "month": _Form("title", size=18, bold=True, format="mmmm yyyy", vertical="center", wrap=False),
    "hidden": _Form("note"),
    "hidden_date": _Form("note", format="date"),
    "entry_text": _Form("entry", border="entry", unlocked=True),
    "entry_centre": _Form("entry", border="entry", horizontal="center", unlocked=True),
    "entry_date": _Form("entry", border="entry", format="date", unlocked=True),
    "entry_time": _Form("entry", border="entry", format="time", horizontal="right", unlocked=True),
    "entry_whole": _Form("entry", border="entry", format="whole", horizontal="right", unlocked=True),
    "entry_number": _Form("entry", border="entry", format="number", horizontal="right", unlocked=True),
    "entry_percent": _Form("entry", border="entry", format="percent", horizontal="right", unlocked=True),
    "entry_percent_fine": _Form("entry", border="entry", format="percent_fine", horizontal="right", unlocked=True),
}
"""Cells that a person fills in are the ``entry_`` styles: tinted where there is colour, firmly framed everywhere."""


def register_styles(workbook: Workbook, look: Look, paper: str) -> None:
    """Adds the named styles to a workbook; afterwards ``cell.style = "entry_date"`` dresses a cell."""
    from openpyxl.styles import Font
    from openpyxl.utils.indexed_list import IndexedList

    face = Font(name=FACE, size=SIZE)
    workbook._fonts = IndexedList([face])  # type: ignore[attr-defined]  # the face of cells without a style
    workbook._named_styles["Normal"].font = face  # type: ignore[attr-defined]  # and the measure of column widths
    for name, form in _FORMS.items():
        workbook.add_named_style(_named_style(name, form, look, CLOCK[paper]))


def _named_style(name: str, form: _Form, look: Look, clock: str) -> NamedStyle:
    from openpyxl.styles import Alignment, Font, NamedStyle, PatternFill, Protection

    pair: Pair = getattr(look, form.pair) if form.pair else Pair("000000")
    style = NamedStyle(
        name=name,
        font=Font(
            name=FACE,
            size=form.size,
            bold=form.bold,
            italic=form.italic,
            underline="single" if form.underline else None,
            color="FF" + pair.ink,
        ),
        alignment=Alignment(horizontal=form.horizontal, vertical=form.vertical, wrap_text=form.wrap),
        protection=Protection(locked=not form.unlocked),
    )
    style.number_format = clock if form.format == "time" else FORMATS.get(form.format, form.format)
    if pair.fill:
        style.fill = PatternFill("solid", start_color="FF" + pair.fill, end_color="FF" + pair.fill)
    if form.border:
        style.border = _border(form.border, look)
    return style


def _border(kind: str, look: Look):  # type: ignore[no-untyped-def]  # Border is imported late
    from openpyxl.styles import Border, Side

    if kind == "under_thin":
        return Border(bottom=Side("thin", color="FF" + look.line))
    if kind == "under":
        return Border(bottom=Side("medium", color="FF" + look.strong_line))
    colour = look.strong_line if kind == "entry" else look.line
    side = Side("thin", color="FF" + colour)
    return Border(left=side, right=side, top=side, bottom=side)


def differential(pair: Pair, bold: bool = False) -> DifferentialStyle:
    """The look of a conditional format: text and background of a pair."""
    from openpyxl.styles import Font, PatternFill
    from openpyxl.styles.differential import DifferentialStyle

    fill = PatternFill("solid", start_color="FF" + pair.fill, end_color="FF" + pair.fill) if pair.fill else None
    return DifferentialStyle(font=Font(color="FF" + pair.ink, bold=bold or None), fill=fill)
