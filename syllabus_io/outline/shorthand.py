"""Short names that an outline gives its own work: "WJ = weekly journal", "Field reports (FR)", then "WJ 3" alone."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.titles import singular
from syllabus_io.outline.work_words import find_heads

__all__ = ["read_shorthand", "spelled_out"]

_EQUALS = re.compile(
    r"(?<![\w-])[“\"]?(?P<short>[A-Z][A-Za-z]{0,4}?)s?[”\"]?\s*(?:=|\b(?:stands for|is short for|means)\b)\s*"
    r"[“\"]?(?:an?\s+)?(?=(?P<long>[A-Za-z][A-Za-z'’-]+(?:\s+[A-Za-z][A-Za-z'’-]+){0,3}))"
)
_COLON = re.compile(r"(?<![\w-])(?P<short>[A-Z]{2,5})s?:\s+(?P<long>[A-Za-z][a-z'’-]+(?:\s+[a-z][a-z'’-]+){0,3})")
_BRACKETS = re.compile(
    r"(?P<long>[A-Za-z][A-Za-z'’-]+(?:\s+[A-Za-z][A-Za-z'’-]+){0,4})\s*\([“\"]?(?P<short>[A-Z]{2,5})s?[”\"]?\)"
)
_PARTED = re.compile(r"[.,+&] $|\n$")
_SMALL = ("of", "and", "the", "for", "a", "an", "in", "on", "to")


def read_shorthand(texts: Sequence[str], names: frozenset[str] = frozenset()) -> dict[str, str]:
    """What the short names of work stand for, in the singular; a short name explained in two ways stands for none.

    ``names`` are names of work that hold no common word for work, as the grading scheme lists them.
    """
    found: dict[str, str] = {}
    doubled: set[str] = set()
    for text in texts:
        for short, long in _explained(text):
            name = singular(long).lower()
            if find_heads(f"{short} 1") or not (find_heads(long) or name in names):
                continue  # a common short form, or no name of work
            doubled |= {short} if found.get(short, name) != name else set()
            found[short] = name
    return {short: name for short, name in found.items() if short not in doubled}


def _explained(text: str) -> Iterator[tuple[str, str]]:
    for match in _EQUALS.finditer(text):
        yield match["short"], _name(match["long"])
    for match in _COLON.finditer(text):
        if (long := _with_initials(match["long"].split(), match["short"], from_left=True)) is not None:
            yield match["short"], long
    for match in _BRACKETS.finditer(text):
        if (long := _with_initials(match["long"].split(), match["short"], from_left=False)) is not None:
            yield match["short"], long


def _name(words: str) -> str:
    """The words up to the last one that names work: what follows tells of it ("reading response due")."""
    heads = find_heads(words)
    return words[: heads[-1].word_end] if heads else words


def _with_initials(words: Sequence[str], short: str, *, from_left: bool) -> str | None:
    """The words at the near end whose initials are the letters of the short name; small words need none."""
    for count in range(len(words), 0, -1):
        part = words[:count] if from_left else words[-count:]
        telling = [word for word in part if word.lower() not in _SMALL]
        if "".join(word[0] for word in telling).upper() == short and part[0] in telling:
            return " ".join(part)
    return None


def spelled_out(passages: Sequence[Passage], meanings: Mapping[str, str]) -> list[Passage]:
    """The passages with the short names that their outline explains written out where a number or the line's end
    follows ("WJ 3": "Weekly journal 3")."""
    if not meanings:
        return list(passages)
    shorts = "|".join(sorted(map(re.escape, meanings), key=len, reverse=True))
    used = re.compile(
        rf"(?<![\w(“\"=-])(?P<short>{shorts})(?P<many>s?)(?:(?=\s?#?\s?\d{{1,2}}(?![\d:/]))|(?=\s*(?:$|[;,.]|due\b)))"
        r"(?!\s*(?:=|stands for|means))",
        re.MULTILINE,
    )
    return [_rewritten(passage, used, meanings) for passage in passages]


def _rewritten(passage: Passage, used: re.Pattern[str], meanings: Mapping[str, str]) -> Passage:
    text, end, grown = "", 0, []
    for match in used.finditer(passage.text):
        if len(match["short"]) == 1 and not re.match(r"\s?#?\s?\d", passage.text[match.end() :]):
            continue
        name = meanings[match["short"]]
        name = f"{name[:1].upper()}{name[1:]}{'s' if match['many'] else ''}"
        name += "" if re.match(r"\W|$", passage.text[match.end() :]) else " "
        between = passage.text[end : match.start()]
        if passage.frame.is_dated and re.match(r"\s?#?\s?\d", passage.text[match.end() :]):
            between = _PARTED.sub("; ", between)  # an entry of its own
        text += between + name
        grown.append((len(text), len(name) - (match.end() - match.start())))
        end = match.end()
    if not grown:
        return passage
    written = passage.written or passage.text
    return replace(passage, text=text + passage.text[end:], grown=tuple(grown), written=written)
