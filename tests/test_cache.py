"""The cache: an unchanged outline is not read again, and nothing in its folder can do harm."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest

from syllabus_io.cache import Cache, program_mark, user_cache_folder
from syllabus_io.errors import SyllabusError
from syllabus_io.extract.limits import ReadingLimits
from syllabus_io.isolation.pool import OutlineReaders
from syllabus_io.isolation.process import ReadingProcess
from syllabus_io.outline.records import Outline
from syllabus_io.pipeline import ReadingSettings, read_outline_file, write_plan
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Term
from syllabus_io.workbook.book import WorkbookOptions
from tests.extract.word_files import paragraph, write_word


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    return Cache(tmp_path / "cache", "this program")


@pytest.fixture
def outline_file(tmp_path: Path) -> Path:
    return write_word(tmp_path / "soil.docx", paragraph("Soil Science 101") + paragraph("Essay due October 6, 2026"))


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The files that were really read, in the order in which they were asked for."""
    paths: list[Path] = []
    real = ReadingProcess.read

    def read(self: ReadingProcess, path: Path) -> str | SyllabusError:
        paths.append(path)
        return real(self, path)

    monkeypatch.setattr(ReadingProcess, "read", read)
    return paths


def read(path: Path, cache: Cache | None, limits: ReadingLimits | None = None) -> Outline:
    return read_outline_file(path, ReadingSettings(limits or ReadingLimits(), cache=cache))


def entries(cache: Cache) -> list[Path]:
    return sorted(cache.folder.iterdir()) if cache.folder.exists() else []


def test_an_unchanged_outline_is_read_once(cache: Cache, outline_file: Path, asked: list[Path]) -> None:
    first = read(outline_file, cache)
    assert read(outline_file, cache) == first
    assert asked == [outline_file]


def test_what_differs_is_read_anew(cache: Cache, outline_file: Path, asked: list[Path]) -> None:
    read(outline_file, cache)
    read(outline_file, Cache(cache.folder, "another version of this program"))
    read(outline_file, cache, ReadingLimits(pages=5))
    other_name = outline_file.rename(outline_file.with_name("earth.docx"))
    assert read(other_name, cache).file == "earth.docx"
    write_word(other_name, paragraph("Soil Science 102"))
    read(other_name, cache)
    assert len(asked) == 5


def test_without_a_cache_nothing_is_kept(cache: Cache, outline_file: Path, asked: list[Path]) -> None:
    read(outline_file, None)
    read(outline_file, None)
    assert len(asked) == 2 and not entries(cache)


@pytest.mark.parametrize("damage", ["cut", "changed", "empty", "folder", "link", "huge", "foreign"])
def test_a_damaged_entry_is_passed_over(
    cache: Cache, outline_file: Path, asked: list[Path], damage: str, tmp_path: Path
) -> None:
    first = read(outline_file, cache)
    (entry,) = entries(cache)
    content = entry.read_bytes()
    key = entry.stem
    entry.unlink()
    match damage:
        case "cut":
            entry.write_bytes(content[: len(content) // 2])
        case "changed":
            entry.write_bytes(content.replace(b"October", b"Octobre"))
        case "empty":
            entry.write_bytes(b"")
        case "folder":
            entry.mkdir()
        case "link":
            (tmp_path / "elsewhere").write_bytes(content)
            entry.symlink_to(tmp_path / "elsewhere")
        case "huge":
            entry.touch()
            os.truncate(entry, cache.largest_entry_bytes + 1)
        case _:
            cache.keep(key, b'["Outline", "soil.docx", "00", 1]')
    assert read(outline_file, cache) == first
    assert len(asked) == 2, "a damaged entry must not stand for the outline"


def test_the_folder_stays_within_its_bounds(tmp_path: Path) -> None:
    cache = Cache(tmp_path, "mark", most_bytes=10_000, most_entries=5)
    for number in range(8):
        cache.keep(cache.key(str(number)), b"x" * 100)
        os.utime(tmp_path / f"{cache.key(str(number))}.entry", (number, number))
    assert cache.find(cache.key("3")) is not None
    cache.trim()
    kept = [number for number in range(8) if cache.find(cache.key(str(number)))]
    assert kept == [3, 4, 5, 6, 7], "the entries used last stay"
    cache.keep(cache.key("big"), b"x" * 9_900)
    cache.trim()
    assert sum(path.stat().st_size for path in entries(cache)) <= 10_000


def test_a_folder_that_cannot_be_made_costs_nothing(tmp_path: Path, outline_file: Path) -> None:
    (tmp_path / "file").touch()
    blocked = Cache(tmp_path / "file" / "cache", "mark")
    blocked.keep(blocked.key("a"), b"content")
    blocked.trim()
    assert blocked.find(blocked.key("a")) is None
    assert read(outline_file, blocked).file == "soil.docx"


def test_files_of_others_in_the_folder_stay(tmp_path: Path) -> None:
    cache = Cache(tmp_path, "mark", most_entries=0)
    (tmp_path / "letter.txt").write_text("not ours")
    cache.keep(cache.key("a"), b"content")
    cache.trim()
    assert [path.name for path in entries(cache)] == ["letter.txt"]


def test_keys_do_not_run_into_one_another(cache: Cache) -> None:
    assert cache.key("ab", "c") != cache.key("a", "bc")


def test_the_place_is_the_one_the_user_names(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    # XDG Base Directory Specification: XDG_CACHE_HOME counts when it is an absolute path
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert user_cache_folder() == tmp_path
    monkeypatch.setenv("XDG_CACHE_HOME", "relative")
    assert user_cache_folder().is_absolute()
    assert program_mark() == program_mark()


def test_a_known_outline_starts_no_process(outline_file: Path) -> None:
    outline = Outline("soil.docx", "00", 1)
    with OutlineReaders(1, known=lambda _: outline) as readers:
        assert list(readers.read([outline_file])) == [outline]
        assert all(reader._process is None for reader in readers._readers)


def test_a_fault_is_not_kept(cache: Cache, tmp_path: Path, asked: list[Path]) -> None:
    bad = tmp_path / "bad.docx"
    bad.write_bytes(b"no document")
    for _ in range(2):
        with pytest.raises(SyllabusError):
            read(bad, cache)
    assert len(asked) == 2 and not entries(cache)


def test_a_workbook_of_the_same_plan_is_not_made_again(
    cache: Cache, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[Plan] = []

    def make(plan: Plan, options: WorkbookOptions) -> bytes:
        made.append(plan)
        return f"{options.paper} {options.today}".encode()

    monkeypatch.setattr("syllabus_io.workbook.write.make_workbook", make)
    plan = make_plan(ResolvedTerm(Term("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11)), ()))
    target = tmp_path / "plan.xlsx"
    for day, paper, content in [
        (1, "letter", b"letter 2026-09-01"),
        (1, "letter", b"letter 2026-09-01"),
        (2, "letter", b"letter 2026-09-02"),
        (2, "a4", b"a4 2026-09-02"),
    ]:
        options = WorkbookOptions(paper="a4" if paper == "a4" else "letter")
        write_plan(plan, target, options, date(2026, 9, day), cache)
        assert target.read_bytes() == content
    assert len(made) == 3, "what was made before is taken from the cache, and only that"
    write_plan(plan, target, WorkbookOptions(), date(2026, 9, 1))
    assert len(made) == 4, "without a cache it is made anew"
