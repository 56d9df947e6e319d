"""Going through all pieces of work: those finished before are passed over, a few are handed out at a time."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Future, wait
from dataclasses import dataclass, replace

from syllabus_io.batch.crews import Crew
from syllabus_io.batch.journal import Journal
from syllabus_io.batch.records import BatchSettings, FileResult, State, Work, WorkResult
from syllabus_io.batch.works import find_works, mark_of, output_path

__all__ = ["Progress", "run_batch"]

_HANDED_OUT = 3
"""Pieces of work handed out for each worker: one being done and two waiting, so that none stands idle."""


@dataclass(slots=True)
class Progress:
    """How far a batch is, in pieces of work; ``kept`` were finished by an earlier run."""

    total: int = 0
    kept: int = 0
    done: int = 0
    failed: int = 0
    items: int = 0
    to_check: int = 0


def run_batch(
    settings: BatchSettings, crew: Crew, journal: Journal, step: Callable[[Progress, str], None]
) -> tuple[Progress, list[str]]:
    """Does everything that is not finished and adds it to the journal; tells how it went, and the keys of all pieces.

    ``step`` is called for each piece with how far the batch is and the student's name.
    """
    progress = Progress(total=sum(1 for _ in find_works(settings)))
    keys: list[str] = []
    marks: dict[str, str] = {}

    def to_do() -> Iterator[Work]:
        for work in find_works(settings):
            keys.append(work.key)
            mark = mark_of(work, settings)
            before = journal.result_of(work.key)
            if before and journal.mark_of(work.key) == mark and _stands(work, before, settings):
                progress.kept += 1
                _count(progress, before)
                step(progress, work.student)
                continue
            marks[work.key] = mark
            yield replace(work, before=before.written if before else "")

    for result in _results(to_do(), crew):
        journal.add(marks.pop(result.key), result)
        progress.done += 1
        _count(progress, result)
        step(progress, result.student)
    return progress, keys


def _stands(work: Work, before: WorkResult, settings: BatchSettings) -> bool:
    """Whether what an earlier run wrote is still there. What failed then for a passing reason is tried again."""
    if any(file.state is State.UNWRITTEN for file in before.files):
        return False
    return not before.written or output_path(work, settings).is_file()


def _count(progress: Progress, result: WorkResult) -> None:
    progress.failed += result.has_failed
    for file in result.files:
        if not file.is_workbook:
            progress.items += file.items
            progress.to_check += file.to_check


def _results(works: Iterable[Work], crew: Crew) -> Iterator[WorkResult]:
    """The results as they come. A piece of work that takes its worker down with it is lost, and it alone."""
    rest = iter(works)
    suspects: deque[Work] = deque()
    pending: dict[Future[WorkResult], Work] = {}
    while True:
        while len(pending) < crew.width * _HANDED_OUT and (work := next(rest, None)) is not None:
            if not _hand_out(work, crew, pending):
                suspects.append(work)
                break
        if not pending and not suspects:
            return
        for future in wait(pending, return_when=FIRST_COMPLETED).done if pending else ():
            work = pending.pop(future)
            result = _result(work, future)
            if result is None:
                suspects.append(work)
            else:
                yield result
        if suspects:
            # a lost worker takes all that was handed out with it; which piece of work did it shows when each is alone
            yield from _settle(pending, suspects)
            crew.renew()
            while suspects:
                yield _alone(suspects.popleft(), crew)


def _hand_out(work: Work, crew: Crew, pending: dict[Future[WorkResult], Work]) -> bool:
    try:
        pending[crew.submit(work)] = work
    except BrokenExecutor:
        return False
    return True


def _result(work: Work, future: Future[WorkResult]) -> WorkResult | None:
    """The result; None when the worker was lost, perhaps through another piece of work."""
    try:
        return future.result()
    except BrokenExecutor:
        return None
    except Exception as error:
        # the cluster's own: a piece of work that cost several workers, or that could not be sent
        return _lost(work, type(error).__name__)


def _settle(pending: dict[Future[WorkResult], Work], suspects: deque[Work]) -> Iterator[WorkResult]:
    """Waits for everything that is handed out: results that came in time count, the rest is suspect."""
    for future, work in pending.items():
        result = _result(work, future)
        if result is None:
            suspects.append(work)
        else:
            yield result
    pending.clear()


def _alone(work: Work, crew: Crew) -> WorkResult:
    result = _result(work, crew.submit(work))
    if result is None:
        crew.renew()
        return _lost(work, "its process ended")
    return result


def _lost(work: Work, why: str) -> WorkResult:
    fault = f"the worker broke down over it ({why})"
    lost = FileResult("", State.UNWRITTEN, fault=fault, remedy="build this folder by itself to see which outline it is")
    return WorkResult(work.key, work.student, (lost,))
