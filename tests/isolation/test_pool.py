"""Reading processes: whatever happens to one, its file alone is lost, and the rest is read in order."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from syllabus_io.errors import SyllabusError, UnreadableDocument
from syllabus_io.extract.limits import ReadingLimits
from syllabus_io.isolation.pool import OutlineReaders, Reply, reader_count
from syllabus_io.outline.records import Outline
from syllabus_io.record_json import outline_from_json
from tests.extract.word_files import paragraph, write_word

SOURCE = Path(__file__).with_name("misbehaving_worker.py").read_text(encoding="utf-8")
MISBEHAVING = "tests.isolation.misbehaving_worker"
BOUNDED = pytest.mark.skipif(sys.platform == "win32", reason="this system cannot bound a process's memory and time")
LIMITS = ReadingLimits(seconds=20, cpu_seconds=1, memory_bytes=700_000_000, reply_bytes=1_000_000)


@pytest.fixture
def files(tmp_path: Path) -> dict[str, Path]:
    """Empty files by what reading them does."""
    paths = {name: tmp_path / f"{name}.docx" for name in [*re.findall(r'case "(\w+)"', SOURCE), "good", "other"]}
    for path in paths.values():
        path.write_bytes(b"PK")
    return paths


@pytest.fixture(scope="module")
def one_reader() -> Iterator[OutlineReaders]:
    with OutlineReaders(1, LIMITS, worker=MISBEHAVING) as readers:
        yield readers


def name_of(reply: Reply) -> str:
    """The name of the file whose outline this is; the fault's words for a fault."""
    if isinstance(reply, SyllabusError):
        return reply.fault
    return (outline_from_json(reply) if isinstance(reply, str) else reply).file


def fault_of(readers: OutlineReaders, path: Path) -> str:
    """The fault of one file, after which the next one is read as if nothing had been."""
    bad, good = readers.read([path, path.with_name("good.docx")])
    assert isinstance(bad, UnreadableDocument), f"{path.name} should have cost an error, gave {str(bad)[:80]}"
    assert bad.subject == str(path) and bad.remedy
    assert name_of(good) == "good.docx", "the next file must be read"
    return bad.fault


def test_replies_come_in_the_order_of_the_files(files: dict[str, Path]) -> None:
    asked = [files["good"], files["other"]] * 6
    with OutlineReaders(2, LIMITS, worker=MISBEHAVING) as readers:
        assert [name_of(reply) for reply in readers.read(asked)] == [path.name for path in asked]


