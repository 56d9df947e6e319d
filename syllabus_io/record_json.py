"""Outlines as JSON and back: the form in which they cross from process to process and lie in the cache.

Only the records named here can come out of it, whatever the text says: unlike a pickle, it cannot run anything.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date, time
from enum import Enum
from functools import cache
from types import ModuleType
from typing import Any

from syllabus_io.outline.records import Outline

__all__ = ["outline_from_json", "outline_to_json"]

_TUPLE = ""
_DATE = "date"
_TIME = "time"


def outline_to_json(outline: Outline) -> str:
    """The outline on one line of JSON, every field of every record."""
    return json.dumps(_packed(outline), ensure_ascii=True, separators=(",", ":"))


def outline_from_json(text: str) -> Outline:
    """The outline that :func:`outline_to_json` wrote. Raises ValueError for anything else."""
    try:
        outline = _unpacked(json.loads(text))
    except (KeyError, TypeError, IndexError, AttributeError, RecursionError) as error:
        raise ValueError(f"the text holds no outline ({type(error).__name__})") from None
    if not isinstance(outline, Outline):
        raise ValueError("the text holds something other than an outline")
    return outline


def _packed(value: Any) -> Any:
    """Plain values as they are; a record as a list of its name and its fields; a tuple as a list behind ""."""
    if value is None or type(value) in (str, int, float, bool):
        return value
    if isinstance(value, Enum):
        return [type(value).__name__, value.value]
    if is_dataclass(value):
        kind: type = type(value)
        return [kind.__name__, *(_packed(getattr(value, name)) for name in _field_names(kind))]
    if isinstance(value, tuple):
        name = type(value).__name__ if hasattr(value, "_fields") else _TUPLE
        return [name, *map(_packed, value)]
    if isinstance(value, time):
        return [_TIME, value.isoformat()]
    if isinstance(value, date):
        return [_DATE, value.isoformat()]
    raise TypeError(f"no record of an outline: {type(value).__name__}")


@cache
def _field_names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))


def _unpacked(value: Any) -> Any:
    if type(value) is not list:
        if isinstance(value, dict):
            raise TypeError("an object where a list belongs")
        return value
    name, *parts = value
    if name == _TUPLE:
        return tuple(map(_unpacked, parts))
    return _makers()[name](*map(_unpacked, parts))


@cache
def _makers() -> dict[str, Callable[..., Any]]:
    """What makes each record, by the record's name."""
    from syllabus_io import provenance
    from syllabus_io.outline import records
    from syllabus_io.resolve import expression, term

    makers: dict[str, Callable[..., Any]] = {_DATE: date.fromisoformat, _TIME: time.fromisoformat}
    for module in (provenance, expression, term, records):
        makers.update(_records_of(module))
    return makers


def _records_of(module: ModuleType) -> dict[str, Callable[..., Any]]:
    return {
        name: kind
        for name, kind in vars(module).items()
        if isinstance(kind, type)
        and kind.__module__ == module.__name__
        and (is_dataclass(kind) or issubclass(kind, Enum) or hasattr(kind, "_fields"))
    }
