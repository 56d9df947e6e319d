"""``build``: outlines in, workbook out."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.cli.clock import local_day
from syllabus_io.cli.options import BuildOptions
from syllabus_io.cli.reading import load_writing, read_with_progress, reading_settings
from syllabus_io.cli.report import fault_lines, plain, summarise
from syllabus_io.errors import OutputNotWritable
from syllabus_io.pipeline import (
    outlines_as_printed,
    resolve_outlines,
    write_plan,
)
from syllabus_io.term_file import read_term_file

if TYPE_CHECKING:
    from syllabus_io.workbook.printed_places import AsPrinted

__all__ = ["build"]


def build(options: BuildOptions) -> int:
    """Writes the workbook. Returns 0, or 2 when some file could not be read (the others are in the workbook)."""
    from syllabus_io.extract.reader import outline_files

    _check_output(options)
    facts = read_term_file(options.term) if options.term else None
    files = outline_files(options.inputs)
    settings = reading_settings(options.no_cache, meanwhile=load_writing)
    read = read_with_progress(files, settings, options.quiet)

    from syllabus_io.plan.build import make_plan
    from syllabus_io.workbook.book import WorkbookOptions

    look = WorkbookOptions(
        paper=options.paper,
        look=options.look,
        student=options.student,
        pictures=not options.no_pictures,
        language=options.language,
    )
    for line in fault_lines(read.faults):
        print(line, file=sys.stderr)
    if not read.outlines:
        return 2
    resolved = resolve_outlines(read.outlines, facts, local_day())
    plan = make_plan(resolved)
    kept = _keep_earlier(options.output) if options.replace else None

    def printed() -> AsPrinted:
        return outlines_as_printed(plan, read.paths, options.output, look.pictures)

    write_plan(plan, options.output, look, local_day(), settings.cache, printed)
    if not options.quiet:
        for line in summarise(resolved):
            print(line)
        if kept:
            print(plain(f"The earlier workbook is kept as {kept}."))
        print(plain(f"Written: {options.output}"))
    return 2 if read.faults else 0


def _check_output(options: BuildOptions) -> None:
    output = options.output
    if output.suffix.lower() != ".xlsx":
        raise OutputNotWritable(output, "is not named as a workbook", "give a name that ends in .xlsx")
    if output.is_dir():
        raise OutputNotWritable(output, "is a folder", "give the name of a file in it")
    if not output.parent.is_dir():
        raise OutputNotWritable(output, "its folder does not exist", "make the folder first, or choose another")
    if output.exists() and not options.replace:
        raise OutputNotWritable(
            output,
            "exists already, and what was typed in it would be lost",
            "choose another name with -o, or add --replace to keep it under another name and write anew",
        )


def _keep_earlier(output: Path) -> Path | None:
    """Sets the existing workbook aside under the first free name; None when there was none."""
    if not output.exists():
        return None
    number = 1
    while (kept := output.with_name(f"{output.stem}.earlier-{number}{output.suffix}")).exists():
        number += 1
    try:
        kept.hardlink_to(output)
    except OSError:
        import shutil

        try:
            shutil.copy2(output, kept)
        except OSError as error:
            raise OutputNotWritable(
                output, f"the earlier workbook cannot be kept ({error.strerror})", "write to another folder"
            ) from None
    return kept
