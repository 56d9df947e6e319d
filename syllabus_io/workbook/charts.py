"""Charts that read without colour: bars with dark outlines, values beside them, words for those who cannot see."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from syllabus_io.workbook.drawings import worded_anchor

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["bar_chart", "column_chart", "place_chart"]

_INK = "262626"
_PALE = "BFBFBF"


def column_chart(title: str, values: str, labels: str) -> Any:
    """Standing bars on an axis of percents. ``values`` and ``labels`` are ranges with their sheet's name."""
    chart = _bars("col", title, values, labels)
    chart.gapWidth = 30
    return chart


def bar_chart(title: str, values: str, labels: str) -> Any:
    """Lying bars on an axis of percents, the first on top, each with its value."""
    from openpyxl.chart.label import DataLabelList

    chart = _bars("bar", title, values, labels)
    chart.gapWidth = 60
    chart.x_axis.scaling.orientation = "maxMin"
    chart.dataLabels = DataLabelList()
    chart.dataLabels.showVal = True
    for part in ("showSerName", "showCatName", "showLegendKey", "showPercent"):
        setattr(chart.dataLabels, part, False)
    return chart


def _bars(kind: str, title: str, values: str, labels: str) -> Any:
    from openpyxl.chart import BarChart
    from openpyxl.chart.data_source import AxDataSource, NumDataSource, NumRef, StrRef
    from openpyxl.chart.series import Series
    from openpyxl.chart.shapes import GraphicalProperties

    chart: Any = BarChart()
    series = Series(val=NumDataSource(numRef=NumRef(f=values)), cat=AxDataSource(strRef=StrRef(f=labels)))
    series.graphicalProperties = GraphicalProperties(solidFill=_PALE)
    series.graphicalProperties.line.solidFill = _INK
    chart.series.append(series)
    chart.type, chart.title, chart.legend, chart.style = kind, _heading(title), None, 1
    chart.visible_cells_only = False
    chart.y_axis.scaling.min = 0.0
    chart.y_axis.number_format = "0%"
    chart.y_axis.majorGridlines.spPr = GraphicalProperties()
    chart.y_axis.majorGridlines.spPr.line.solidFill = _PALE
    for axis in (chart.x_axis, chart.y_axis):
        axis.delete = False
    return chart


def _heading(text: str) -> Any:
    """A chart's title, no larger than the section headings around it."""
    from openpyxl.chart.text import RichText, Text
    from openpyxl.chart.title import Title
    from openpyxl.drawing.text import CharacterProperties, Paragraph, ParagraphProperties, RegularTextRun

    look = CharacterProperties(sz=1100, b=True)
    run = RegularTextRun(rPr=look, t=text)
    words = RichText(p=[Paragraph(pPr=ParagraphProperties(defRPr=look), r=[run])])
    return Title(tx=Text(rich=words), overlay=False)


def place_chart(sheet: Worksheet, chart: Any, cell: str, size: tuple[float, float], words: str) -> None:
    """Puts a chart with its top left corner in a cell; ``size`` is width and height in points, ``words`` what a screen
    reader says."""
    from openpyxl.utils.cell import coordinate_to_tuple

    chart.anchor = worded_anchor(*coordinate_to_tuple(cell), size, words)
    sheet.add_chart(chart)
