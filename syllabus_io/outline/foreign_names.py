"""Names of months and weekdays in Spanish, French, German, Portuguese and Italian, as they head calendars."""

from __future__ import annotations

from functools import cache

from syllabus_io.resolve.expression import Weekday

__all__ = ["foreign_month", "foreign_weekday"]

_MONTHS = (
    "enero janvier janv januar jänner janeiro gennaio",
    "febrero février fevrier févr februar fevereiro febbraio",
    "marzo mars märz março",
    "abril avril aprile",
    "mayo mai maio maggio",
    "junio juin juni junho giugno",
    "julio juillet juil juli julho luglio",
    "agosto août aout",
    "septiembre setiembre septembre setembro settembre",
    "octubre octobre oktober okt outubro ottobre",
    "noviembre novembre novembro",
    "diciembre décembre decembre dezember dez dezembro dicembre",
)
_WEEKDAYS = (
    "lunes lundi montag segunda-feira lunedì",
    "martes mardi dienstag terça-feira martedì",
    "miércoles miercoles mercredi mittwoch quarta-feira mercoledì",
    "jueves jeudi donnerstag quinta-feira giovedì",
    "viernes vendredi freitag sexta-feira venerdì",
    "sábado sabado samedi samstag sonnabend sabato",
    "domingo dimanche sonntag domenica",
)


@cache
def _numbers(rows: tuple[str, ...]) -> dict[str, int]:
    return {word: number for number, row in enumerate(rows, 1) for word in row.split()}


def foreign_month(word: str) -> int | None:
    """The number of the month that a word of one of these languages names; None for others."""
    return _numbers(_MONTHS).get(word.lower().rstrip("."))


def foreign_weekday(word: str) -> Weekday | None:
    """The weekday that a word of one of these languages names; None for others."""
    number = _numbers(_WEEKDAYS).get(word.lower().rstrip("."))
    return Weekday(number) if number is not None else None
