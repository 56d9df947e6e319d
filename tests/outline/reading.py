"""What the reader finds in a small document, in a form that is easy to write down in tests."""

from __future__ import annotations

from syllabus_io.extract.document import Document
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.resolve.expression import write_expression

__all__ = ["dated_work", "days_off", "notation", "readings", "titles", "work"]


def notation(mention: Mention) -> str:
    """The compact notation of a mention's date, with its time behind "@"."""
    expression = mention.phrase.expression
    time = f" @{mention.phrase.time}" if mention.phrase.time is not None else ""
    return (write_expression(expression) if expression is not None else "no date") + time


def work(document: Document) -> tuple[Item, ...]:
    """The graded items, readings left out."""
    return tuple(item for item in read_outline(document).items if item.kind is not Kind.READING)


def titles(document: Document) -> list[str]:
    """The titles of the graded items in reading order."""
    return [item.title for item in work(document)]


def dated_work(document: Document) -> dict[str, str]:
    """Each graded item as "kind: title" with the notation of the date to trust most."""
    return {f"{item.kind.value}: {item.title}": notation(item.mentions[0]) for item in work(document)}


def readings(document: Document) -> dict[str, str]:
    """Each dated reading with the notation of its date."""
    return {
        item.title: notation(item.mentions[0]) for item in read_outline(document).items if item.kind is Kind.READING
    }


def days_off(document: Document) -> dict[str, str]:
    """Each day off with the notation of its date."""
    return {off.name: notation(off.mention) for off in read_outline(document).no_class}
