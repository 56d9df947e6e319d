"""``undo``: the version before the last update comes back."""

from __future__ import annotations

from syllabus_io.cli.workbook_options import UndoOptions
from syllabus_io.revise.files import restore_earlier

__all__ = ["undo"]


def undo(options: UndoOptions) -> int:
    """Brings the newest earlier version back. Returns 0; a fault is raised as a SyllabusError."""
    version, kept = restore_earlier(options.workbook)
    if not options.quiet:
        print(f"Brought back: {version.name}, now {options.workbook}")
        print(f"The workbook it replaced is kept as {kept.name}.")
    return 0
