"""Joins the stages: files -> outlines -> resolved term -> plan -> workbook.

Everything the command line does is a call of this module, so that a program can do it too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.errors import BadSetting, SyllabusError
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.outline.records import Outline
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Rotation, Term, TermFacts

if TYPE_CHECKING:
    from syllabus_io.cache import Cache
    from syllabus_io.plan.records import Plan
    from syllabus_io.provenance import PagePlace
    from syllabus_io.workbook.book import WorkbookOptions
    from syllabus_io.workbook.printed_places import AsPrinted

__all__ = [
    "ReadFiles",
    "ReadingSettings",
    "Step",
    "course_keys",
    "explain_outline_file",
    "iterate_outlines",
    "outlines_as_printed",
    "read_outline_file",
    "read_outlines",
    "resolve_outlines",
    "settle_term",
    "write_plan",
]

Step = Callable[[str], None]
"""Called with the name of each file once it has been dealt with."""

_KEY_LENGTH = 20
_NOT_IN_SHEET_NAMES = re.compile(r"[\[\]:*?/\\'\x00-\x1f]+")


@dataclass(frozen=True, slots=True)
class ReadFiles:
    """The outlines that could be read, and the faults of the files that could not."""

    outlines: tuple[Outline, ...]
    faults: tuple[SyllabusError, ...] = ()
    paths: Mapping[str, Path] = field(default_factory=dict)
    """Where each outline's file is, by the digest of its contents."""


@dataclass(frozen=True, slots=True)
class ReadingSettings:
    """How files are read: within which limits, in how many processes (None: as many as serve), with which cache.

    ``meanwhile`` is called once reading has begun, if anything must be read: work that can be done at the same time.
    """

    limits: ReadingLimits = DEFAULT_LIMITS
    processes: int | None = None
    cache: Cache | None = None
    meanwhile: Callable[[], object] | None = None


def read_outline_file(path: Path, settings: ReadingSettings | None = None) -> Outline:
    """The outline in one file. Raises UnreadableDocument with the remedy when it cannot be read."""
    read = read_outlines((path,), settings=settings)
    if read.faults:
        raise read.faults[0]
    return read.outlines[0]


def explain_outline_file(path: Path, limits: ReadingLimits = DEFAULT_LIMITS) -> Outline:
    """The outline in one file with the dates that became nothing in ``set_aside``. Raises UnreadableDocument with the
    remedy when it cannot be read."""
    from syllabus_io.isolation.reading import read_explained

    return read_explained(path, limits)


def read_outlines(
    files: Iterable[Path], step: Step | None = None, settings: ReadingSettings | None = None
) -> ReadFiles:
    """Every outline in the files, in their order. A file that cannot be read costs that file alone.

    Files are read in processes of their own, within limits: no file can crash or stop the program that asks.
    """
    outlines: list[Outline] = []
    faults: list[SyllabusError] = []
    paths: dict[str, Path] = {}
    for path, result in iterate_outlines(files, settings):
        if isinstance(result, SyllabusError):
            faults.append(result)
        elif result.digest not in paths:
            paths[result.digest] = path
            outlines.append(result)
        if step:
            step(path.name)
    return ReadFiles(tuple(outlines), tuple(faults), paths)


def iterate_outlines(
    files: Iterable[Path], settings: ReadingSettings | None = None
) -> Iterator[tuple[Path, Outline | SyllabusError]]:
    """Each file with its outline or its fault, in the order of the files; one result at a time is held."""
    from syllabus_io.isolation.reading import read_files

    settings = settings or ReadingSettings()
    files = tuple(files)
    return read_files(files, settings.limits, settings.processes, settings.cache, settings.meanwhile)


def settle_term(outlines: Sequence[Outline], facts: TermFacts | None = None, near: date | None = None) -> Term:
    """The term that the term file states; what it leaves out is worked out from the outlines and marked as assumed.

    ``near`` is a day of the year to take when no outline names one. Raises BadSetting when no term can be settled.
    """
    facts = facts or TermFacts(source="")
    if facts.first_day and facts.last_day:
        term = Term(facts.name or Path(facts.source).stem, facts.first_day, facts.last_day)
    else:
        from syllabus_io.resolve.infer_term import infer_term

        term = infer_term(outlines, near, facts.name)
        first_day, last_day = facts.first_day or term.first_day, facts.last_day or term.last_day
        if last_day < first_day:
            fault = "gives one end of the term, and the outlines lie outside it"
            raise BadSetting(facts.source, fault, "give both first_day and last_day")
        guessed = term.guessed_year and facts.first_day is None and facts.last_day is None
        term = replace(term, name=facts.name or term.name, first_day=first_day, last_day=last_day, guessed_year=guessed)
    return _with_days_off(
        replace(
            term,
            finals=facts.finals,
            holidays=facts.holidays,
            break_weeks_count=facts.break_weeks_count,
            week_one=facts.week_one,
            timezone=facts.timezone,
            rotation=Rotation(facts.rotation, facts.rotation_first_day or term.first_day) if facts.rotation else None,
        ),
        facts,
    )


