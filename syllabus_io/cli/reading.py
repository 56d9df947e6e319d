"""How the commands read outlines: with the cache unless it is declined, and with later stages loaded meanwhile,
and with a progress bar where somebody looks on."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

from syllabus_io.pipeline import ReadFiles, ReadingSettings, read_outlines

__all__ = ["load_resolving", "load_writing", "read_with_progress", "reading_settings"]


def reading_settings(no_cache: bool, meanwhile: Callable[[], object] | None = None) -> ReadingSettings:
    """The settings of a run."""
    if no_cache:
        return ReadingSettings(meanwhile=meanwhile)
    from syllabus_io.cache import open_cache

    return ReadingSettings(cache=open_cache(), meanwhile=meanwhile)


def read_with_progress(files: tuple[Path, ...], settings: ReadingSettings, quiet: bool) -> ReadFiles:
    """Every outline in the files; how far it has come is shown on a terminal."""
    if quiet or not sys.stderr.isatty():
        return read_outlines(files, settings=settings)
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn

    columns = (TextColumn("Reading outlines"), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("read", total=len(files))
        return read_outlines(files, lambda _: progress.advance(task), settings)


def load_resolving() -> None:
    """Loads what comes after reading, while other processes read."""
    import syllabus_io.resolve.outlines
    import syllabus_io.resolve.shared_calendar  # noqa: F401


def load_writing() -> None:
    """Loads what it takes to write a workbook too."""
    load_resolving()
    import syllabus_io.plan.build
    import syllabus_io.workbook.cached_values
    import syllabus_io.workbook.write  # noqa: F401
