"""One tree of errors. Each says, in one lower-case sentence, where, what is wrong, and what to do.

Only faults of the input or of the request are raised as :class:`SyllabusError`; the command line prints
their sentence and exits with status 2. A doubtful date is never an error: it is a record with a reason.
"""

from __future__ import annotations

from pathlib import Path

__all__ = [
    "BadSetting",
    "OutputNotWritable",
    "PhraseNotUnderstood",
    "SyllabusError",
    "UnreadableDocument",
    "WorkbookMismatch",
]


class SyllabusError(Exception):
    """A fault the user can mend: what it concerns, what is wrong, what to do next."""

    def __init__(self, subject: str | Path, fault: str, remedy: str) -> None:
        self.subject = str(subject)
        self.fault = fault
        self.remedy = remedy
        super().__init__(f"{self.subject}: {fault}; {remedy}")

    def __reduce__(self) -> tuple[type[SyllabusError], tuple[str, str, str]]:
        return (type(self), (self.subject, self.fault, self.remedy))


class UnreadableDocument(SyllabusError):
    """An outline that cannot be read: missing, empty, encrypted, without text, or not what its ending says."""


class BadSetting(SyllabusError):
    """A term file, option or setting that makes no sense."""


class OutputNotWritable(SyllabusError):
    """The place where the result should go cannot be written, or holds something that must not be lost."""


class PhraseNotUnderstood(SyllabusError):
    """Text that was given as a date phrase and is none."""


class WorkbookMismatch(SyllabusError):
    """A workbook that this program did not make, or that lost what it needs to be read back."""
