"""Sheets of the user's own, carried over from the old workbook into the new one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from copy import copy
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["copy_sheets"]

_NAME_LENGTH = 31  # the longest sheet name the file format allows (ECMA-376 part 1, 18.2.19)


def copy_sheets(source: Workbook, titles: Iterable[str], target: Workbook) -> Mapping[str, str]:
    """Copies sheets with contents, looks, widths, joined cells, rules, comments, pictures and charts; returns the name
    each got, which differs where the new workbook has a sheet of that name."""
    names: dict[str, str] = {}
    for title in titles:
        sheet = target.create_sheet(_free_name(title, target))
        names[title] = sheet.title
        _copy_sheet(source[title], sheet)
    return names


def _free_name(title: str, target: Workbook) -> str:
    taken = {name.casefold() for name in target.sheetnames}
    name, number = title, 1
    while name.casefold() in taken:
        number += 1
        tail = f" ({number})"
        name = title[: _NAME_LENGTH - len(tail)] + tail
    return name


def _copy_sheet(source: Worksheet, target: Worksheet) -> None:
    for line in source.iter_rows():
        for cell in line:
            if cell.value is not None or cell.has_style:
                _copy_cell(cell, target[cell.coordinate])
    for merged in source.merged_cells.ranges:
        target.merge_cells(str(merged))
    for letter, dimension in source.column_dimensions.items():
        target.column_dimensions[letter].width = dimension.width
        target.column_dimensions[letter].hidden = dimension.hidden
    for row, height in source.row_dimensions.items():
        target.row_dimensions[row].height = height.height
        target.row_dimensions[row].hidden = height.hidden
    for rules in source.conditional_formatting:
        for rule in rules.rules:
            target.conditional_formatting.add(str(rules.sqref), copy(rule))
    for validation in source.data_validations.dataValidation:
        target.add_data_validation(copy(validation))
    for part in ("_charts", "_images"):
        setattr(target, part, list(getattr(source, part, [])))
    target.freeze_panes = source.freeze_panes
    target.sheet_state = source.sheet_state
    target.sheet_properties.tabColor = copy(source.sheet_properties.tabColor)
    target.sheet_view.showGridLines = source.sheet_view.showGridLines
    target.page_setup.orientation = source.page_setup.orientation
    target.page_setup.paperSize = source.page_setup.paperSize
    if source.print_area:
        target.print_area = source.print_area


def _copy_cell(cell: Any, twin: Any) -> None:
    twin.value = cell.value
    if isinstance(cell.value, str) and cell.data_type == "s":
        twin.data_type = "s"
    if cell.has_style:
        for part in ("font", "fill", "border", "alignment", "protection"):
            setattr(twin, part, copy(getattr(cell, part)))
        twin.number_format, twin.quotePrefix = cell.number_format, cell.quotePrefix
    for part in ("comment", "hyperlink"):
        if getattr(cell, part, None):
            setattr(twin, part, copy(getattr(cell, part)))
