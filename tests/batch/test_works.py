"""What counts as a student, where results go, and what counts as a change."""

from __future__ import annotations

import os
from pathlib import Path

from syllabus_io.batch.records import Work
from syllabus_io.batch.works import find_works, mark_of, output_path
from tests.batch.students import settings_of, write_outline, write_students


def works_of(folder: Path, output: Path, **other: object) -> list[Work]:
    return list(find_works(settings_of(folder, output, **other)))


def test_each_folder_is_a_student_and_folders_in_it_belong_to_it(tmp_path: Path) -> None:
    folder = tmp_path / "students"
    write_outline(folder / "Ada" / "kites.docx")
    write_outline(folder / "Ada" / "spring" / "wind.docx")
    write_outline(folder / "Ben" / "kites.docx")
    write_outline(folder / ".hidden" / "kites.docx")
    (folder / "Cy").mkdir()
    works = works_of(folder, folder / "plans", extract_only=False)
    assert [(work.student, len(work.files)) for work in works] == [("Ada", 2), ("Ben", 1), ("Cy", 0)]


def test_the_output_folder_is_no_student_though_it_lies_among_them(tmp_path: Path) -> None:
    write_students(tmp_path, 2)
    (tmp_path / "plans").mkdir()
    assert [work.student for work in works_of(tmp_path, tmp_path / "plans")] == ["student 000", "student 001"]


def test_outlines_beside_the_folders_are_those_of_one_more_student(tmp_path: Path) -> None:
    folder = tmp_path / "spring term"
    write_outline(folder / "kites.docx")
    write_outline(folder / "spring term" / "wind.docx")
    settings = settings_of(folder, tmp_path / "plans", extract_only=False)
    works = list(find_works(settings))
    assert [work.student for work in works] == ["spring term", "spring term"]
    targets = [output_path(work, settings) for work in works]
    assert len(set(targets)) == 2, "two students of one name must not write to one file"


def test_records_are_a_piece_of_work_for_each_outline(tmp_path: Path) -> None:
    folder = write_students(tmp_path / "students", 2, outlines=3)
    settings = settings_of(folder, tmp_path / "out")
    works = list(find_works(settings))
    assert len(works) == 6
    assert output_path(works[0], settings) == tmp_path / "out" / "student 000" / "course 0.docx.json"


def test_a_mark_changes_with_content_name_and_settings_and_with_nothing_else(tmp_path: Path) -> None:
    folder = write_students(tmp_path / "students", 1)
    settings = settings_of(folder, tmp_path / "out")
    (work,) = find_works(settings)
    mark = mark_of(work, settings)
    os.utime(work.files[0], (0, 0))
    assert mark_of(work, settings) == mark, "the time of a file is no change"
    assert mark_of(work, settings_of(folder, tmp_path / "out", paper="a4")) != mark
    write_outline(work.files[0], day=7)
    assert mark_of(work, settings) != mark
    write_outline(work.files[0], "KIT 00")
    assert mark_of(work, settings) == mark, "the same outline written again is no change"


def test_special_files_are_not_opened_for_a_mark(tmp_path: Path) -> None:
    folder = tmp_path / "students" / "Ada"
    folder.mkdir(parents=True)
    if not hasattr(os, "mkfifo"):
        return
    os.mkfifo(folder / "pipe.pdf")
    settings = settings_of(tmp_path / "students", tmp_path / "out")
    work = Work("Ada/pipe.pdf", "Ada", folder, (folder / "pipe.pdf",))
    assert mark_of(work, settings)
