"""Parts of a grade that sentences tell: "Each midterm is worth 20% of the final grade"."""

from __future__ import annotations

import re
from dataclasses import replace

from syllabus_io.outline.grading_shares import (
    LEADING,
    NOT_A_SHARE,
    NOT_BEHIND,
    VERB,
    Share,
    StatedWeight,
    clean_name,
    find_weights,
    is_name,
    share_of,
    sums_written_out,
)
from syllabus_io.provenance import Place

__all__ = ["told_shares"]

_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z“\"])|\n")
_CLAUSE_NAME = re.compile(
    rf"^(?P<name>.*?)\s*(?:\(|,?\s*(?:and\s+)?(?:will\s+)?\b{VERB}\s*(?:about |approximately |an? |"
    rf"the )*(?:remaining |extra |additional )*\(?)$",
    re.IGNORECASE,
)


_LAST_NOUN = re.compile(r"[,;)]|\band\b|\bwhile\b|\b(?:the|an?|your)\s", re.IGNORECASE)
"""Parts "the midterm (25%) is in March and the final (35%) in May" before what its second bracket counts."""


def told_shares(text: str, place: Place, order: int = 0) -> tuple[Share, ...]:
    """The parts of the grade that sentences tell: "Each midterm is worth 20% of the final grade"."""
    found: list[Share] = []
    for sentence in _SENTENCE.split(sums_written_out(text)):
        weights = [one for one in find_weights(sentence) if one.percent is not None]
        position = 0
        for number, weight in enumerate(weights):
            limit = weights[number + 1].start if number + 1 < len(weights) else len(sentence)
            ahead = sentence[max(position, weight.start - 90) : weight.end]
            if not NOT_A_SHARE.search(ahead) and not NOT_BEHIND.search(sentence[weight.end : weight.end + 25]):
                share = _told(sentence[position : weight.start], sentence[weight.end : limit], weight, place, order)
                if share:
                    found.append(replace(share, about=sentence))
            position = weight.end
    return tuple(found)


def _told(before: str, after: str, weight: StatedWeight, place: Place, order: int) -> Share | None:
    is_each = weight.is_each or bool(re.search(r"\beach\b", before, re.IGNORECASE))
    is_extra = bool(
        re.search(r"\bextra\s*$|\badditional\s*$", before, re.IGNORECASE)
        or re.search(r"extra credit|bonus", before[-30:] + after[:25], re.IGNORECASE)
    )
    clause = re.sub(
        r"^[\s,;]*(?:of (?:the |your )?(?:final |course |total )?grade)?[\s,;.]*(?:and|while|but)?\s*", "", before
    )
    match = _CLAUSE_NAME.match(clause)
    if match:
        inner = clause.lstrip().startswith(")") and clause.rstrip().endswith("(")
        words = _subject(_LAST_NOUN.split(match["name"])[-1] if inner else match["name"])
    else:
        behind = re.match(
            r"\s*(?:of (?:the |your )?(?:\w+ )?grade)?\s*(?:will be |is |comes? |are )*(?:based on|from|for|"
            r"determined by|on|allocated to)\s+(?P<name>[^.,;(]{3,60})",
            after,
        )
        if not behind:
            return None
        words = behind["name"]
    name, count = clean_name(words)
    if not is_name(name) or re.search(r"\b(?:grade|score|this|it|they|these|which)\b", name, re.IGNORECASE):
        return None
    share = share_of(name, count, replace(weight, is_each=is_each), "", place, order, 0)
    return replace(share, is_extra=is_extra or share.is_extra)


def _subject(words: str) -> str:
    """The noun phrase that a clause begins with, without what is said about it."""
    words = re.split(r";|:\s|\b(?:because|since|so|if|when)\b", words)[-1]
    words = LEADING.sub("", words, count=1)
    cut = re.search(
        r",|\s(?:covering|where|which|that|who|in|on|during|throughout|at|from|to|will|is|are|was|has|have|taken|"
        r"done|each|consisting|"
        r"together|collectively|of your)\b|\(",
        words,
    )
    return words[: cut.start()] if cut and cut.start() >= 3 else words
