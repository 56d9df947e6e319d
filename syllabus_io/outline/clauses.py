"""What the clauses of running text say beside the work they name: requests to people, labels, weights in brackets."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.outline.day_keys import day_key
from syllabus_io.outline.phrases import dated_phrases, phrases_in
from syllabus_io.outline.records import Weight
from syllabus_io.outline.row_dates import month_alone
from syllabus_io.outline.work_words import Head, find_heads, mentions_due
from syllabus_io.resolve.expression import (
    Anchor,
    DateExpression,
    DayInMonth,
    MeetingNumber,
    MonthDay,
    NthWeekday,
    Offset,
    Phrase,
    Reference,
    Span,
    Week,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
)
from syllabus_io.resolve.expression_parts import parts_of

__all__ = [
    "asked_of_you",
    "collected_under",
    "days_of_month",
    "is_after_work",
    "is_fraction",
    "is_lead",
    "is_presenting",
    "is_request",
    "is_run_on",
    "is_usable",
    "label_before",
    "meant_by_pronoun",
    "says_due",
    "stage_before",
    "topic_chosen",
    "weight_in_brackets",
    "weight_said",
    "with_shared_time",
]

_PEOPLE = (
    r"(?:students?|anyone|anybody|everyone|those|persons?|people|candidates|athletes|parents|families|whoever|you)"
)
_MODAL = (
    r"(?:should|must|needs? to|ha(?:ve|s) to|ought to|may|can|shall|will(?: need to)?|"
    r"(?:are|is) (?:asked|expected|required|requested|encouraged|advised|welcome) to)"
)
_APPROACH = (
    r"(?:speak|talk|see (?:me|us|your)|contact|ask|request|register|arrange|inform|tell|consult|apply|meet with|"
    r"write to|let (?:me|us) know|enrol|enroll|sign up|come (?:and|to) (?:see|talk)|get in touch)"
)
_REQUEST = re.compile(
    rf"\b{_PEOPLE}\b[^.;:]{{0,90}}?\b{_MODAL}\s+(?:\w+ly\s+|also\s+|please\s+|first\s+)?{_APPROACH}\b"
    rf"|(?:^|,|:)\W*(?:please\s+)?{_APPROACH}\b",
    re.IGNORECASE,
)
_SENTENCE = re.compile(
    r"\b(?:you|we|they|it|there|who|comes?|falls?|occurs?|happens?|will|is|are|was|were|be|has|have|must|(?-i:may)|can|"
    r"should|please|do|does)\b",
    re.IGNORECASE,
)
_NOT_DONE_WITH = re.compile(
    r"\s+(?:is|are|was|were|has been|have been)\s+(?:returned|graded|marked|handed (?:back|out)|given (?:back|out)|"
    r"posted|announced|assigned|released|discussed)\b",
    re.IGNORECASE,
)
_HANDS_IN = re.compile(
    r"\b(?:hand(?:s|ing)?\s+in|turn(?:s|ing)?\s+in|submit(?:s|ting)?|upload|send(?:s)?(?:\s+\w+){0,2}|bring(?:s)?)\s+",
    re.IGNORECASE,
)
_NOW_DUE = re.compile(r"[^.;,]{0,25}\b(?:is|are)\s+(?:due|collected|handed in|turned in|submitted)\b", re.IGNORECASE)
_LABEL = re.compile(r"(?:^|[.;]\s+)\W*([A-Z][\w'’-]*(?:\s+[\w'’-]+){1,4}):\s*(?:due\s+)?$")
_IN_BRACKETS = re.compile(
    r"\s*(?:itself\s*)?\((?:[^()]*?,\s*)?(?:worth\s+)?(\d{1,3}(?:\.\d+)?)\s*"
    r"(?:(?P<percent>%|percent|per cent)|(?P<points>points|marks|pts))"
    r"(?:\s+of\s+(?:the|your)\s+[^(),]*)?\s*(?:,[^()]*)?\)",
    re.IGNORECASE,
)
_STAGE = re.compile(
    r"\b((?:(?:rough|first|second|full|final|short|brief|one-page|detailed|annotated)\s+)?"
    r"(?:proposal|draft|outline|plan|abstract|bibliography|topic|sketch|revision|prospectus|thesis statement))"
    r"\s+(?:for|of)\s+(?:the\s+|your\s+|this\s+|an?\s+|our\s+)?(?:(?:final|first|second|third|term|research)\s+)*$",
    re.IGNORECASE,
)
LONGEST_REACH = 60
_MONTH_OPENS = re.compile(r"\W*([A-Z][a-z]{2,8})\s*[.:–—]\s")
_PRESENT = re.compile(
    r"\b(?:(?:teams|groups|students|pairs)(?:\s+(?:[A-Z]|\d{1,2})(?:\s*(?:,|and|&|-|–|to|through)\s*(?:[A-Z]|\d{1,2}))*)?|"
    r"you|we|everyone|each (?:team|group|student|pair))\s+(?:will\s+|must\s+)?"
    r"(?:present(?!\s+in\s)|give (?:a|your|their) (?:talk|presentation))s?\b[^.;:]{0,40}\b(?:on|by|in class on)\s+$",
    re.IGNORECASE,
)
_WORTH = re.compile(
    r"[^.;]{0,60}?\b(?:worth|counts? for|counting(?: for)?)\s+(\d{1,3}(?:\.\d+)?)\s*"
    r"(?:(?P<percent>%|percent|per cent)|points|marks|pts)",
    re.IGNORECASE,
)
_BY = re.compile(r"\s*(?:of (?:it|this|that|(?:the|your) \w+))?,?\s*(?:by|no later than)\s*", re.IGNORECASE)
_NAME_OPENS = re.compile(r"\s*([A-Z][\w'’-]*(?:\s+[\w'’-]+){0,3})[:.]\s")
_COLLECTS = re.compile(
    r"\b(?:collect(?:s|ed)?|(?:I|we) (?:will )?(?:look at|check) (?:it|them|these)|hand(?:ed)? in|turn(?:ed)? in|"
    r"submit(?:ted)?)\b"
    r"(?:(?!\b(?:after|since|until|late)\b)[^.;:]){0,60}$",
    re.IGNORECASE,
)
_CHOOSES = re.compile(
    r"\b(?:choose|select|pick|propose|decide (?:on|up)|submit|hand in|turn in|e-?mail(?: me)?|send(?: me)?|settle on)"
    r"\s+"
    r"(?:a|an|your|the)\s+(?:[\w-]+\s+){0,2}(?:topic|thesis|research question)s?\b[^.;:]{0,40}?"
    r"\b(?:by|on|no later than|before|due)\s+(?:class\s+on\s+)?$",
    re.IGNORECASE,
)
_COUNTED_IN_FRACTION = re.compile(
    r"\s+(?:of\b|(?:\w+\s+){0,2}(?:assignments|quizzes|exams|tests|papers|homeworks?|labs|posts|responses|points|pts|"
    r"credits|classes|sets|times|hours|cups?)\b)|\s*(?:=\s*)?\d{1,3}\s*%",
    re.IGNORECASE,
)
_ORDINAL = re.compile(r"\d(?:st|nd|rd|th)")
_PRONOUN = re.compile(r"^\W*(they|these|all|it|this)\b(?!\s+\w+ing\b)", re.IGNORECASE)
_COUNTED_THING = re.compile(r"\s+(?:century|edition|ed\b|week|class|floor|day|grade|year|street|avenue)", re.IGNORECASE)


def is_request(text: str) -> bool:
    """Whether a sentence says whom somebody must ask or tell by a day, which dates no work."""
    return bool(_REQUEST.search(text))


def is_lead(text: str) -> bool:
    """Whether the words that open a paragraph are a name, as of a list entry, and not a sentence."""
    return not _SENTENCE.search(text)


def is_after_work(phrase: Phrase, text: str) -> bool:
    """Whether a phrase counts from other work of the outline ("one week after the midterm") and dates what is due."""
    expression = phrase.expression
    if not isinstance(expression, Offset) or not isinstance(expression.base, Anchor) or not mentions_due(text):
        return False
    heads = find_heads(expression.base.words)
    return len(heads) == 1 and not heads[0].word.endswith("s") and not _NOT_DONE_WITH.match(text[phrase.end :])


def is_fraction(text: str, phrase: Phrase) -> bool:
    """Whether what looks like a numeric date counts something ("4/5 assignments", "3/4 of the grade")."""
    if not re.fullmatch(r"\d{1,2}/\d{1,2}", phrase.text):
        return False
    after = text[phrase.end :]
    return _COUNTED_IN_FRACTION.match(after) is not None


def is_usable(expression: DateExpression) -> bool:
    """Days that can be put in a plan: dates, weekdays of numbered weeks, numbered classes."""
    if isinstance(expression, MeetingNumber | NthWeekday | DayInMonth):
        return True
    if isinstance(expression, WeekdayNear):
        return not any(isinstance(part, Reference | Anchor) for part in parts_of(expression))
    if isinstance(expression, WeekdayIn):
        return isinstance(expression.stretch, Week)
    if isinstance(expression, WeekOf):
        return day_key(expression.base)[0] == "date"
    if isinstance(expression, Span):
        return day_key(expression.first)[0] == day_key(expression.last)[0] == "date"
    return day_key(expression)[0] == "date"


def days_of_month(text: str, paragraph: str) -> tuple[Phrase, ...]:
    """The days that a sentence names without their month ("Friday the 18th"), with the month that opens the paragraph
    where one does ("September. The quiz is on the 18th."); without it they still part the work beside them."""
    if not _ORDINAL.search(text):
        return ()
    opening = _MONTH_OPENS.match(paragraph)
    month = month_alone(opening[1]) if opening else None
    found = []
    for phrase in phrases_in(text, weak=True):
        day = phrase.expression
        if not isinstance(day, DayInMonth) or not _ORDINAL.fullmatch(phrase.text[-3:]):
            continue
        if not _COUNTED_THING.match(text[phrase.end :]):
            found.append(replace(phrase, expression=MonthDay(month, day.day, day.weekday)) if month else phrase)
    return tuple(found)


def is_presenting(text: str) -> bool:
    """Whether words right before a date say that students present then ("and teams present on")."""
    return bool(_PRESENT.search(text))


def meant_by_pronoun(text: str, before: str) -> Head | None:
    """The work of the sentence before that "they" or "it" at the head of a sentence stands for; None without one."""
    pronoun = _PRONOUN.match(text)
    if pronoun is None or not mentions_due(text):
        return None
    dated = max((phrase.end for phrase in phrases_in(before)), default=0)
    heads = [head for head in find_heads(before) if not head.is_weak and head.start >= dated]
    if not heads or (dated and len(heads) > 1):
        return None
    several = pronoun[1].lower() in ("they", "these", "all")
    return heads[0] if heads[0].word.lower().endswith("s") is several else None


def is_run_on(text: str, gap: str, phrase: Phrase) -> bool:
    """Whether a phrase behind ", and on" goes on with the dates before it: no work of its own follows."""
    if not re.fullmatch(r"[\s,]*(?:and|&)\s+(?:on|by)\s+(?:the\s+)?", gap, re.IGNORECASE):
        return False
    rest = re.split(r"[.;]", text[phrase.end :])[0]
    return not find_heads(rest)


def label_before(text: str, head: Head, phrase: Phrase) -> str | None:
    """The label that ends in the work word right before the date ("Partner note: one week after …"), None without."""
    match = _LABEL.search(text[: phrase.start])
    return match[1] if match is not None and head.end == match.end(1) else None


def asked_of_you(text: str, heads: Sequence[Head], end: int) -> Head | None:
    """The work that a clause behind its date has somebody hand in ("On May 5 you hand in the plan"), None without."""
    for head in heads:
        if head.start < end:
            continue
        handing = _HANDS_IN.search(text, end, head.start)
        if phrases_in(text[head.end :]):
            continue  # the day behind it is its own
        if handing is not None and len(text[handing.end() : head.start].split()) <= 4:
            return head if not re.search(r"[.;]", text[end : head.start]) else None
        if _NOW_DUE.match(text, head.end) and len(text[end : head.start]) <= LONGEST_REACH:
            return head if not phrases_in(text[head.end :]) else None
    return None


def weight_said(text: str, end: int) -> Weight | None:
    """The weight that words behind a date give the work: "on May 4, worth 20 percent"."""
    match = _WORTH.match(text, end)
    if match is None or dated_phrases(match[0]):
        return None
    number = float(match[1])
    return Weight(percent=number) if match["percent"] else Weight(points=number)


def says_due(between: str) -> bool:
    """Whether words between work and date say that it is handed in then ("is due on", "of it by")."""
    return "due" in between.lower() or mentions_due(between) or bool(_BY.fullmatch(between))


def collected_under(text: str, paragraph: str) -> str | None:
    """The name that opens a paragraph whose sentence says what is collected ("Field sheets: I collect two, on …")."""
    match = _NAME_OPENS.match(paragraph)
    return match[1] if match and _COLLECTS.search(text) and is_lead(match[1]) else None


def weight_in_brackets(text: str, end: int) -> Weight | None:
    """The weight in brackets right behind a work word: "Paper 2 itself (2,000 words, 25 percent) is due"."""
    match = _IN_BRACKETS.match(text, end)
    if match is None or re.search(r"\b(?:off|late|each|per)\b", match[0].replace("per cent", ""), re.IGNORECASE):
        return None
    number = float(match[1])
    return Weight(percent=number) if match["percent"] else Weight(points=number)


def with_shared_time(group: Sequence[Phrase]) -> list[Phrase]:
    """Days that are joined, all with the time of day that only the first or the last is given with."""
    timed = [phrase for phrase in group if phrase.time is not None or phrase.time_point is not None]
    if len(timed) != 1 or timed[0] not in (group[0], group[-1]):
        return list(group)
    said = timed[0]
    return [replace(phrase, time=said.time, end_time=said.end_time, time_point=said.time_point) for phrase in group]


def stage_before(text: str) -> str | None:
    """The step that words before a work word make of it ("a proposal for Paper 2": Proposal); None without."""
    match = _STAGE.search(text)
    return f"{match[1][:1].upper()}{match[1][1:]}" if match else None


def topic_chosen(text: str, paragraph: str) -> str | None:
    """The choice of a topic that words before a date ask for ("Choose a topic by"), called after the work that opens
    the paragraph; None without."""
    if _CHOOSES.search(text) is None:
        return None
    opening = _NAME_OPENS.match(paragraph)
    heads = [head for head in find_heads(opening[1]) if not head.is_weak] if opening and is_lead(opening[1]) else []
    return f"{opening[1]} topic" if opening and heads else "Topic choice"
