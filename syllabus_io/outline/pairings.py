"""Which work of a sentence a date belongs to."""

from __future__ import annotations

import re
from collections.abc import Sequence

from syllabus_io.outline.clauses import asked_of_you, is_run_on, label_before, says_due
from syllabus_io.outline.work_words import Head, find_heads, is_passed_over, mentions_due
from syllabus_io.resolve.expression import Phrase

__all__ = ["bracket_behind", "date_groups", "is_inside", "owner_of"]

FARTHEST_WORDS = 130
_DUE_LATER = re.compile(
    r"\bdue\b|\bcloses\b|\breturned by\b|\b(?:and|then) (?:collected|submitted|handed in|turned in)\b|"
    r"\b(?:must|should|ha(?:ve|s) to|(?:is|are) to|will) be "
    r"(?:submitted|completed|handed in|turned in|finished|returned by|back by|received|collected)\b",
    re.IGNORECASE,
)
_DENIED = re.compile(r"\b(?:no|without(?: a)?|not a)\s+(?:\w+\s+)?$", re.IGNORECASE)
_BREAKS = re.compile(
    r"\b(?:after|before|until|since|than(?! )|between|during|assigned|handed out|posted|releas(?:es|ed)|"
    r"available|announce[sd]|publish(?:es|ed)|distributed|opens?|returned|"
    r"begins? on|starting|starts?|discuss\w*|prior)\b",
    re.IGNORECASE,
)
_ITS_PERIOD = re.compile(
    r"\b(?:during|in|at)\s+(?:the|our|its)\s+(?:\w+\s+){0,3}(?:period|week|time|slot|block)\b"
    r"|\bduring\s+(?:finals|exams)\b|\bopen\s+for\b",
    re.IGNORECASE,
)
_GIVEN_OUT = re.compile(
    r"\s*\((?:assigned|handed out|given out|distributed|released|posted|out)\b[^()]*\)|"
    r"\s+(?:(?:is|are|will be)\s+)?(?:assigned|handed out|given out|distributed|released|posted|available|out)\b",
    re.IGNORECASE,
)
_JOINED = re.compile(r"^[\s,;(/]*(?:and|or|&)?[\s(]*$", re.IGNORECASE)
_BRACKET = re.compile(r"\s*\(([^()]{2,60})\)")
_AND_MORE = re.compile(r"\s*(?:,|;|and\b|&)")
_LINK = re.compile(
    r"\b(?:is|are|will|was|due|on|by|held|takes? place|taking place|scheduled|given|at|for|through|submitted?|"
    r"uploaded|e-?mailed|sent|handed in|turned in|"
    r"date|deadline|from|opens?)\b|[:(–—,|-]|^\s*$",
    re.IGNORECASE,
)
_OF_DATES = re.compile(
    r"\s+(?:dates?|times?|days?|deadlines?|schedules?|blocks?|slots?|periods?|weeks?|hours?|timetables?|offices?|boards?|"
    r"committees?|cent(?:er|re)s?|coordinators?|results?)\b",
    re.IGNORECASE,
)
_OPENS_NAME = re.compile(r"\s*(?:[:–—(,-]|is|are)\s*(?:the\s+|our\s+|an?\s+)?(?:\w+[\s-]+){0,3}$", re.IGNORECASE)
_GOES_ON = re.compile(r"\s*[,:(–—-]?\s*(?:on|by)?\s*", re.IGNORECASE)  # "… is due May 1, a full draft May 8"
_TIMES_OF_TERM = frozenset({"midterm", "mid-term", "finals"})
_BY_THEN = re.compile(r"\b(?:at|by|around|until|since|before|after)\s+$", re.IGNORECASE)  # "at midterm (about May 4)"
_ENDS_CLAUSE = re.compile(r";")


def is_inside(head: Head, phrases: Sequence[Phrase]) -> bool:
    """Whether a work word is part of a date phrase ("the final exam period")."""
    return any(phrase.start <= head.start < phrase.end for phrase in phrases)


def is_of_dates(text: str, head: Head) -> bool:
    """Whether a work word only says what dates, hours or offices are about ("Quiz dates: …")."""
    return _OF_DATES.match(text, head.end) is not None


def bracket_behind(text: str, phrase: Phrase) -> str | None:
    """What stands in brackets right behind a date and names no work of its own ("May 4 (chapters 1-3)")."""
    match = _BRACKET.match(text, phrase.end)
    return match[1].strip() if match and not find_heads(match[1]) else None


def date_groups(text: str, dated: Sequence[Phrase]) -> list[list[Phrase]]:
    """The dates of a sentence, those together that only commas, "and" or notes in brackets part."""
    groups: list[list[Phrase]] = []
    for phrase in dated:
        gap = ""
        if groups:
            last = groups[-1][-1]
            match = _BRACKET.match(text, last.end) if bracket_behind(text, last) else None
            start = match.end() if match and _AND_MORE.match(text, match.end()) else last.end
            gap = text[start : phrase.start]
        if groups and (_JOINED.match(gap) or is_run_on(text, gap, phrase)):
            groups[-1].append(phrase)
        else:
            groups.append([phrase])
    return groups


def owner_of(text: str, heads: Sequence[Head], group: Sequence[Phrase], dated: Sequence[Phrase]) -> Head | None:
    """The work a date belongs to: the one behind it where dates come first, else the nearest before it that no other
    date has, else one plainly after it."""
    behind = _behind_in_list(text, heads, group, dated)
    if behind is not None:
        return behind
    return _before(text, heads, group, dated)


