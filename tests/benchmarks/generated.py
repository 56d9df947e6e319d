"""Outlines from random plans, read back: ``-m tests.benchmarks.generated [--count 500] [--seed 1] [--skip 0]``.

For each layout family: how many items of the plans were found on their day, how many dates were right, and how many
wrong ones carried no reason to check. The plans are invented by ``tests.generators.outline_factory``, so they are known
without reading. A dated piece of work is found when the reader has one on that day of the same kind or by the same
words.
"""

from __future__ import annotations

import argparse
import json
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from rapidfuzz.fuzz import token_set_ratio

from syllabus_io.extract.reader import read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.records import Kind
from syllabus_io.pipeline import resolve_outlines
from syllabus_io.resolve.records import ResolvedItem
from syllabus_io.resolve.term import DayOff, TermFacts
from tests.generators.outline_factory import FAMILIES, write_outline

__all__ = ["main"]

LEAST_ALIKE = 60
_PLANNED, _FOUND, _READ, _RIGHT, _SILENT, _MARKED = "planned", "found", "read", "right", "silent", "marked"


def kinds_of_file() -> list[tuple[str, str]]:
    """Every family in both forms of file, in the order in which they are written."""
    return [(family, form) for family in FAMILIES for form in ("pdf", "docx")]


def read_back(path: Path, truth: dict[str, Any]) -> tuple[ResolvedItem, ...]:
    """The dated work of one generated outline, in the term of its plan."""
    term = truth["term"]
    days_off = tuple(
        DayOff(day["name"], _day(day["first_day"]), _day(day["last_day"] or day["first_day"]))
        for day in term["no_class"]
    )
    facts = TermFacts(
        "plan", name=term["name"], first_day=_day(term["first_day"]), last_day=_day(term["last_day"]), no_class=days_off
    )
    (course,) = resolve_outlines([read_outline(read_document(path))], facts).courses
    return tuple(item for item in course.items if item.kind is not Kind.READING and item.date is not None)


def _day(text: str) -> date:
    return date.fromisoformat(text)


def compare(planned: Sequence[dict[str, Any]], read: Sequence[ResolvedItem]) -> Counter[str]:
    """The counts of one outline; each planned item is found by one item read at most."""
    free = list(read)
    found = 0
    for item in planned:
        match = next((one for one in free if _is_same(item, one)), None)
        if match is not None:
            found += 1
            free.remove(match)
    marked = sum(item.needs_review for item in read if item not in free)
    silent = sum(not item.needs_review for item in free)
    return Counter(
        {
            _PLANNED: len(planned),
            _FOUND: found,
            _READ: len(read),
            _RIGHT: len(read) - len(free),
            _SILENT: silent,
            _MARKED: marked,
        }
    )


def _is_same(planned: dict[str, Any], read: ResolvedItem) -> bool:
    if read.date is None or read.date.isoformat() != planned["date"]:
        return False
    alike = token_set_ratio(planned["title"].lower(), read.title.lower()) >= LEAST_ALIKE
    return alike or read.kind.value == planned["kind"]


def _rows(counts: dict[str, Counter[str]]) -> Iterator[tuple[str, Counter[str]]]:
    yield from sorted(counts.items())
    yield "all", sum(counts.values(), Counter())


def main(arguments: Sequence[str] | None = None) -> None:
    """Prints a line for each family, and the names of outlines that were not read whole."""
    parser = argparse.ArgumentParser(prog="generated", description="read outlines from random plans back")
    parser.add_argument("--count", type=int, default=500, help="how many outlines")
    parser.add_argument("--seed", type=int, default=1, help="number of the first outline of each family")
    parser.add_argument("--skip", type=int, default=0, help="how many to leave out first, to go on from there")
    options = parser.parse_args(arguments)
    counts = {family: Counter[str]() for family in FAMILIES}
    kinds = kinds_of_file()
    with tempfile.TemporaryDirectory() as folder:
        for number in range(options.skip, options.skip + options.count):
            family, form = kinds[number % len(kinds)]
            path = write_outline(Path(folder), family, form, options.seed + number // len(kinds))
            truth = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
            counted = compare(truth["items"], read_back(path, truth))
            counts[family] += counted
            if counted[_FOUND] < counted[_PLANNED] or counted[_RIGHT] < counted[_READ]:
                print(f"not whole: {path.name}: {dict(counted)}")
    print(f"{'family':24}{'planned':>9}{'found':>8}{'right':>8}{'marked':>8}{'silent':>8}")
    for family, found in _rows(counts):
        if not found[_PLANNED]:
            continue
        shares = [found[_FOUND] / found[_PLANNED], found[_RIGHT] / max(found[_READ], 1)]
        shares.append(found[_MARKED] / max(found[_RIGHT], 1))
        figures = "".join(f"{share:>8.3f}" for share in shares)
        print(f"{family:24}{found[_PLANNED]:>9}{figures}{found[_SILENT]:>8}")


if __name__ == "__main__":
    main()
