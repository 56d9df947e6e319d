"""One outline explained: where everything was read, in which words, by which rules, and what was left out and why."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from syllabus_io.cli.report import plain, written_day
from syllabus_io.outline.records import Mention, Weight
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import write_expression
from syllabus_io.resolve.records import Ambiguous, Resolution, Resolved, ResolvedCourse, ResolvedItem, Unresolved

__all__ = ["explain_course"]

_LONGEST_CONTEXT = 160
_SCAFFOLD = frozenset({"<day with time>", "<day>", "<date>", "<timed date>", "<recurring>", "<rule>"})
"""Rules that only hand on what another one read."""

_MEANINGS = {
    "stated": "stated: day and month are written",
    "derived": "derived: worked out from what the outline states",
    "assumed": "assumed: it needs a fact that the outline does not give",
    "confirmed": "confirmed by a person",
}


def explain_course(course: ResolvedCourse) -> list[str]:
    """The lines that explain the reading of one outline."""
    facts = course.outline.course
    lines = [" – ".join(plain(part) for part in (facts.code, facts.title, facts.term) if part) or course.outline.file]
    lines += ["", f"Dated ({len(course.items)})"]
    for item in sorted(course.items, key=lambda item: (item.date or date.max, item.title)):
        lines += _of_item(item)
    lines += ["", f"Days off ({len(course.outline.no_class)})"]
    for off in course.outline.no_class:
        lines.append(f"  {plain(off.name)}")
        lines += _of_mention(off.mention)
    lines += ["", f"Without a date ({len(course.undated)})"]
    for work in course.undated:
        lines += [f"  {work.kind.value}: {plain(work.title)}", f"      where    {_where(work.place)}"]
        lines += [f"      because  {plain(work.reason)}"]
    lines += ["", f"Grading ({len(course.outline.grading.categories)})"]
    for part in course.outline.grading.categories:
        counted = "".join(
            [f", {part.count} of them" if part.count else "", f", {part.drop} dropped" if part.drop else ""]
        )
        where = f" ({_where(part.place)})" if part.place else ""
        lines.append(f"  {plain(part.name)}: {_weight(Weight(part.weight, part.points))}{counted}{where}")
    lines += ["", f"Dates that were left out ({len(course.outline.set_aside)})"]
    for mention in course.outline.set_aside:
        lines += [f"  “{plain(mention.words)}”, {_where(mention.place)}", f"      in       “{_context(mention)}”"]
        lines += [f"      because  {plain(doubt)}" for doubt in mention.doubts]
    lines += [f"note: {plain(note)}" for note in (*course.outline.notes, *course.notes)]
    return lines


def _of_item(item: ResolvedItem) -> Iterator[str]:
    time = f" {item.time}" if item.time else ""
    weight = f", {_weight(item.weight)}" if item.weight else ""
    yield f"  {written_day(item.date)}{time}  {item.kind.value}: {plain(item.title)}{weight}"
    yield from _of_mention(item.mention)
    yield f"      certain  {_certainty(item.resolution)}"
    if item.time_note:
        yield f"      time     {plain(item.time_note)}"
    for other in item.item.mentions:
        if other is not item.mention:
            yield f"      also     {_where(other.place)}: “{plain(other.words)}” in “{_context(other)}”"
    for reason in item.reasons:
        yield f"      check    {plain(reason)}"


def _of_mention(mention: Mention) -> Iterator[str]:
    yield f"      where    {_where(mention.place)}{f', dated row {mention.row}' if mention.row else ''}"
    yield f"      words    “{plain(mention.words)}” in “{_context(mention)}”"
    expression = mention.phrase.expression
    read = write_expression(expression) if expression is not None else "no day"
    named = [rule for rule in mention.phrase.rules if rule not in _SCAFFOLD and " as a " not in rule]
    yield f"      read as  {read}, by {'; '.join(named) or 'its row, column or heading'}"


def _certainty(resolution: Resolution) -> str:
    match resolution:
        case Resolved():
            how = f" ({plain(resolution.how)})" if resolution.how else ""
            return f"{_MEANINGS[resolution.certainty.value]}{how}"
        case Ambiguous():
            options = [f"{written_day(option.date)} – {plain(option.reason)}" for option in resolution.candidates]
            return f"open between {'; '.join(options)}"
        case Unresolved():
            return f"no day{f': {plain(resolution.settle)} would settle it' if resolution.settle else ''}"


def _where(place: Place) -> str:
    parts = [f"page {place.page}" if place.page else "", f"row {place.row}" if place.row else ""]
    parts += [f"column {place.column}" if place.column else "", "" if place.row else f"paragraph {place.block}"]
    return ", ".join(part for part in parts if part)


def _context(mention: Mention) -> str:
    """The words around a date, cut at both ends where there are many."""
    text = plain(mention.context)
    middle = max(text.find(plain(mention.words)), 0) + len(plain(mention.words)) // 2
    begin = max(0, min(middle - _LONGEST_CONTEXT // 2, len(text) - _LONGEST_CONTEXT))
    end = begin + _LONGEST_CONTEXT
    return f"{'…' if begin else ''}{text[begin:end]}{'…' if end < len(text) else ''}"


def _weight(weight: Weight) -> str:
    if weight.percent is not None:
        return f"{weight.percent:g} %"
    return f"{weight.points:g} points" if weight.points is not None else "no weight given"
