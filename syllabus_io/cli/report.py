"""Records turned into plain sentences for the terminal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date
from unicodedata import category

from syllabus_io.errors import SyllabusError
from syllabus_io.resolve.records import ResolvedCourse, ResolvedItem, ResolvedTerm

__all__ = ["fault_lines", "list_course", "plain", "summarise", "written_day"]

# Outlines and file names come from anywhere: nothing in them may steer the terminal. By Unicode category these are
# controls, format characters (also those that turn the direction of writing), halves of pairs and private characters.
_STEERING = {"Cc", "Cf", "Cs", "Co"}
_LONGEST_TEXT = 2_000
_MOST_REASONS = 12


def plain(text: str) -> str:
    """The text on one line, without characters that could steer a terminal; a very long one is cut, and ends in …"""
    text = " ".join("".join(sign for sign in " ".join(text.split()) if category(sign) not in _STEERING).split())
    return text if len(text) <= _LONGEST_TEXT else f"{text[:_LONGEST_TEXT]}…"


def written_day(day: date | None) -> str:
    """A date as people read it: Tue 6 Oct 2026; a dash for none."""
    return "—" if day is None else f"{day:%a} {day.day} {day:%b %Y}"


def count(number: int, noun: str) -> str:
    """A number with its noun in the right form: 1 item, 2 items."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def fault_lines(faults: Iterable[SyllabusError]) -> list[str]:
    """One line for each file that could not be read."""
    return [f"syllabus-io: {plain(str(fault))}" for fault in faults]


def summarise(resolved: ResolvedTerm) -> list[str]:
    """What was read: outlines, items, what to check and why, what has no date, and what was assumed of the term."""
    items = [item for course in resolved.courses for item in course.items]
    dated = [item for item in items if item.date]
    to_check = [(course, item) for course in resolved.courses for item in course.items if item.needs_review]
    undated = sum(len(course.undated) for course in resolved.courses)
    lines = [
        f"{count(len(resolved.courses), 'outline')} read: {count(len(dated), 'dated item')}, "
        f"{len(to_check)} to check, {undated} without a date"
    ]
    for course in resolved.courses:
        kinds = Counter(item.kind.value for item in course.items)
        found = ", ".join(count(number, kind) if kind != "quiz" else _quizzes(number) for kind, number in kinds.items())
        lines.append(f"  {plain(course.key)}: {found or 'no dated work found; look at the outline yourself'}")
    if to_check:
        lines.append("To check:")
        lines += [f"  {_item_line(course, item)}" for course, item in to_check[:_MOST_REASONS]]
        if len(to_check) > _MOST_REASONS:
            lines.append(f"  … and {len(to_check) - _MOST_REASONS} more on the sheet Review")
    if undated:
        lines.append("Without a date (find out):")
        works = [(course, work) for course in resolved.courses for work in course.undated]
        lines += [f"  {plain(c.key)}: {plain(work.title)} – {plain(work.reason)}" for c, work in works[:_MOST_REASONS]]
        if len(works) > _MOST_REASONS:
            lines.append(f"  … and {len(works) - _MOST_REASONS} more on the sheet Review")
    if resolved.term.assumed:
        lines.append("No term file was given, so this was taken from the outlines; check it on the sheet Term dates:")
        lines += [f"  {plain(reason)}" for reason in resolved.term.assumed]
    lines.append("Your instructor's outline and announcements govern.")
    return lines


def list_course(course: ResolvedCourse) -> list[str]:
    """Everything read from one outline: a line for each item with its words, page and reasons."""
    facts = course.outline.course
    heading = " – ".join(plain(part) for part in (facts.code, facts.title, facts.term) if part)
    lines = [heading or plain(course.outline.file)]
    for item in sorted(course.items, key=lambda item: (item.date or date.max, item.title)):
        page = f"p. {item.mention.place.page}" if item.mention.place.page else ""
        time = f" {item.time}" if item.time else ""
        lines.append(
            f"  {written_day(item.date)}{time}  {item.kind.value}: {plain(item.title)}"
            f'  ("{plain(item.mention.words)}" {page})'.replace(" )", ")")
        )
        lines += [f"      check: {plain(reason)}" for reason in item.reasons]
    for day_off in course.no_class:
        until = f" to {written_day(day_off.last_day)}" if day_off.last_day != day_off.first_day else ""
        lines.append(f"  {written_day(day_off.first_day)}{until}  day off: {plain(day_off.name)}")
    lines += [f"  no date: {plain(work.title)} – {plain(work.reason)}" for work in course.undated]
    lines += [f"  note: {plain(note)}" for note in (*course.outline.notes, *course.notes)]
    return lines


def _quizzes(number: int) -> str:
    return "1 quiz" if number == 1 else f"{number} quizzes"


def _item_line(course: ResolvedCourse, item: ResolvedItem) -> str:
    return f"{plain(course.key)}: {plain(item.title)}, {written_day(item.date)} – {plain(item.reasons[0])}"
