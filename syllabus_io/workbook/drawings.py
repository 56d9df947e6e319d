"""Where charts and pictures stand on a sheet, with words for those who cannot see them."""

from __future__ import annotations

from typing import Any

__all__ = ["POINT", "worded_anchor"]

POINT = 12_700
"""English metric units in a point (ECMA-376 part 1, 20.1.10.16)."""


def worded_anchor(row: int, column: int, size: tuple[float, float], words: str, inset: float = 0.0) -> Any:
    """An anchor at the top left corner of a cell, ``inset`` points within it. ``size`` is width and height in points,
    ``words`` what a screen reader says."""
    from openpyxl.drawing.spreadsheet_drawing import AnchorMarker, OneCellAnchor
    from openpyxl.drawing.xdr import XDRPositiveSize2D

    class Anchor(OneCellAnchor):
        """An anchor that gives the chart or picture its words when it is put into it."""

        tagname = "oneCellAnchor"
        __attrs__, __elements__ = OneCellAnchor.__attrs__, OneCellAnchor.__elements__

        def __setattr__(self, name: str, value: Any) -> None:
            if value is not None and name in _FRAMES:
                getattr(value, _FRAMES[name]).cNvPr.descr = words
            super().__setattr__(name, value)

    width, height = (round(points * POINT) for points in size)
    offset = round(inset * POINT)
    corner = AnchorMarker(col=column - 1, colOff=offset, row=row - 1, rowOff=offset)
    return Anchor(_from=corner, ext=XDRPositiveSize2D(width, height))


_FRAMES = {"graphicFrame": "nvGraphicFramePr", "pic": "nvPicPr"}
