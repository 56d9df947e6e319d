"""Where a workbook keeps what it needs to be read back: names of sheets, and the table of what was kept."""

from __future__ import annotations

from syllabus_io.workbook.layout import Column, TableLayout

__all__ = ["KEPT", "KEPT_TABLE", "STORE"]

STORE = "Plan data"  # never shown: what was read from the outlines
KEPT = "Kept words"  # only when there is something on it

KEPT_TABLE = TableLayout(
    KEPT,
    4,
    (
        Column("sheet", "Sheet", 20),
        Column("where", "Where it stood", 34),
        Column("words", "What was typed, word for word", 60),
        Column("why", "Why it is here", 34),
    ),
)
"""What was typed and has no place in the plan, a row each."""
