"""Reads a term file (TOML): first and last day, examination period, holidays, days off."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any

from syllabus_io.errors import BadSetting
from syllabus_io.resolve.term import DayOff, TermFacts

__all__ = ["read_term_file"]

_TERM_KEYS = {
    "name",
    "first_day",
    "last_day",
    "finals",
    "holidays",
    "break_weeks_count",
    "week_one",
    "timezone",
    "rotation",
    "rotation_first_day",
}
_DAY_OFF_KEYS = {"name", "first_day", "last_day"}
_LARGEST_FILE_BYTES = 1_000_000


def read_term_file(path: Path) -> TermFacts:
    """What a file states of a term. First and last day may be missing: they are then worked out from the outlines.

    Raises BadSetting, naming the file and the setting, for a missing or malformed file, an unknown setting, a
    date that is none, or days in the wrong order.
    """
    content = _read_toml(path)
    unknown = set(content) - {"term", "no_class"}
    if unknown:
        raise BadSetting(path, f"unknown section {min(unknown)!r}", "use [term] and [[no_class]] only")
    table = content.get("term")
    if not isinstance(table, dict):
        raise BadSetting(path, "has no [term] section", "begin it with [term], name, first_day and last_day")
    fields = _Fields(path, "[term]", table, _TERM_KEYS)
    first_day, last_day = fields.optional_date("first_day"), fields.optional_date("last_day")
    if first_day and last_day and last_day < first_day:
        raise BadSetting(path, "last_day is before first_day", "swap or correct the two dates")
    return TermFacts(
        source=str(path),
        name=fields.text("name"),
        first_day=first_day,
        last_day=last_day,
        finals=fields.date_pair("finals"),
        holidays=fields.text("holidays"),
        break_weeks_count=fields.boolean("break_weeks_count"),
        week_one=fields.optional_date("week_one"),
        timezone=_read_timezone(fields),
        no_class=_read_days_off(path, content.get("no_class", [])),
        rotation=_read_rotation(fields),
        rotation_first_day=fields.optional_date("rotation_first_day"),
    )


def _read_toml(path: Path) -> dict[str, Any]:
    try:
        if path.is_dir():
            raise BadSetting(path, "is a folder, not a term file", "name the .toml file itself")
        if path.stat().st_size > _LARGEST_FILE_BYTES:
            raise BadSetting(path, "is far too large for a term file", "check that it is the file you meant")
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        raise BadSetting(path, "term file not found", "check the name, or leave --term out") from None
    except PermissionError:
        raise BadSetting(path, "term file cannot be opened", "give yourself the right to read it") from None
    except UnicodeDecodeError:
        raise BadSetting(path, "is not a text file in UTF-8", "save the term file as plain text (UTF-8)") from None
    except tomllib.TOMLDecodeError as error:
        fault = str(error)
        raise BadSetting(
            path,
            f"is not valid TOML: {fault[:1].lower()}{fault[1:]}",
            "mend that line; dates are written 2026-08-31, texts in double quotes",
        ) from None
    except RecursionError:
        raise BadSetting(path, "is nested too deeply", "check that it is the file you meant") from None


def _read_days_off(path: Path, entries: object) -> tuple[DayOff, ...]:
    if not isinstance(entries, list):
        raise BadSetting(path, "no_class is not a list", "write each day off as a [[no_class]] section")
    days_off = []
    for number, entry in enumerate(entries, start=1):
        where = f"[[no_class]] number {number}"
        if not isinstance(entry, dict):
            raise BadSetting(path, f"{where} is not a section", "give it name, first_day and last_day")
        fields = _Fields(path, where, entry, _DAY_OFF_KEYS)
        first_day = fields.required_date("first_day")
        last_day = fields.optional_date("last_day") or first_day
        if last_day < first_day:
            raise BadSetting(path, f"{where}: last_day is before first_day", "swap or correct the two dates")
        days_off.append(DayOff(fields.text("name") or "Day off", first_day, last_day))
    return tuple(days_off)


def _read_timezone(fields: _Fields) -> str | None:
    name = fields.text("timezone")
    if name is None:
        return None
    import zoneinfo

    try:
        zoneinfo.ZoneInfo(name)
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        raise fields.fault("timezone", f"{name!r} is no time zone", "write one like America/New_York") from None
    return name


def _read_rotation(fields: _Fields) -> tuple[str, ...]:
    labels = fields.table.get("rotation", [])
    if not isinstance(labels, list) or not all(isinstance(label, str) and label for label in labels):
        raise fields.fault("rotation", "is not a list of names", 'write it like ["A", "B"]')
    return tuple(labels)


@dataclass(frozen=True, slots=True)
class _Fields:
    """One section of the file; every getter names the file, section and setting in its error."""

    path: Path
    where: str
    table: Mapping[str, Any]
    known: set[str]

    def __post_init__(self) -> None:
        unknown = sorted(set(self.table) - self.known)
        if unknown:
            known = ", ".join(sorted(self.known))
            raise BadSetting(self.path, f"{self.where} has an unknown setting {unknown[0]!r}", f"known are {known}")

    def fault(self, key: str, fault: str, remedy: str) -> BadSetting:
        return BadSetting(self.path, f"{self.where} {key} {fault}", remedy)

    def text(self, key: str) -> str | None:
        value = self.table.get(key)
        if value is not None and not isinstance(value, str):
            raise self.fault(key, "is not text", "put it in double quotes")
        return value or None

    def boolean(self, key: str) -> bool | None:
        value = self.table.get(key)
        if value is not None and not isinstance(value, bool):
            raise self.fault(key, "is neither true nor false", "write true or false, without quotes")
        return value

    def optional_date(self, key: str) -> date | None:
        return self._as_date(key, self.table[key]) if key in self.table else None

    def required_date(self, key: str) -> date:
        if key not in self.table:
            raise self.fault(key, "is missing", f"add a line like {key} = 2026-08-31")
        return self._as_date(key, self.table[key])

    def date_pair(self, key: str) -> tuple[date, date] | None:
        value = self.table.get(key)
        if value is None:
            return None
        if not isinstance(value, list) or len(value) != 2:
            raise self.fault(key, "is not a pair of dates", f"write {key} = [2026-12-14, 2026-12-18]")
        first_day, last_day = (self._as_date(key, part) for part in value)
        if last_day < first_day:
            raise self.fault(key, "ends before it begins", "swap the two dates")
        return first_day, last_day

    def _as_date(self, key: str, value: object) -> date:
        if isinstance(value, str):
            try:
                value = date.fromisoformat(value)
            except ValueError:
                raise self.fault(key, f"is no date: {value!r}", "write it like 2026-08-31") from None
        if isinstance(value, datetime) or not isinstance(value, date):
            raise self.fault(key, f"is no date: {value!r}", "write it like 2026-08-31, without quotes")
        if not 1900 <= value.year <= 2200:
            raise self.fault(key, f"lies in the year {value.year}", "check the year")
        return value
