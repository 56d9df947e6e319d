"""A workbook while it is being written: cells, names, drop-downs and print set-up, the same way on every sheet.

A sheet's module has one function, ``write_<module>(book: Book)``, that adds the sheet, fills it and defines its names.
``write_term_dates`` returns the first free row under its tables (columns A to L): the settings follow there.
"""

from __future__ import annotations

import re
from copy import copy
from dataclasses import asdict, dataclass, field
from datetime import date, time
from typing import TYPE_CHECKING, Any, Literal, TypeAlias, cast

from syllabus_io.plan.records import Plan
from syllabus_io.workbook.layout import Name, column_letter, reference
from syllabus_io.workbook.pages import MARGINS, Sheaf, fitting_scale, last_row_to_print
from syllabus_io.workbook.printed_places import AsPrinted, PrintedPlace, is_file_link, printed_places
from syllabus_io.workbook.review_rows import ReviewRow, review_rows
from syllabus_io.workbook.shared_formulas import FilledCells
from syllabus_io.workbook.styles import Look, Pair, differential
from syllabus_io.workbook.text_fit import row_height

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["Book", "Formula", "Value", "WorkbookOptions", "clean_text", "row_height"]

_CELL_LENGTH = 32_767  # the most characters a cell holds
_CUT = " … (cut: too long for a cell)"
_NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_ESCAPE = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")