def _behind_in_list(text: str, heads: Sequence[Head], group: Sequence[Phrase], dated: Sequence[Phrase]) -> Head | None:
    """The work behind a date in a list that gives dates first: "March 3 (Exam 1), April 4 (Exam 2)", "March 3 – Exam 1,
    April 4 – Exam 2". One date alone so only in brackets, where no work stands before it."""
    first, last = group[0], group[-1]
    start = max((phrase.end for phrase in dated if phrase.end <= first.start), default=0)
    named = [head for head in heads if start <= head.start < first.start and not _OF_DATES.match(text, head.end)]
    bracket = _BRACKET.match(text, last.end)
    if bracket is not None and not (named and start == 0):
        inside = [head for head in heads if bracket.start() <= head.start < bracket.end()]
        if inside and not named:
            return inside[0]
    if len(dated) > 1 and _gives_dates_first(text, heads, dated):
        return next((head for head in heads if head.start >= last.end), None)
    return None


def _gives_dates_first(text: str, heads: Sequence[Head], dated: Sequence[Phrase]) -> bool:
    """Whether every date of a sentence is followed by a work of its own, and none stands before the first."""
    lead = text[: dated[0].start]
    before = [head for head in heads if head.start < dated[0].start and not _OF_DATES.match(text, head.end)]
    if before and not (re.search(r":\s*(?:(?:on|by|due)\s+)?$", lead) and before[-1].word.lower().endswith("s")):
        return False
    ends = [*(phrase.start for phrase in dated[1:]), len(text)]
    for phrase, end in zip(dated, ends, strict=True):
        own = [head for head in heads if phrase.end <= head.start < end]
        if len(own) != 1 or (own[0].is_weak and not own[0].number and not _is_final(text, own[0])):
            return False
        if not _OPENS_NAME.fullmatch(text[phrase.end : own[0].start]):
            return False
        if end < len(text) and not re.fullmatch(r"\W*(?:and\s+|on\s+|due\s+)*", text[own[0].end : end]):
            return False
    return True


def _before(text: str, heads: Sequence[Head], group: Sequence[Phrase], dated: Sequence[Phrase]) -> Head | None:
    first, last = group[0], group[-1]
    previous_end = max((phrase.end for phrase in dated if phrase.end <= first.start), default=0)
    before = [head for head in heads if previous_end <= head.start < first.start]
    if not before and _DUE_LATER.search(text[previous_end : first.start]):
        before = [head for head in heads if head.start < first.start]  # handed out on one day, due on another
    before = _outside_brackets(text, before, first.start)
    before = [
        head
        for head in before
        if not head.is_weak or head.number or says_due(text[head.end : first.start]) or label_before(text, head, first)
    ] or before
    for head in _by_strength(before):
        if _is_owner(text, head, first):
            return head
    asked = asked_of_you(text, heads, last.end) if not before else None
    if asked is not None and not is_passed_over(text, asked):
        return asked
    after = [head for head in heads if last.end <= head.start and not head.is_weak]
    if after and not before:
        between = text[last.end : after[0].start]
        opens = len(text[: first.start].split()) <= 3
        if opens and len(between) < 50 and not _has_break(between) and not is_passed_over(text, after[0]):
            return after[0]
    return None


def _outside_brackets(text: str, heads: Sequence[Head], end: int) -> list[Head]:
    """The works without those that brackets only count up as parts ("The folder (Essay 1, a letter) is due May 1")."""
    brackets = list(re.finditer(r"\w\s+\([^()]*\)(?P<verb>\s+(?:is|are|will be|must be)\b)?", text[:end]))
    outside = [head for head in heads if not any(one.start() < head.start < one.end() for one in brackets)]
    return outside or [head for head in heads if not any(one["verb"] for one in brackets if one.start() < head.start)]


def _is_owner(text: str, head: Head, first: Phrase) -> bool:
    between = text[head.end : first.start]
    if _OF_DATES.match(text, head.end) or _DENIED.search(text[: head.start]):
        return False
    if head.word.lower() in _TIMES_OF_TERM and _BY_THEN.search(text[: head.start]):
        return False
    if len(between) > FARTHEST_WORDS or not _LINK.search(between) or _ENDS_CLAUSE.search(between):
        return False
    if _has_break(between) or _is_passed_over(text, head, between):
        return False
    if head.is_weak and mentions_due(text[: head.start]) and _GOES_ON.fullmatch(between):
        return True
    return (
        not head.is_weak
        or bool(head.number)
        or says_due(between)
        or _is_final(text, head)
        or (head.word.lower() == "final" and not text[: head.start].strip() and not between.strip())
        or label_before(text, head, first) is not None
    )


def _is_passed_over(text: str, head: Head, between: str) -> bool:
    """Whether the words beside a work make it none; that it was given out before it is due does not."""
    given = _GIVEN_OUT.match(between)
    if given is not None and _DUE_LATER.search(between, given.end()):
        return is_passed_over(text[: head.end], head)
    return is_passed_over(text, head)


def _is_final(text: str, head: Head) -> bool:
    """Whether "final" opens an entry, or stands for a noun ("a final (June 3)", "the final is on"): the final exam."""
    if head.word.lower() != "final":
        return False
    article = re.search(r"(?:^|[(:–—,;]\s*|\b(?:a|the|our|and)\s+)$", text[: head.start].lstrip(), re.IGNORECASE)
    return bool(article) and bool(re.match(r"\s*(?:[(),.:;–—-]|is\b|will\b|on\b|takes\b|falls\b|$)", text[head.end :]))


def _by_strength(heads: Sequence[Head]) -> list[Head]:
    return sorted(heads, key=lambda head: (head.is_weak, -head.start))


def _has_break(between: str) -> bool:
    """Whether words stand between that give the date another meaning; "assigned March 4, due" is handled before."""
    tail = re.split(_DUE_LATER, _ITS_PERIOD.sub("", between))[-1]
    return bool(_BREAKS.search(tail))
