"""Records as JSON text and back, so that a workbook can hold what was read from the outlines.

The text says what every value is ({"is": "MonthDay", ...}), so it can be read without knowing what to expect. Only
the records of the stages are ever made from text; a field with its default is left out, and a missing one gets it.
"""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterable
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from typing import Any

from syllabus_io import provenance
from syllabus_io.outline import records as outline_records
from syllabus_io.outline.records import Item
from syllabus_io.plan import records as plan_records
from syllabus_io.resolve import expression, term
from syllabus_io.resolve import records as resolve_records

__all__ = ["read_records", "write_records"]

_MODULES = (provenance, expression, term, outline_records, resolve_records, plan_records)
_KNOWN: dict[str, type[Any]] = {
    name: thing
    for module in _MODULES
    for name, thing in vars(module).items()
    if isinstance(thing, type) and thing.__module__ == module.__name__
}


def write_records(value: object) -> str:
    """A record, with all records in it, as JSON text. An item that occurs twice is written once, so that it is read
    back as one and the same. Raises TypeError for a value that is neither a record nor one of their parts."""
    shared = _Shared()
    content = shared.written(value)
    return json.dumps({"items": shared.items, "content": content}, separators=(",", ":"))


def read_records(text: str) -> Any:
    """The record that :func:`write_records` wrote. Raises ValueError when the text holds anything else."""
    try:
        parts = json.loads(text)
        items: list[object] = []
        for part in parts["items"]:
            items.append(_made(part, items))
        return _made(parts["content"], items)
    except (KeyError, TypeError, AttributeError, IndexError, RecursionError) as error:
        raise ValueError(f"no records: {error}") from None


class _Shared:
    """Writes values; items go into a list of their own, in which each stands once."""

    def __init__(self) -> None:
        self.items: list[object] = []
        self._places: dict[int, int] = {}
        self._held: list[object] = []

    def written(self, value: object) -> object:
        if isinstance(value, Item):
            if id(value) not in self._places:
                record = self._record(value)
                self._places[id(value)] = len(self.items)
                self._held.append(value)
                self.items.append(record)
            return {"item": self._places[id(value)]}
        return self._plain(value)

    def _plain(self, value: object) -> object:
        if isinstance(value, Enum):
            return {"is": type(value).__name__, "name": value.name}
        if value is None or isinstance(value, bool | int | float | str):
            return value
        if isinstance(value, datetime.date):
            return {"is": "date", "day": value.isoformat()}
        if isinstance(value, datetime.time):
            return {"is": "time", "at": value.isoformat()}
        if type(value).__name__ in _KNOWN and isinstance(value, tuple):
            return {"is": type(value).__name__, "parts": [self.written(part) for part in value]}
        if isinstance(value, Iterable):
            return [self.written(part) for part in value]
        return self._record(value)

    def _record(self, value: object) -> dict[str, object]:
        if not is_dataclass(value) or isinstance(value, type) or _KNOWN.get(type(value).__name__) is not type(value):
            raise TypeError(f"cannot be written as text: {type(value).__name__}")
        record: dict[str, object] = {"is": type(value).__name__}
        for field in fields(value):
            part = getattr(value, field.name)
            if field.default is MISSING or part != field.default:
                record[field.name] = self.written(part)
        return record


def _made(value: Any, items: list[object]) -> Any:
    if isinstance(value, list):
        return tuple(_made(part, items) for part in value)
    if not isinstance(value, dict):
        return value
    if "item" in value and "is" not in value:
        return items[value["item"]]
    name = value["is"]
    if name == "date":
        return datetime.date.fromisoformat(value["day"])
    if name == "time":
        return datetime.time.fromisoformat(value["at"])
    kind = _KNOWN[name]
    if issubclass(kind, Enum):
        return kind[value["name"]]
    if issubclass(kind, tuple):
        return kind(*(_made(part, items) for part in value["parts"]))
    # A field that this version does not know was dropped since: the rest still stands.
    names = {field.name for field in fields(kind)}
    return kind(**{key: _made(part, items) for key, part in value.items() if key in names})