@BOUNDED
def test_a_native_abort_costs_its_file_alone(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    assert "broke down over it (SIGABRT)" in fault_of(one_reader, files["abort"])


def test_a_process_that_leaves_costs_its_file_alone(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    assert "broke down over it (status 7)" in fault_of(one_reader, files["leave"])


def test_a_hang_is_ended_by_the_clock(files: dict[str, Path]) -> None:
    with OutlineReaders(1, ReadingLimits(seconds=1.5), worker=MISBEHAVING) as readers:
        (reply,) = readers.read([files["sleep"]])
    assert name_of(reply) == "reading it took longer than 1.5 seconds and was stopped"


@BOUNDED
def test_endless_computing_is_ended_by_the_processor_limit(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    assert fault_of(one_reader, files["spin"]) == "reading it took more than 1 seconds of computing and was stopped"


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only here does the system bound a process's memory")
def test_endless_memory_is_refused(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    assert fault_of(one_reader, files["grow"]) == "reading it takes more than 700 MB of memory"


def test_endless_nesting_is_refused(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    assert fault_of(one_reader, files["recurse"]) == "it is nested too deeply to be read"


def test_a_fault_of_the_program_names_its_spot(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    assert "the program failed on it (IndexError" in fault_of(one_reader, files["bug"])


def test_a_reply_without_end_is_cut_off(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    assert fault_of(one_reader, files["long"]) == "it holds far more than an outline does"


def test_words_a_library_prints_do_not_spoil_the_answer(one_reader: OutlineReaders, files: dict[str, Path]) -> None:
    (reply,) = one_reader.read([files["print"]])
    assert name_of(reply) == "print.docx"


@pytest.mark.parametrize("act", ["connect", "write", "program", "shell", "unpickle"])
def test_a_reading_process_cannot_act_on_the_world(
    one_reader: OutlineReaders, files: dict[str, Path], act: str
) -> None:
    assert "the program failed on it (PermissionError" in fault_of(one_reader, files[act])
    assert not files["write"].with_suffix(".written").exists()


def test_special_and_huge_files_are_not_opened(tmp_path: Path) -> None:
    huge = tmp_path / "huge.pdf"
    huge.touch()
    os.truncate(huge, 2_000)
    with OutlineReaders(1, ReadingLimits(file_bytes=1_000), worker=MISBEHAVING) as readers:
        (reply,) = readers.read([huge])
    assert "far more than an outline takes" in name_of(reply)
    if hasattr(os, "mkfifo"):
        pipe = tmp_path / "pipe.pdf"
        os.mkfifo(pipe)
        with OutlineReaders(1, worker=MISBEHAVING) as readers:
            (reply,) = readers.read([pipe])
        assert name_of(reply) == "this is no ordinary file"


def test_few_files_start_few_processes() -> None:
    assert reader_count(1) == 1
    assert 1 <= reader_count(10_000) <= (os.cpu_count() or 1)


def test_files_are_handed_out_as_results_are_taken(files: dict[str, Path]) -> None:
    taken = 0

    def thousands() -> Iterator[Path]:
        nonlocal taken
        for _ in range(1_000):
            taken += 1
            yield files["good"]

    outline = Outline("good.docx", "00", 1)
    with OutlineReaders(1, LIMITS, known=lambda _: outline, worker=MISBEHAVING) as readers:
        replies = readers.read(thousands())
        for _ in range(10):
            next(replies)
    assert taken < 20, "only a few files may be asked for ahead, so that memory stays flat"


@pytest.mark.skipif(sys.platform == "win32", reason="signals are sent to processes the POSIX way")
@pytest.mark.parametrize("stop", ["SIGINT", "SIGTERM", "SIGKILL"])
def test_no_process_is_left_when_the_program_is_stopped(tmp_path: Path, stop: str) -> None:
    write_word(tmp_path / "sleep.docx", paragraph("Soil Science"))
    code = (
        "from pathlib import Path\n"
        "from syllabus_io.isolation.pool import OutlineReaders\n"
        f"with OutlineReaders(2, worker={MISBEHAVING!r}) as readers:\n"
        f"    replies = readers.read([Path({str(tmp_path / 'sleep.docx')!r})] * 2)\n"
        "    import time\n"
        "    while not all(reader._process for reader in readers._readers): time.sleep(0.01)\n"
        "    print(*(reader._process.pid for reader in readers._readers), flush=True)\n"
        "    list(replies)\n"
    )
    program = subprocess.Popen(
        [sys.executable, "-c", code],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        cwd=Path(__file__).parents[2],
    )
    assert program.stdout is not None
    children = [int(word) for word in program.stdout.readline().split()]
    assert len(children) == 2
    time.sleep(0.2)
    program.send_signal(getattr(signal, stop))
    program.wait(timeout=20)
    program.stdout.close()
    until = time.monotonic() + 10
    while any(map(is_running, children)) and time.monotonic() < until:
        time.sleep(0.05)
    assert not any(map(is_running, children)), "a reading process outlived the program"


def is_running(process: int) -> bool:
    """Whether there is such a process that is not merely waiting to be counted out."""
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    status = Path(f"/proc/{process}/stat")
    return not (status.exists() and status.read_text().rpartition(")")[2].split()[0] == "Z")
