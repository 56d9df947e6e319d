"""Charts that read without colour: dark lines and bars, values written beside them, words for those who cannot see."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["bar_chart", "line_chart", "place_chart"]

_POINT = 12_700  # English metric units (ECMA-376 part 1, 20.1.10.16)
_INK = "262626"
_PALE = "BFBFBF"


def line_chart(title: str, values: str, labels: str, low: float | None = 0.0, high: float | None = 1.0) -> Any:
    """A line with a dot at each value. ``values`` and ``labels`` are ranges with their sheet's name."""
    from openpyxl.chart import LineChart

    chart: Any = LineChart()
    series = _series(chart, title, values, labels, low, high)
    series.graphicalProperties.line.solidFill = _INK
    series.graphicalProperties.line.width = round(1.75 * _POINT)
    series.marker.symbol, series.marker.size = "circle", 6
    series.marker.graphicalProperties.solidFill = _INK
    series.marker.graphicalProperties.line.solidFill = _INK
    series.smooth = False
    return chart


def bar_chart(title: str, values: str, labels: str, low: float | None = 0.0, high: float | None = 1.0) -> Any:
    """Lying bars, the first on top, each with its value."""
    from openpyxl.chart import BarChart
    from openpyxl.chart.label import DataLabelList

    chart: Any = BarChart()
    chart.type, chart.gapWidth = "bar", 60
    series = _series(chart, title, values, labels, low, high)
    series.graphicalProperties.solidFill = _PALE
    series.graphicalProperties.line.solidFill = _INK
    chart.x_axis.scaling.orientation = "maxMin"
    chart.dataLabels = DataLabelList()
    chart.dataLabels.showVal = True
    for part in ("showSerName", "showCatName", "showLegendKey", "showPercent"):
        setattr(chart.dataLabels, part, False)
    return chart


def _series(chart: Any, title: str, values: str, labels: str, low: float | None, high: float | None) -> Any:
    from openpyxl.chart.data_source import AxDataSource, NumDataSource, NumRef, StrRef
    from openpyxl.chart.series import Series
    from openpyxl.chart.shapes import GraphicalProperties

    series = Series(val=NumDataSource(numRef=NumRef(f=values)), cat=AxDataSource(strRef=StrRef(f=labels)))
    series.graphicalProperties = GraphicalProperties()
    chart.series.append(series)
    chart.title, chart.legend, chart.style = title, None, 1
    chart.plot_visible_only = False
    chart.display_blanks = "gap"
    chart.y_axis.scaling.min, chart.y_axis.scaling.max = low, high
    chart.y_axis.number_format = "0%"
    chart.y_axis.majorGridlines.spPr = GraphicalProperties()
    chart.y_axis.majorGridlines.spPr.line.solidFill = _PALE
    for axis in (chart.x_axis, chart.y_axis):
        axis.delete = False
    return series


def place_chart(sheet: Worksheet, chart: Any, cell: str, size: tuple[float, float], words: str) -> None:
    """Puts a chart with its top left corner in a cell; ``size`` is width and height in points, ``words`` what a screen
    reader says."""
    from openpyxl.drawing.spreadsheet_drawing import AnchorMarker, OneCellAnchor
    from openpyxl.drawing.xdr import XDRPositiveSize2D
    from openpyxl.utils.cell import coordinate_to_tuple

    class Anchor(OneCellAnchor):
        """An anchor that gives the chart its words when the chart is put into it."""

        tagname = "oneCellAnchor"

        def __setattr__(self, name: str, value: Any) -> None:
            if name == "graphicFrame" and value is not None:
                value.nvGraphicFramePr.cNvPr.descr = words
            super().__setattr__(name, value)

    row, column = coordinate_to_tuple(cell)
    width, height = (round(points * _POINT) for points in size)
    chart.anchor = Anchor(_from=AnchorMarker(col=column - 1, row=row - 1), ext=XDRPositiveSize2D(width, height))
    sheet.add_chart(chart)
