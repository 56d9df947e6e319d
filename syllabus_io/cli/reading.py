"""How the commands read outlines: with the cache unless it is declined, and with later stages loaded meanwhile."""

from __future__ import annotations

from collections.abc import Callable

from syllabus_io.pipeline import ReadingSettings

__all__ = ["load_resolving", "load_writing", "reading_settings"]


def reading_settings(no_cache: bool, meanwhile: Callable[[], object] | None = None) -> ReadingSettings:
    """The settings of a run."""
    if no_cache:
        return ReadingSettings(meanwhile=meanwhile)
    from syllabus_io.cache import open_cache

    return ReadingSettings(cache=open_cache(), meanwhile=meanwhile)


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
