"""``resolve``: single date phrases, from the command line or as JSON lines."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from syllabus_io.cli.clock import local_day
from syllabus_io.cli.options import ResolveOptions
from syllabus_io.cli.output import write_text
from syllabus_io.cli.report import plain, written_day
from syllabus_io.errors import BadSetting
from syllabus_io.pipeline import settle_term
from syllabus_io.term_file import read_term_file

if TYPE_CHECKING:
    from syllabus_io.resolve.records import Resolution
    from syllabus_io.resolve.term_calendar import TermCalendar

__all__ = ["resolve"]

_MOST_DATES = 100


@dataclass(frozen=True, slots=True)
class _Request:
    id: str
    text: str
    reference: date | None
    order: Literal["mdy", "dmy"] | None


@dataclass(frozen=True, slots=True)
class _Answer:
    """What became of one phrase. ``dates`` is filled for a recurring rule only."""

    day: date | None
    end_date: date | None
    time: str | None
    certainty: str
    reason: str
    rules: tuple[str, ...] = ()
    dates: tuple[date, ...] = ()


def resolve(options: ResolveOptions) -> int:
    """Prints what each phrase means. Returns 0, or 1 when a phrase given as words could not be fixed to a day."""
    if bool(options.phrases) == bool(options.lines):
        raise BadSetting("resolve", "needs phrases or --lines, one of the two", "put each phrase in quotes")
    calendar = _calendar(options.term)
    if options.lines:
        requests = _read_lines(options.lines)
    else:
        requests = iter([_Request(str(n), text, None, None) for n, text in enumerate(options.phrases, start=1)])
    answers = [(request, _answer(request, calendar, options)) for request in requests]
    if options.json:
        write_text(options.json, "".join(_json_line(request, answer) for request, answer in answers))
    else:
        for request, answer in answers:
            print(_sentence(request, answer))
    settled = all(answer.day or answer.time or answer.dates for _, answer in answers)
    return 0 if settled or options.lines else 1


def _calendar(term_file: Path | None) -> TermCalendar | None:
    if term_file is None:
        return None
    from syllabus_io.resolve.term_calendar import TermCalendar

    return TermCalendar(settle_term((), read_term_file(term_file), local_day()))


def _answer(request: _Request, calendar: TermCalendar | None, options: ResolveOptions) -> _Answer:
    from syllabus_io.resolve.evaluate import ReadingContext, expand, resolve_phrase
    from syllabus_io.resolve.expression import Every
    from syllabus_io.resolve.records import Unresolved

    reference = request.reference or options.reference
    if reference is None and calendar is None:
        reference = local_day()
    context = ReadingContext(order=request.order or options.order, reference=reference)
    found = resolve_phrase(request.text, calendar, context)
    if found is None:
        return _Answer(None, None, None, "unresolved", "this is no date phrase that the program knows")
    phrase, resolution = found
    time = _time(phrase.time)
    if isinstance(phrase.expression, Every):
        dates = expand(phrase.expression, calendar, context)[:_MOST_DATES]
        reasons = () if isinstance(resolution, Unresolved) else resolution.reasons
        reason = "; ".join(reasons) if dates else "the rule gives no day here"
        return _Answer(dates[0] if dates else None, None, time, "derived", reason, phrase.rules, dates)
    if phrase.expression is None:
        return _Answer(None, None, time, "stated", "only a time of day is written", phrase.rules)
    day, end_date, certainty, reason = _describe(resolution)
    return _Answer(day, end_date, time, certainty, reason, phrase.rules)


def _time(time: object) -> str | None:
    if time is None:
        return None
    from syllabus_io.resolve.expression import ClockTime

    if isinstance(time, ClockTime) and time.from_midnight:
        return "23:59"
    return str(time)


def _describe(resolution: Resolution) -> tuple[date | None, date | None, str, str]:
    from syllabus_io.resolve.records import Ambiguous, Resolved

    match resolution:
        case Resolved():
            reason = "; ".join([*resolution.reasons, resolution.how]).strip("; ")
            return resolution.date, resolution.end_date, resolution.certainty.value, reason
        case Ambiguous():
            either = " or ".join(written_day(candidate.date) for candidate in resolution.candidates)
            return None, None, "ambiguous", f"{resolution.question} ({either})"
        case _:
            return None, None, "unresolved", " – ".join(filter(None, [resolution.reason, resolution.settle]))


def _json_line(request: _Request, answer: _Answer) -> str:
    record: dict[str, Any] = {
        "id": request.id,
        "date": answer.day.isoformat() if answer.day else None,
        "end_date": answer.end_date.isoformat() if answer.end_date else None,
        "time": answer.time,
        "certainty": answer.certainty,
        "reason": answer.reason,
        "rules": list(answer.rules),
    }
    if answer.dates:
        record["dates"] = [day.isoformat() for day in answer.dates]
    return json.dumps(record, ensure_ascii=False) + "\n"


def _sentence(request: _Request, answer: _Answer) -> str:
    if answer.dates:
        shown = ", ".join(written_day(day) for day in answer.dates[:10])
        day = shown + (f" … ({len(answer.dates)} in all)" if len(answer.dates) > 10 else "")
    else:
        day = written_day(answer.day)
    if answer.end_date and answer.end_date != answer.day:
        day += f" to {written_day(answer.end_date)}"
    if answer.time:
        day += f" {answer.time}"
    why = "; ".join(filter(None, [answer.reason, f"read as {' > '.join(answer.rules)}" if answer.rules else ""]))
    return f"{plain(request.text)}: {day} [{answer.certainty}]{f' {plain(why)}' if why else ''}"


def _read_lines(path: Path) -> Iterator[_Request]:
    try:
        text = sys.stdin.read() if path == Path("-") else path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        raise BadSetting(path, f"cannot be read ({why})", "give a file of JSON lines") from None
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        try:
            record = json.loads(line)
            reference = record.get("reference")
            yield _Request(
                str(record.get("id", number)),
                str(record["text"]),
                datetime.fromisoformat(reference).date() if reference else None,
                _order(record.get("order")),
            )
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
            raise BadSetting(
                path,
                f"line {number} is no phrase record",
                'write lines like {"id": "1", "text": "Oct 6", "reference": "2026-09-01"}',
            ) from None


def _order(word: object) -> Literal["mdy", "dmy"] | None:
    match word:
        case None:
            return None
        case "mdy" | "dmy":
            return word
        case _:
            raise ValueError(f"no order of day and month: {word!r}")
