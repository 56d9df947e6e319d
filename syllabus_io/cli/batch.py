"""``batch``: many students' outlines in, a workbook each out, with a result table and a list of what failed."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from syllabus_io.batch.crews import ClusterCrew, Crew, LocalCrew, processor_count
from syllabus_io.batch.journal import Journal
from syllabus_io.batch.records import BatchSettings
from syllabus_io.batch.run import Progress, run_batch
from syllabus_io.batch.tables import FAILURES, RESULTS, write_tables
from syllabus_io.cli.batch_parser import BatchOptions
from syllabus_io.cli.clock import local_day
from syllabus_io.cli.report import count, plain
from syllabus_io.errors import BadSetting, OutputNotWritable, UnreadableDocument
from syllabus_io.term_file import read_term_file

__all__ = ["batch", "progress_of"]

_INTERRUPTED = 130
_LINES = 20
"""Where there is no terminal, a line each time another twentieth is done."""

Step = Callable[[Progress, str], None]


def batch(options: BatchOptions) -> int:
    """Does what is not done yet. Returns 0, 2 when something failed, 130 when it was stopped by the keyboard."""
    settings = _settings(options)
    with Journal(options.output) as journal:
        try:
            with _crew(options, settings) as crew, progress_of(options.quiet) as step:
                progress, keys = run_batch(settings, crew, journal, step)
        except KeyboardInterrupt:
            write_tables(options.output, journal, journal.keys())
            print(
                "syllabus-io: stopped; what is finished is kept, and the same command goes on from here",
                file=sys.stderr,
            )
            return _INTERRUPTED
        write_tables(options.output, journal, keys)
    if not options.quiet:
        print("\n".join(_summary(progress, options)))
    return 2 if progress.failed else 0


def _settings(options: BatchOptions) -> BatchSettings:
    """What holds for the batch. Folders are made absolute: other processes may run in other folders."""
    from syllabus_io.workbook.language import find_language
    from syllabus_io.workbook.styles import find_look

    find_look(options.look)
    find_language(options.language)
    folder, output = options.folder.absolute(), options.output.absolute()
    if not folder.is_dir():
        fault = "there is no such folder" if not folder.exists() else "this is a file, not a folder"
        raise UnreadableDocument(options.folder, fault, "name the folder that holds the students' folders")
    if output.exists() and not output.is_dir():
        raise OutputNotWritable(options.output, "is a file, and a folder is needed", "choose another name with -o")
    if output.resolve() == folder.resolve():
        raise OutputNotWritable(options.output, "is the folder of the outlines itself", "choose another with -o")
    if options.cluster and options.workers:
        raise BadSetting("--workers", "has no meaning with --cluster", "leave one of them out")
    return BatchSettings(
        folder=folder,
        output=output,
        facts=read_term_file(options.term) if options.term else None,
        today=local_day(),
        extract_only=options.extract_only,
        paper=options.paper,
        look=options.look,
        pictures=not options.no_pictures,
        language=options.language,
    )


def _crew(options: BatchOptions, settings: BatchSettings) -> Crew:
    if options.cluster:
        return ClusterCrew(settings, options.cluster)
    return LocalCrew(settings, options.workers or processor_count())


@contextmanager
def progress_of(quiet: bool) -> Iterator[Step]:
    """What is told of each piece of work: a bar on a terminal, else now and then a line."""
    if quiet:
        yield lambda _progress, _student: None
    elif sys.stderr.isatty():
        yield from _bar()
    else:
        yield _tell


def _tell(progress: Progress, _student: str) -> None:
    finished, total = progress.done + progress.kept, progress.total
    if finished * _LINES // total != (finished - 1) * _LINES // total:
        failed = f", {progress.failed} with failures" if progress.failed else ""
        print(f"{finished} of {total} done{failed}", file=sys.stderr, flush=True)


def _bar() -> Iterator[Step]:
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, TextColumn, TimeElapsedColumn, TimeRemainingColumn
    from rich.progress import Progress as Bars

    columns = (
        BarColumn(),
        MofNCompleteColumn(),
        TimeElapsedColumn(),
        TimeRemainingColumn(),
        TextColumn("{task.description}", markup=False),
    )
    with Bars(*columns, console=Console(stderr=True), transient=True) as bars:
        task = bars.add_task("", total=None)

        def step(progress: Progress, student: str) -> None:
            bars.update(task, total=progress.total, completed=progress.done + progress.kept, description=plain(student))

        yield step


def _summary(progress: Progress, options: BatchOptions) -> list[str]:
    noun = "outline" if options.extract_only else "student"
    kept = f", {progress.kept} of them by an earlier run" if progress.kept else ""
    lines = [
        f"{count(progress.done + progress.kept, noun)} done{kept}: "
        f"{count(progress.items, 'item')}, {progress.to_check} to check"
    ]
    if progress.failed:
        lines.append(plain(f"{count(progress.failed, noun)} with failures; see {options.output / FAILURES}"))
    lines.append(plain(f"Written: {options.output / RESULTS}"))
    lines.append("Each instructor's outline and announcements govern.")
    return lines
