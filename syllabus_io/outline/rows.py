"""What the schedules of an outline hold, gathered while they are read."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from syllabus_io.extract.document import Cell, Line, Table
from syllabus_io.outline.frames import Frame, Passage
from syllabus_io.outline.grids import Column, Grid
from syllabus_io.outline.records import Mention, UndatedWork
from syllabus_io.outline.row_frames import RowFrames
from syllabus_io.outline.week_starts import ClassWeek
from syllabus_io.provenance import Box
from syllabus_io.resolve.expression import DateExpression, MeetingNumber, Phrase, Week

__all__ = ["Rows", "TableState"]


@dataclass(slots=True)
class TableState:
    months: RowFrames = field(default_factory=RowFrames)
    frame: Frame = field(default_factory=Frame)
    last_day: DateExpression | None = None
    ranged: int = 0


@dataclass(slots=True)
class Rows:
    """What the schedules of an outline hold, gathered in reading order: passages and the evidence of their rows."""

    passages: list[Passage] = field(default_factory=list)
    row_dates: list[Mention] = field(default_factory=list)
    week_rows: list[tuple[int, DateExpression]] = field(default_factory=list)
    dated_columns: list[tuple[Grid, tuple[Column, ...], int]] = field(default_factory=list)
    requirement_tables: list[tuple[Table, tuple[Column, ...], int]] = field(default_factory=list)
    last_columns: tuple[Column, ...] = ()
    last_state: TableState | None = None
    groups: int = 0
    class_days: dict[int, DateExpression] = field(default_factory=dict)
    class_doubles: set[int] = field(default_factory=set)
    undated: list[UndatedWork] = field(default_factory=list)
    loose: set[Box | None] = field(default_factory=set)
    struck: dict[tuple[int | None, int, int], str] = field(default_factory=dict)
    course: ClassWeek = field(default_factory=ClassWeek)

    def next_row(self) -> int:
        """The number of the next dated row, from 1."""
        return len(self.row_dates) + 1

    def add_class(self, number: int | None, day: DateExpression | None) -> None:
        """Keep the day that a row gives the class of its number; a number with two days is no use."""
        if number is None or day is None or isinstance(day, MeetingNumber) or number in self.class_doubles:
            return
        if number in self.class_days and self.class_days[number] != day:
            del self.class_days[number]
            self.class_doubles.add(number)
        else:
            self.class_days[number] = day

    def add_row(self, frame: Frame, cell_or_line: Cell | Line, context: str) -> Frame:
        """The frame with its row number, after keeping the row's date as evidence."""
        expression = frame.day if frame.day is not None else frame.stretch
        if expression is None:
            return frame
        frame = replace(frame, row=self.next_row())
        phrase = Phrase(frame.words, 0, len(frame.words), expression)
        self.row_dates.append(
            Mention(phrase, cell_or_line.place, frame.words, " ".join(context.split())[:300], row=frame.row)
        )
        if frame.week is not None and not isinstance(expression, Week):
            self.week_rows.append((frame.week, expression))
        return frame
