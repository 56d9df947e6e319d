"""Which places of the outlines a person is shown as pictures: those of the rows of Review that ask to be checked."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import quote

from syllabus_io.plan.records import Plan
from syllabus_io.provenance import Box, PagePlace
from syllabus_io.workbook.review_rows import ReviewRow

__all__ = ["AsPrinted", "PrintedPlace", "file_link", "is_file_link", "printed_places"]

_MOST_PLACES = 60
_MOST_OF_ONE = 3  # places shown for one row
_MOST_TITLES = 3


@dataclass(frozen=True, slots=True)
class AsPrinted:
    """What leads from the workbook back to the outlines: links to the files, by the digest of their contents, and PNG
    pictures of places, by the places' keys."""

    links: Mapping[str, str] = field(default_factory=dict)
    pictures: Mapping[str, bytes] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class PrintedPlace:
    """A place on a page that dates some rows of Review. ``digest`` tells the outline, ``rows`` are ids."""

    digest: str
    course: str
    page: int
    box: Box
    titles: tuple[str, ...]
    rows: tuple[str, ...]

    @property
    def key(self) -> str:
        """A name that the same place of the same file always has."""
        return " ".join([self.digest[:16], str(self.page), *(f"{side:.0f}" for side in self.box)])

    @property
    def titles_in_words(self) -> str:
        """What stands there."""
        more = len(self.titles) - _MOST_TITLES
        return "\n".join([*self.titles[:_MOST_TITLES], *([f"and {more} more"] if more > 0 else [])])


def file_link(file: Path, workbook: Path) -> str:
    """A link from a workbook to a file: a relative reference (RFC 3986, section 4.2) without a scheme or authority, so
    that it can lead to nothing but a file; empty where there is no such way from one to the other."""
    try:
        way = os.path.relpath(file.resolve(), workbook.resolve().parent)
    except ValueError:
        return ""  # on another drive
    return quote(os.fsencode(Path(way).as_posix()))  # the bytes of the name, which need not be text


def is_file_link(link: object) -> bool:
    """Whether something is such a link: what comes from a workbook may be anything."""
    return isinstance(link, str) and re.fullmatch(r"[\w.~%-][\w.~%/-]*(?:#page=\d+)?", link, re.ASCII) is not None


def printed_places(plan: Plan, rows: Iterable[ReviewRow]) -> tuple[PrintedPlace, ...]:
    """The places of the rows that ask to be checked, in their order; one place once, whatever it dates. Places without
    a page and a box (in Word files) are left out."""
    digests = [course.outline.digest for course in plan.resolved.courses]
    found: dict[tuple[str, PagePlace], list[ReviewRow]] = {}
    for row in rows:
        if not row.why:
            continue
        digest = digests[row.course_number - 1]
        boxes = dict.fromkeys((place.page, place.box) for place in row.places)
        shown = [(page, box) for page, box in boxes if page is not None and box is not None]
        for page_place in shown[:_MOST_OF_ONE]:
            found.setdefault((digest, page_place), []).append(row)
    places = [
        PrintedPlace(
            digest,
            rows[0].course,
            page,
            box,
            tuple(dict.fromkeys(row.title for row in rows)),
            tuple(dict.fromkeys(row.id for row in rows)),
        )
        for (digest, (page, box)), rows in found.items()
    ]
    return tuple(places[:_MOST_PLACES])
