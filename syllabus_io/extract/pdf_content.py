"""Runs the content streams of a page: plain ones at several times the library's speed, all others by its own parser.

A plain stream (ISO 32000-1, 7.8.2) has numbers, names, strings, arrays, dictionaries and operators, and neither
comments, inline images nor anything that the standard does not allow. What the library makes of it is made here too.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any, Final

from pdfminer.pdfinterp import PDFPageInterpreter
from pdfminer.pdftypes import stream_value
from pdfminer.psparser import KWD, LIT, PSKeyword, literal_name

__all__ = ["ContentInterpreter", "read_objects"]

#: A longer content is left to the library, which stops reading where the limits of a page are reached.
MOST_CONTENT_BYTES: Final = 4_000_000

_ENDS: Final = rb"#/%\[\]()<>{}\s"
_TOKEN = re.compile(
    rb"[\s\x00]*+(?:"
    rb"([+-]?\d{1,18}+(?![\d.]))"  # 1 whole number
    rb"|([+-]?(?:\d{1,18}+\.\d*+|\.\d++))"  # 2 number
    rb"|([A-Za-z][^" + _ENDS + rb"]*+|['\"])"  # 3 operator
    rb"|/([^" + _ENDS + rb"]*+)(?!\#)"  # 4 name without hexadecimal signs
    rb"|\(([^()\\]*+)\)"  # 5 string
    rb"|\(((?:[^()\\]|\\.)*+)\)"  # 6 string with escapes
    rb"|<([0-9A-Fa-f\s]*+)>"  # 7 hexadecimal string
    rb"|(\[)|(\])|(<<)|(>>)"  # 8 to 11
    rb")",
    re.DOTALL,
)
_ESCAPE = re.compile(rb"\\([0-7]{1,3}|\r\n|.)", re.DOTALL)
_ESCAPED: Final = {
    b"b": b"\b",
    b"t": b"\t",
    b"n": b"\n",
    b"f": b"\f",
    b"r": b"\r",
    b"(": b"(",
    b")": b")",
    b"\\": b"\\",
}
_IMAGE: Final = (b"BI", b"ID")


class _NotPlain(Exception):
    """The stream has something that is left to the library."""


def read_objects(content: bytes) -> list[Any] | None:
    """The operands and operators of a content stream in the library's types; None when it is not a plain one."""
    try:
        return _read(content)
    except _NotPlain:
        return None


def _read(content: bytes) -> list[Any]:
    found: list[Any] = []
    outer: list[tuple[str, list[Any]]] = []
    here, end = found, 0
    scan = _TOKEN.scanner(content).match  # type: ignore[attr-defined]  # as the tokenizer of the standard library does
    while (token := scan()) is not None:
        kind = token.lastindex
        end = token.end()
        if kind == 1:
            here.append(int(token[1]))
        elif kind == 2:
            here.append(float(token[2]))
        elif kind == 3:
            here.append(_operator(token[3], is_inside=bool(outer)))
        elif kind == 5:
            here.append(token[5])
        elif kind == 7:
            here.append(_hexadecimal(token[7]))
        elif kind == 4:
            here.append(_name(token[4]))
        elif kind == 6:
            here.append(_ESCAPE.sub(_unescaped, token[6]))
        elif kind in (8, 10):
            outer.append(("]" if kind == 8 else ">>", here))
            here = []
        else:
            if not outer or outer[-1][0] != ("]" if kind == 9 else ">>"):
                raise _NotPlain
            _, before = outer.pop()
            before.append(here if kind == 9 else _dictionary(here))
            here = before
    if outer or content[end:].strip(b"\x00 \t\r\n\f\v"):
        raise _NotPlain
    return found


def _operator(written: bytes, is_inside: bool) -> PSKeyword | bool:
    if written in (b"true", b"false"):
        return written == b"true"
    if is_inside or written in _IMAGE:
        raise _NotPlain
    return KWD(written)


def _name(written: bytes) -> Any:
    try:
        return LIT(str(written, "utf-8"))
    except UnicodeDecodeError:
        return LIT(written)


def _hexadecimal(written: bytes) -> bytes:
    digits = b"".join(written.split())
    if len(digits) % 2:
        raise _NotPlain
    return bytes.fromhex(digits.decode("ascii"))


def _unescaped(escape: re.Match[bytes]) -> bytes:
    written = escape[1]
    if not written[:1].isdigit() or written[:1] in b"89":
        return _ESCAPED.get(written, b"")
    if int(written, 8) > 255:
        raise _NotPlain
    return bytes((int(written, 8),))


def _dictionary(parts: list[Any]) -> dict[str, Any]:
    if len(parts) % 2:
        raise _NotPlain
    return {literal_name(key): value for key, value in zip(parts[::2], parts[1::2], strict=True)}


class ContentInterpreter(PDFPageInterpreter):
    """The library's interpreter; plain content reaches its operators without the library's parser."""

    def execute(self, streams: Sequence[object]) -> None:
        """Runs the operators of the streams; what is not plain, and streams within themselves, the library runs."""
        own = [stream_value(stream) for stream in streams]
        numbers = [stream.objid for stream in own]
        if any(number is None or number in self.parent_stream_ids for number in numbers):
            super().execute(streams)
            return
        content = b"\n".join(stream.get_data() for stream in own)
        objects = read_objects(content) if len(content) <= MOST_CONTENT_BYTES else None
        if objects is None:
            super().execute(streams)
            return
        self.stream_ids.clear()
        self.stream_ids.update(number for number in numbers if number is not None)
        self._run(objects)

    def _run(self, objects: list[Any]) -> None:
        known: dict[PSKeyword, tuple[Any, int] | None] = {}
        push = self.push
        for item in objects:
            if type(item) is not PSKeyword:
                push(item)
                continue
            if item not in known:
                known[item] = self._operator(item)
            step = known[item]
            if step is None:
                continue
            run, count = step
            if not count:
                run()
                continue
            operands = self.pop(count)
            if len(operands) == count:
                run(*operands)

    def _operator(self, keyword: PSKeyword) -> tuple[Any, int] | None:
        """The method of an operator and how many operands it takes; None for one that is unknown."""
        name = str(keyword.name, "utf-8", "ignore").replace("*", "_a").replace('"', "_w").replace("'", "_q")
        method = getattr(self, f"do_{name}", None)
        return (method, method.__code__.co_argcount - 1) if method is not None else None
