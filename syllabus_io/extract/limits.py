"""How much one file may ask for. What lies beyond is not read, and one line says so."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["DEFAULT_LIMITS", "ReadingLimits"]


@dataclass(frozen=True, slots=True)
class ReadingLimits:
    """What reading one file may cost. A real outline needs about a thousandth of most of these.

    ``seconds`` is time on the clock and ``cpu_seconds`` computing time; ``memory_bytes`` bounds the address space of
    a reading process, where the system can bound it. Pages after ``pages`` are left unread, with a note.
    ``unpacked_bytes`` bounds all parts of a Word file together, ``part_bytes`` one part of it, once unpacked. What a
    stream of a PDF unpacks to is bounded by memory and computing time alone: a file that goes beyond them is not read.
    ``reply_bytes`` bounds what a reading process may answer.
    """

    seconds: float = 60.0
    cpu_seconds: int = 40
    memory_bytes: int = 1_500_000_000
    pages: int = 200
    file_bytes: int = 100_000_000
    unpacked_bytes: int = 400_000_000
    part_bytes: int = 50_000_000
    reply_bytes: int = 64_000_000


DEFAULT_LIMITS = ReadingLimits()
