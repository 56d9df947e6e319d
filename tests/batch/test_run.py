"""Passing over what is finished, surviving lost workers, and holding little at a time."""

from __future__ import annotations

import multiprocessing
import os
import tracemalloc
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor
from pathlib import Path
from types import TracebackType

import pytest

from syllabus_io.batch.journal import Journal
from syllabus_io.batch.records import BatchSettings, FileResult, State, Work, WorkResult
from syllabus_io.batch.run import Progress, run_batch
from syllabus_io.batch.tables import write_tables
from tests.batch.students import settings_of, write_outline, write_students


def done(work: Work, settings: BatchSettings) -> WorkResult:
    """What a piece of work becomes that is done without reading anything."""
    target = settings.output / f"{work.key}.json"
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text("{}", encoding="utf-8")
    files = (FileResult(work.files[0].name, State.DONE, "KIT", 2, 1),)
    return WorkResult(work.key, work.student, files, "digest")


class NearCrew:
    """Does the work at once, here; ``break_at`` is the student whose first try takes all that is handed out with it."""

    width = 2

    def __init__(self, settings: BatchSettings, break_at: str = "", stop_after: int = 10**6) -> None:
        self.settings = settings
        self.break_at = break_at
        self.stop_after = stop_after
        self.given: list[str] = []
        self.renewals = 0
        self.open: list[Future[WorkResult]] = []

    def __enter__(self) -> NearCrew:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        pass

    def submit(self, work: Work) -> Future[WorkResult]:
        if len(self.given) >= self.stop_after:
            raise KeyboardInterrupt
        self.given.append(work.student)
        future: Future[WorkResult] = Future()
        if work.student == self.break_at:
            future.set_exception(BrokenExecutor())
        else:
            future.set_result(done(work, self.settings))
        return future

    def renew(self) -> None:
        self.renewals += 1


@pytest.fixture
def settings(tmp_path: Path) -> BatchSettings:
    return settings_of(write_students(tmp_path / "students", 6), tmp_path / "out")


def run(settings: BatchSettings, crew: NearCrew) -> tuple[Progress, list[WorkResult]]:
    with Journal(settings.output) as journal:
        progress, keys = run_batch(settings, crew, journal, lambda _progress, _student: None)
        return progress, list(journal.results(keys))


def test_everything_is_done_once(settings: BatchSettings) -> None:
    first, second = NearCrew(settings), NearCrew(settings)
    progress, results = run(settings, first)
    assert (progress.total, progress.done, progress.items, progress.to_check) == (6, 6, 12, 6)
    assert [result.student for result in results] == [f"student {number:03}" for number in range(6)]
    progress, again = run(settings, second)
    assert not second.given and progress.kept == 6 and again == results


def test_a_stopped_batch_does_the_rest_only(settings: BatchSettings) -> None:
    first = NearCrew(settings, stop_after=4)
    with pytest.raises(KeyboardInterrupt):
        run(settings, first)
    with Journal(settings.output) as journal:
        finished = journal.keys()
    second = NearCrew(settings)
    progress, results = run(settings, second)
    assert len(finished) + len(second.given) == 6 and progress.kept == len(finished)
    assert len(results) == 6


@pytest.mark.parametrize("change", ["content", "more", "result gone"])
def test_what_changed_is_done_again(settings: BatchSettings, change: str) -> None:
    run(settings, NearCrew(settings))
    match change:
        case "content":
            write_outline(settings.folder / "student 002" / "course 0.docx", day=9)
        case "more":
            write_outline(settings.folder / "student 002" / "course 1.docx")
        case _:
            (settings.output / "student 002" / "course 0.docx.json").unlink()
    crew = NearCrew(settings)
    run(settings, crew)
    assert crew.given == ["student 002"]


def test_a_student_who_left_is_not_in_the_table(settings: BatchSettings) -> None:
    run(settings, NearCrew(settings))
    (settings.folder / "student 002" / "course 0.docx").unlink()
    (settings.folder / "student 002").rmdir()
    _, results = run(settings, NearCrew(settings))
    assert "student 002" not in [result.student for result in results] and len(results) == 5


def test_a_piece_of_work_that_costs_its_worker_is_lost_alone(settings: BatchSettings) -> None:
    crew = NearCrew(settings, break_at="student 003")
    progress, results = run(settings, crew)
    assert (progress.done, progress.failed) == (6, 1)
    (lost,) = [result for result in results if result.has_failed]
    assert lost.student == "student 003" and "broke down over it" in lost.files[0].fault
    assert crew.renewals >= 2, "once for the loss, once for the second loss that shows whose fault it was"
    second = NearCrew(settings)
    run(settings, second)
    assert second.given == ["student 003"], "it is tried again by the next run, and it alone"


def poisoned(work: Work, settings: BatchSettings) -> WorkResult:
    if work.student == "student 001":
        os._exit(9)
    return done(work, settings)


class PoisonedCrew(NearCrew):
    """Real processes, one of which is lost whenever it gets to a certain student."""

    executor: ProcessPoolExecutor | None = None

    def submit(self, work: Work) -> Future[WorkResult]:
        if self.executor is None:
            self.executor = ProcessPoolExecutor(1, multiprocessing.get_context("spawn"))
        return self.executor.submit(poisoned, work, self.settings)

    def renew(self) -> None:
        if self.executor:
            self.executor.shutdown()
            self.executor = None


def test_a_lost_process_costs_its_piece_of_work_alone(settings: BatchSettings) -> None:
    crew = PoisonedCrew(settings)
    progress, results = run(settings, crew)
    crew.renew()
    assert [result.student for result in results if result.has_failed] == ["student 001"]
    assert progress.done == 6


def test_only_a_few_are_handed_out_and_found_ahead(settings: BatchSettings, monkeypatch: pytest.MonkeyPatch) -> None:
    found = 0

    def thousands(_: BatchSettings) -> Iterator[Work]:
        nonlocal found
        for number in range(2_000):
            found += 1
            yield Work(f"{number}/a", str(number), settings.folder, (settings.folder / "a.docx",))

    class SlowCrew(NearCrew):
        def submit(self, work: Work) -> Future[WorkResult]:
            assert found - 2_000 <= len(self.given) + 1, "work is found no earlier than it is handed out"
            return super().submit(work)

    monkeypatch.setattr("syllabus_io.batch.run.find_works", thousands)
    crew = SlowCrew(settings)
    progress, _ = run(settings, crew)
    assert progress.done == 2_000


def test_memory_hardly_grows_with_the_number_of_outlines(tmp_path: Path) -> None:
    def peak(count: int) -> int:
        settings = settings_of(tmp_path / f"students {count}", tmp_path / f"out {count}")
        for number in range(count):
            path = settings.folder / f"student {number:04}" / "course.pdf"
            path.parent.mkdir(parents=True)
            path.write_bytes(b"%PDF-")
        tracemalloc.start()
        try:
            with Journal(settings.output) as journal:
                progress, keys = run_batch(settings, NearCrew(settings), journal, lambda _progress, _student: None)
                write_tables(settings.output, journal, keys)
            assert progress.done == count
            return tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()

    few, many = peak(50), peak(500)
    assert many - few < 2_000_000, f"{(many - few) / 450:.0f} bytes more for each outline"
