"""A workbook in the engine that computes the stored values, to be edited there."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

from tests.workbook.sheets import Sheets

__all__ = ["open_model"]


def open_model(sheets: Sheets) -> Any:
    """The engine's model of a workbook, with what was typed."""
    import ironcalc

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "book.xlsx")
        path.write_bytes(sheets.packed())
        return ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