def _with_days_off(term: Term, facts: TermFacts) -> Term:
    if not facts.holidays:
        return replace(term, no_class=facts.no_class)
    from syllabus_io.resolve.public_holidays import public_holidays

    last = max(term.last_day, term.finals[1]) if term.finals else term.last_day
    try:
        return replace(term, no_class=facts.no_class + public_holidays(facts.holidays, term.first_day, last))
    except BadSetting as fault:
        raise BadSetting(facts.source, f"holidays {facts.holidays!r} {fault.fault}", fault.remedy) from None


def resolve_outlines(
    outlines: Sequence[Outline], facts: TermFacts | None = None, near: date | None = None
) -> ResolvedTerm:
    """The outlines with their dates, in the term that :func:`settle_term` gives, with the weeks off they name."""
    from syllabus_io.resolve.outlines import resolve_outline
    from syllabus_io.resolve.shared_calendar import shared_calendar

    term = shared_calendar(outlines, settle_term(outlines, facts, near))
    keys = course_keys(outlines)
    courses = tuple(resolve_outline(outline, term, key) for outline, key in zip(outlines, keys, strict=True))
    return ResolvedTerm(term, courses)


def course_keys(outlines: Sequence[Outline]) -> tuple[str, ...]:
    """A short name for each course, unique among them and fit for a sheet name: its code, else title, else file."""
    keys: list[str] = []
    for outline in outlines:
        name = outline.course.code or outline.course.title or Path(outline.file).stem
        name = " ".join(_NOT_IN_SHEET_NAMES.sub(" ", name).split())[:_KEY_LENGTH].strip() or "Course"
        key, number = name, 1
        while key.casefold() in {taken.casefold() for taken in keys}:
            number += 1
            key = f"{name[: _KEY_LENGTH - 4].strip()} ({number})"
        keys.append(key)
    return tuple(keys)


def outlines_as_printed(plan: Plan, paths: Mapping[str, Path], workbook: Path, pictures: bool = True) -> AsPrinted:
    """Links from a workbook to the outlines' files, and pictures of the places in PDF files that are to be checked.

    ``paths`` are the files by the digests of their contents; an outline without one has neither.
    """
    from syllabus_io.workbook.printed_places import AsPrinted, file_link, printed_places
    from syllabus_io.workbook.review_rows import review_rows

    links = {digest: link for digest, path in paths.items() if (link := file_link(path, workbook))}
    wanted: dict[Path, list[PagePlace]] = {}
    keys: dict[tuple[Path, PagePlace], str] = {}
    for place in printed_places(plan, review_rows(plan)) if pictures else ():
        path = paths.get(place.digest)
        if path is not None:
            wanted.setdefault(path, []).append((place.page, place.box))
            keys[path, (place.page, place.box)] = place.key
    if not wanted:
        return AsPrinted(links)
    from syllabus_io.isolation.pictures import draw_pictures

    return AsPrinted(links, {keys[found]: picture for found, picture in draw_pictures(wanted).items()})


def write_plan(
    plan: Plan,
    path: Path,
    options: WorkbookOptions,
    today: date,
    cache: Cache | None = None,
    printed: Callable[[], AsPrinted] | None = None,
) -> None:
    """Writes the workbook of a plan as it is on a day; one that was made before from the same is not computed again.

    ``printed`` gives what the workbook shows of the outlines' files; it is asked only when the workbook is made.
    Raises OutputNotWritable when the place cannot be written, BadSetting for an unknown look.
    """
    from syllabus_io.workbook.write import make_workbook, write_file

    options = replace(options, today=options.today or today)
    key = cache.key("workbook", repr(plan), repr(options), str(path.resolve().parent)) if cache else ""
    content = cache.find(key) if cache else None
    if content is None:
        content = make_workbook(plan, replace(options, as_printed=printed()) if printed else options)
        if cache:
            cache.keep(key, content)
            cache.trim()
    write_file(path, content)