@dataclass(frozen=True, slots=True)
class WorkbookOptions:
    """How the workbook is to look. ``today`` is the day for which values are computed, None the day of writing;
    ``language`` is the code of that of the workbook's texts (ISO 639-1).
    ``pictures`` tells whether places in the outlines that are to be checked are shown as pictures, and ``as_printed``
    is what leads from the workbook back to the outlines."""

    paper: Literal["a4", "letter"] = "letter"
    look: str = "clear"
    student: str = ""
    today: date | None = None
    language: str = "en"
    pictures: bool = True
    as_printed: AsPrinted = field(default=AsPrinted(), repr=False, hash=False)


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula without its leading equals sign: nothing else ever becomes one."""

    text: str


Value: TypeAlias = str | int | float | date | time | Formula | None


@dataclass(slots=True)
class Book:
    """The workbook being written, with the plan it shows. Each sheet module adds its sheet to it."""

    workbook: Workbook
    plan: Plan
    options: WorkbookOptions
    look: Look
    today: date
    names: set[str] = field(default_factory=set)
    rows: tuple[ReviewRow, ...] = field(init=False)
    """What stands on Review, in order."""
    fixed: frozenset[str] = frozenset()
    """Ids of rows of Review whose dates are to stand as constants, whatever they hang on."""
    places: tuple[PrintedPlace, ...] = field(init=False)
    """The places of the outlines that are to be shown."""
    free_rows: int = 0
    """Rows of Review to be left free for the user, when more are needed than usual."""
    off_row_count: int = 0
    """Rows of the table of days off, known once Term dates is written."""
    start_grades_row: int = 0
    """The row of Start here from which each course's grade stands, known once that is written."""
    start_links_row: int = 0
    """The row of Start here where the links stand, known once that is written."""
    week_count: int = 0
    """Rows of the table of weeks, known once Term dates is written."""

    filled: dict[Worksheet, list[FilledCells]] = field(default_factory=dict)
    """Cells whose formula goes on down their column, by sheet: see :meth:`fill`."""

    _dressed: dict[str, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.rows = review_rows(self.plan)
        self.places = printed_places(self.plan, self.rows)

    def add_sheet(self, title: str, hidden: bool = False) -> Worksheet:
        """A new sheet after those already there, without grid lines."""
        from syllabus_io.workbook.plain_sheet import add_plain_sheet

        sheet = add_plain_sheet(self.workbook, title)
        sheet.sheet_view.showGridLines = False
        if hidden:
            sheet.sheet_state = "hidden"
        return sheet

    def name(self, name: str, sheet: str, first: str, last: str = "") -> None:
        """Defines a name for a cell or range: ``book.name(Name.FIRST_DAY, TERM, "C4")``."""
        from openpyxl.workbook.defined_name import DefinedName

        if name in self.names:
            raise ValueError(f"name defined twice: {name}")
        self.names.add(name)
        self.workbook.defined_names[name] = DefinedName(name, attr_text=reference(sheet, first, last))

    # --- cells ---

    def put(self, sheet: Worksheet, row: int, column: int, value: Value, style: str, typed: bool = False) -> Cell:
        """Writes a cell, rows and columns from 1. ``typed`` marks text from an outline or a person: it stays text
        even when the cell is edited later. Text never becomes a formula."""
        cell = cast("Cell", sheet.cell(row, column))
        self._dress(cell, style)
        if isinstance(value, Formula):
            cell.value = "=" + value.text
        elif isinstance(value, str):
            cell.value = clean_text(value)
            cell.data_type = "s"
            if typed:
                cell.quotePrefix = True
        elif value is not None:  # a cell hidden by a merge takes a style, but no value
            cell.value = value
        return cell

    def _dress(self, cell: Cell, style: str) -> None:
        """Gives a cell a named style; after its first use by a copy of what that made of it, which is much faster."""
        if style in self._dressed:
            cell._style = copy(self._dressed[style])  # type: ignore[attr-defined]  # what the style's name stands for
        else:
            cell.style = style
            self._dressed[style] = copy(cell._style)  # type: ignore[attr-defined]

    def fill(self, sheet: Worksheet, row: int, column: int, rows: int, formula: Formula, style: str = "hidden") -> None:
        """Writes a formula made for the first of some cells of a column into all of them, its references moved along.

        Only the first becomes a cell of the workbook while it is being written: a hidden sheet costs little so. Nothing
        else is to be put into the others.
        """
        self.put(sheet, row, column, formula, style)
        self.filled.setdefault(sheet, []).append(FilledCells(row, column, rows))

    def put_link(self, sheet: Worksheet, row: int, column: int, text: str, target: str, style: str = "link") -> Cell:
        """A cell whose text leads to another place of the workbook (``'Review'!A1``)."""
        from openpyxl.worksheet.hyperlink import Hyperlink

        cell = self.put(sheet, row, column, text, style)
        cell.hyperlink = Hyperlink(ref=cell.coordinate, location=target, display=clean_text(text))
        cell.style = style
        return cell

    def put_file_link(self, sheet: Worksheet, row: int, column: int, text: str, target: str) -> Cell:
        """A cell whose text opens a file; ``target`` is what :func:`~syllabus_io.workbook.printed_places.file_link`
        gives."""
        from openpyxl.worksheet.hyperlink import Hyperlink

        if not is_file_link(target):
            raise ValueError(f"no relative reference: {target}")
        cell = self.put(sheet, row, column, text, "link")
        cell.hyperlink = Hyperlink(ref=cell.coordinate, target=target, display=clean_text(text))
        cell.style = "link"
        return cell

    def head(self, sheet: Worksheet, title: str, how: str, columns: int) -> None:
        """The sheet's title in row 1 and one line on its use in row 2, over the given number of columns."""
        self.put(sheet, 1, 1, title, "title")
        sheet.row_dimensions[1].height = 28
        self.put(sheet, 2, 1, how, "note")
        sheet.merge_cells(start_row=2, start_column=1, end_row=2, end_column=columns)

    # --- drop-downs, conditional formats ---

    def offer(self, sheet: Worksheet, cells: str, source: str | tuple[str, ...], strict: bool = True) -> None:
        """A drop-down over cells: a name or reference, or the choices themselves. ``strict`` refuses other text."""
        from openpyxl.worksheet.datavalidation import DataValidation

        listed = source if isinstance(source, str) else '"' + ",".join(source) + '"'
        rule = DataValidation(type="list", formula1=listed, allow_blank=True, showErrorMessage=strict)
        rule.errorTitle, rule.error = "Not in the list", "Please choose one of the words in the list."
        rule.add(cells)
        sheet.add_data_validation(rule)

    def accept_dates(self, sheet: Worksheet, cells: str) -> None:
        """Refuses in cells what is no date between 1990 and 2100."""
        from openpyxl.worksheet.datavalidation import DataValidation

        rule = DataValidation(type="date", operator="between", formula1="32874", formula2="73415", allow_blank=True)
        rule.showErrorMessage = True
        rule.errorTitle, rule.error = "Not a date", "Please type a date, for example 2026-10-06."
        rule.add(cells)
        sheet.add_data_validation(rule)

    def accept_times(self, sheet: Worksheet, cells: str) -> None:
        """Refuses in cells what is no time of day."""
        from openpyxl.worksheet.datavalidation import DataValidation

        rule = DataValidation(type="time", operator="between", formula1="0", formula2="0.99999", allow_blank=True)
        rule.showErrorMessage = True
        rule.errorTitle, rule.error = "Not a time of day", "Please type a time, for example 10:15 or 14:00."
        rule.add(cells)
        sheet.add_data_validation(rule)

    def accept_numbers(self, sheet: Worksheet, cells: str, low: float, high: float) -> None:
        """Refuses in cells what is no number from ``low`` to ``high``."""
        from openpyxl.worksheet.datavalidation import DataValidation

        rule = DataValidation(
            type="decimal", operator="between", formula1=f"{low:g}", formula2=f"{high:g}", allow_blank=True
        )
        rule.showErrorMessage = True
        rule.errorTitle, rule.error = "Not a number that fits", f"Please type a number from {low:g} to {high:g}."
        rule.add(cells)
        sheet.add_data_validation(rule)

    def mark_where(self, sheet: Worksheet, cells: str, formula: str, pair: Pair, bold: bool = False) -> None:
        """Colours cells where a formula (without equals sign, written for the first of them) holds."""
        from openpyxl.formatting.rule import Rule

        rule = Rule(type="expression", formula=[formula], dxf=differential(pair, bold))
        sheet.conditional_formatting.add(cells, rule)

    def colour_courses(self, sheet: Worksheet, cells: str, first_cell: str) -> None:
        """Gives cells that hold the name of a course that course's colour."""
        if len(self.look.courses) < 2:
            return
        for number in range(1, len(self.plan.resolved.courses) + 1):
            formula = f'AND({first_cell}<>"",{first_cell}=INDEX({Name.COURSES},{number}))'
            self.mark_where(sheet, cells, formula, self.look.course(number))

    # --- form ---

    def set_widths(self, sheet: Worksheet, widths: list[float], hidden: tuple[int, ...] = ()) -> None:
        """Column widths in characters from column A on; ``hidden`` are column numbers that a person does not see."""
        for number, width in enumerate(widths, start=1):
            dimension = sheet.column_dimensions[column_letter(number)]
            dimension.width = width
            if number in hidden:
                dimension.hidden = True

    def set_print(
        self,
        sheet: Worksheet,
        area: str,
        landscape: bool = False,
        repeat_rows: str | None = None,
        one_page: bool = False,
        scale: int | None = None,
        breaks: tuple[int, ...] = (),
    ) -> None:
        """Paper, margins with room for punched holes (left; on top when landscape), one page wide, footer.

        ``one_page`` also makes it one page high. With ``breaks``, rows after which a page ends, the scale is worked
        out from the column widths, at most ``scale`` percent: some programs ignore breaks where they fit pages."""
        from openpyxl.worksheet.header_footer import HeaderFooterItem, _HeaderFooterPart
        from openpyxl.worksheet.pagebreak import Break
        from openpyxl.worksheet.properties import PageSetupProperties

        setup = sheet.page_setup
        setup.paperSize = {"letter": 1, "a4": 9}[self.options.paper]
        setup.orientation = "landscape" if landscape else "portrait"
        sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=not breaks)
        setup.fitToWidth, setup.fitToHeight = 1, int(one_page)
        if breaks:
            setup.scale = fitting_scale(sheet, Sheaf(self.options.paper, landscape), area, scale or 100)
            for row in breaks:
                sheet.row_breaks.append(Break(id=row))
        for side, inches in asdict(MARGINS[landscape]).items():
            setattr(sheet.page_margins, side, inches)
        sheet.print_area = area
        sheet.print_title_rows = repeat_rows
        left, right = (_HeaderFooterPart(words, "Arial,Regular", 8) for words in ("&A", "Page &P of &N"))
        sheet.oddFooter = HeaderFooterItem(left=left, right=right)

    def set_print_list(
        self, sheet: Worksheet, columns: int, filled: tuple[int, int], heading_row: int, landscape: bool = True
    ) -> int:
        """:meth:`set_print` for a list with spare rows: ``filled`` are the last row in use and the last of the list.

        Spare rows are printed as far as the last page in use reaches. Returns the last row that is printed."""
        sheaf = Sheaf(self.options.paper, landscape)
        last = last_row_to_print(sheet, sheaf, columns, filled, (heading_row, heading_row))
        area = f"A1:{column_letter(columns)}{last}"
        self.set_print(sheet, area, landscape=landscape, repeat_rows=f"{heading_row}:{heading_row}")
        return last


def clean_text(text: str) -> str:
    """Text fit for a cell: without characters that XML forbids, no longer than a cell holds, read back as written.

    >>> clean_text("a\\x00b")
    'a b'
    """
    text = _NOT_IN_XML.sub(" ", text.replace("\r\n", "\n").replace("\r", "\n"))
    text = _ESCAPE.sub("_x005F_", text)
    return text if len(text) <= _CELL_LENGTH else text[: _CELL_LENGTH - len(_CUT)] + _CUT
