"""What an update found and did, as records that the command line turns into sentences."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

__all__ = ["Change", "Changed"]


class Changed(Enum):
    """What a revised outline changed. QUESTION: the person and the outline both changed the same."""

    QUESTION = "to decide"
    MOVED = "moved"
    NEW = "new"
    GONE = "gone"
    KEPT = "gone from the outline, kept because something was typed for it"
    RENAMED = "renamed"
    WEIGHED = "re-weighted"
    DAYS_OFF = "days off"
    COURSE = "course"


@dataclass(frozen=True, slots=True)
class Change:
    """One change, in a plain sentence."""

    what: Changed
    course: str
    text: str
