"""Ids of items that survive a second reading of the same outline, also when dates move."""

from __future__ import annotations

import hashlib
import re

from syllabus_io.outline.records import Kind

__all__ = ["ItemIds"]

_LENGTH = 10


class ItemIds:
    """Gives each item of one course its id: from course, kind, title and number, never from the date.

    Items that these do not tell apart are counted in the order of the outline, so ids are unique.
    """

    def __init__(self, course: str) -> None:
        self._course = course
        self._seen: dict[str, int] = {}

    def next_id(self, kind: Kind, title: str, number: int | None) -> str:
        """The id of the next item with that kind, title and number."""
        words = " ".join(re.findall(r"\w+", title.casefold()))
        identity = f"{self._course.casefold()}|{kind.value}|{words}|{number or ''}"
        count = self._seen[identity] = self._seen.get(identity, 0) + 1
        digest = hashlib.sha256(f"{identity}|{count}".encode()).hexdigest()
        return digest[:_LENGTH]
