"""Files made to hang, exhaust or mislead a reader: each is read in part or refused with one line, within the limits."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from syllabus_io.errors import SyllabusError
from syllabus_io.extract.limits import ReadingLimits
from syllabus_io.isolation.pool import OutlineReaders
from syllabus_io.record_json import outline_from_json
from tests.isolation import crafted_pdf, crafted_word

LIMITS = ReadingLimits(seconds=30, cpu_seconds=20)
LEEWAY_SECONDS = 10.0
"""What starting a process on a busy machine may add."""
LONGEST_LINE = 300


@pytest.fixture(scope="module")
def readers() -> Iterator[OutlineReaders]:
    with OutlineReaders(1, LIMITS) as started:
        yield started


def check(readers: OutlineReaders, path: Path, content: bytes) -> str:
    """Reads the file; returns the fault, or the text of the outline's JSON."""
    path.write_bytes(content)
    path.with_name("secret.txt").write_text(crafted_word.SECRET, encoding="utf-8")
    began = time.monotonic()
    (reply,) = readers.read([path])
    took = time.monotonic() - began
    assert took < LIMITS.seconds + LEEWAY_SECONDS, f"{path.name} took {took:.0f} s"
    assert path.read_bytes() == content, "the file itself must not be changed"
    if isinstance(reply, SyllabusError):
        line = str(reply)
        assert len(line) - len(str(path)) < LONGEST_LINE and "\n" not in line, f"no plain line: {line}"
        assert "the program failed" not in line, line
        return reply.fault
    assert isinstance(reply, str)
    outline_from_json(reply)
    assert crafted_word.SECRET not in reply, "an outline must not hold the text of another file"
    return reply


@pytest.mark.parametrize("make", crafted_pdf.LIGHT, ids=lambda make: make.__name__)
def test_crafted_pdf(readers: OutlineReaders, tmp_path: Path, make: Callable[[], bytes]) -> None:
    check(readers, tmp_path / "outline.pdf", make())


@pytest.mark.parametrize("make", crafted_word.LIGHT, ids=lambda make: make.__name__)
def test_crafted_word(readers: OutlineReaders, tmp_path: Path, make: Callable[[], bytes]) -> None:
    check(readers, tmp_path / "outline.docx", make())


@pytest.mark.slow
@pytest.mark.parametrize("make", crafted_pdf.HEAVY, ids=lambda make: make.__name__)
def test_heavy_pdf(readers: OutlineReaders, tmp_path: Path, make: Callable[[], bytes]) -> None:
    check(readers, tmp_path / "outline.pdf", make())


@pytest.mark.slow
@pytest.mark.parametrize("make", crafted_word.HEAVY, ids=lambda make: make.__name__)
def test_heavy_word(readers: OutlineReaders, tmp_path: Path, make: Callable[[], bytes]) -> None:
    check(readers, tmp_path / "outline.docx", make())


def test_what_can_be_read_of_a_crafted_page_is_read_and_the_rest_is_said(
    readers: OutlineReaders, tmp_path: Path
) -> None:
    read = check(readers, tmp_path / "outline.pdf", crafted_pdf.nested_forms())
    assert "October 6, 2026" in read and "holds too much to be read whole" in read


@pytest.mark.parametrize(
    ("name", "content", "fault"),
    [
        ("a.docx", crafted_word.entity_blow_up, "no well-formed XML"),
        ("b.pdf", crafted_pdf.page_tree_loop, "no pages"),
        ("c.pdf", crafted_pdf.truncated, "damaged"),
        ("d.docx", crafted_word.deep_elements, "unpacks to far more than an outline holds"),
    ],
)
def test_the_line_says_what_is_wrong(
    readers: OutlineReaders, tmp_path: Path, name: str, content: Callable[[], bytes], fault: str
) -> None:
    assert fault in check(readers, tmp_path / name, content())
