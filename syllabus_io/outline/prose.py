"""Sentences and list entries that date work: "The midterm is on 7 October", "Test I (24 July): 20 %"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.clauses import (
    asked_of_you,
    collected_under,
    days_of_month,
    is_after_work,
    is_fraction,
    is_presenting,
    is_request,
    is_run_on,
    is_usable,
    label_before,
    meant_by_pronoun,
    says_due,
    stage_before,
    weight_in_brackets,
    weight_said,
    with_shared_time,
)
from syllabus_io.outline.entry_dates import exam_window
from syllabus_io.outline.frames import WHILE_IT_LASTS, Passage
from syllabus_io.outline.mentions import Draft, numbers_behind
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.policies import speaks_of_rules
from syllabus_io.outline.prose_names import (
    full_title,
    is_step,
    kind_by_last_word,
    lead_of,
    name_before_due_date,
    name_in_list,
    step_of_lead,
    within_entry,
    without_count,
)
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.titles import noun_phrase, singular, tidy_title
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import Head, find_heads, is_passed_over, mentions_due, number_of, roman
from syllabus_io.resolve.expression import (
    DayInMonth,
    Every,
    Phrase,
    Span,
)

__all__ = ["ONLY_LISTED", "Sentence", "read_prose", "sentences_of"]

FARTHEST_WORDS = 130
ONLY_LISTED = "it stands in a list of dates, and no word says that it is work to hand in"
ONE_OF_DAYS = "the outline names two days, and not which of them is yours"
MOST_CHOICES = 2
ONLY_PERIOD = "the outline gives only the period, and not the day"
_DUE_LATER = re.compile(
    r"\bdue\b|\bmust be (?:submitted|completed|handed in|turned in|finished)\b|\bcloses\b", re.IGNORECASE
)
_DENIED = re.compile(r"\b(?:no|without(?: a)?|not a)\s+(?:\w+\s+)?$", re.IGNORECASE)
_LEADER = re.compile(r"(?:\.\s?){4,}|…{2,}|_{4,}|·{3,}")
_SCHOOL_REPORTS = re.compile(r"\b(?:marking|grading|reporting) periods?\b|\breport cards?\b", re.IGNORECASE)
_THE_NEXT = re.compile(
    r"(?:^|[,;.]|\band\b|\bbut\b)\s*(?:again|(?:the\s+)?(?P<ordinal>second|third|fourth|last|other)(?:\s+one)?)\b"
    r"[^.;,\w]*(?:(?:is|was|will be|falls?|on|due|by|held|given|at|in class)\s*)*$",
    re.IGNORECASE,
)
MOST_TITLE_WORDS = 8
_ENDS_CLAUSE = re.compile(r";")

_SENTENCE_END = re.compile(r"(?:(?<=[a-z0-9)%”\"'’])|(?<=[A-Z]{2}))[.!?]\s+(?=[A-Z“(])|\n")
_IN_DATE = re.compile(r"\b(?:mon|tues?|weds?|thur?s?|fri|sat|sun)\.\s+$", re.IGNORECASE)
_MONTH_NEXT = re.compile(r"(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)", re.IGNORECASE)
_BREAKS = re.compile(
    r"\b(?:after|before|until|since|than(?! )|between|during|assigned|handed out|posted|released|available|announced|"
    r"distributed|opens?|returned|"
    r"begins? on|starting|starts?|discuss\w*|prior)\b",
    re.IGNORECASE,
)
_JOINED = re.compile(r"^[\s,;(/]*(?:and|or|&)?[\s(]*$", re.IGNORECASE)
_IN_BRACKETS = re.compile(r"\s*\(([^()\d]{2,40})\)")
_LABEL_BEHIND = re.compile(rf"^{_IN_BRACKETS.pattern}(?=\s*(?:,|and\b|&))")
_LINK = re.compile(
    r"\b(?:is|are|will|was|due|on|by|held|takes? place|taking place|scheduled|given|at|for|through|submitted?|"
    r"uploaded|e-?mailed|sent|handed in|turned in|"
    r"date|deadline|from|opens?)\b|[:(–—,|-]|^\s*$",
    re.IGNORECASE,
)
_ROW_NAME = re.compile(r"^([^.:;]{3,60})$")
_DATES = re.compile(r"\b(?:dates?|schedule|deadlines?)\b", re.IGNORECASE)
_NAMED_DUE = re.compile(r"^\W*([A-Z][^.;:()]{3,60}?)\s*[(,:–—-]\s*due\b[^.;:]{0,6}$")


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence of running text or a part of one, and where it stands in its passage.

    ``whole`` is the sentence that a part belongs to, ``before`` the sentence before it.
    """

    text: str
    start: int
    whole: str = ""
    before: str = ""


def sentences_of(text: str) -> Iterator[Sentence]:
    """The sentences of a text; lines end sentences too."""
    begin = 0
    for match in _SENTENCE_END.finditer(text):
        if _IN_DATE.search(text[: match.end()]) and _MONTH_NEXT.match(text, match.end()):
            continue  # "Final exam: Tues. May 4"
        end = match.start() + (0 if match[0].startswith("\n") else 1)
        if text[begin:end].strip():
            yield Sentence(text[begin:end], begin)
        begin = match.end()
    if text[begin:].strip():
        yield Sentence(text[begin:], begin)


def read_prose(passage: Passage) -> Iterator[Draft]:
    """The work that running text dates."""
    text = _LEADER.sub(lambda match: ":" + " " * (len(match[0]) - 1), passage.text)
    of_school = _SCHOOL_REPORTS.search(passage.text)
    before = ""
    for sentence in sentences_of(text):
        start = 0
        last, before = before, sentence.text
        if of_school and re.search(r"\bprogress reports\b", sentence.text, re.IGNORECASE):
            continue  # the school's reports to parents, sent home between report cards
        for part in re.split(r";(?!\s*(?:and\s+)?(?:the\s+)?(?:second|third|fourth|last|other)\b)", sentence.text):
            if not speaks_of_rules(part) and not is_request(part):
                yield from _read_sentence(Sentence(part, sentence.start + start, sentence.text, last), passage)
            start += len(part) + 1


def _read_sentence(sentence: Sentence, passage: Passage) -> Iterator[Draft]:
    text = sentence.text
    phrases = phrases_in(text)
    if any(isinstance(phrase.expression, Every) for phrase in phrases):
        return
    numbered = days_of_month(text, passage.text)
    others = (one for one in phrases if not any(one.start < day.end and day.start < one.end for day in numbered))
    phrases = tuple(sorted((*others, *numbered), key=lambda phrase: phrase.start))
    dated = [
        phrase
        for phrase in phrases
        if phrase.expression is not None
        and (is_usable(phrase.expression) or is_after_work(phrase, text))
        and not is_fraction(text, phrase)
    ]
    if not dated:
        return
    heads = [head for head in find_heads(text) if not _inside(head, phrases)]
    clock = next((phrase for phrase in phrases if phrase.time is not None and phrase.expression is None), None)
    last_named: Head | None = None
    more = 0
    window = exam_window(text, dated)
    if window is not None:
        exam = max((head for head in heads if head.kind is Kind.EXAM), key=lambda head: head.start <= window.start)
        yield from _drafts(sentence, passage, exam, [window], clock)
        dated = [phrase for phrase in dated if phrase.end <= window.start or window.end <= phrase.start]
    for group in map(with_shared_time, _groups(text, dated)):
        either = len(group) > 1 and bool(re.search(r"\bor\b", text[group[0].start : group[-1].end]))
        head = _owner(text, heads, group, dated)
        if either:
            is_known = not isinstance(group[0].expression, DayInMonth)
            if head is not None and head.kind is Kind.EXAM and len(group) == MOST_CHOICES and is_known:
                first = replace(group[0], doubts=(*group[0].doubts, ONE_OF_DAYS))
                yield from _drafts(sentence, passage, head, [first], clock)
            continue
        if isinstance(group[-1].expression, DayInMonth):
            continue  # its month is not known
        if len(dated) == 1 and (step := step_of_lead(text[: group[0].start], passage.text)) is not None:
            yield _draft(sentence, passage, step, None, kind_of_work(step) or Kind.ASSIGNMENT, group[0], clock)
        elif head is not None:
            last_named, more = head, 1
            yield from _drafts(sentence, passage, head, group, clock)
        elif last_named is not None and _THE_NEXT.search(text[: group[0].start]):
            more += 1
            yield _next_of(sentence, passage, last_named, more, group[0], clock)
        elif not heads and is_presenting(text[: group[0].start]):
            title = within_entry("Presentation", sentence.whole)
            for number, phrase in enumerate(group, 1):
                name = title if len(group) == 1 else f"{title} {number}"
                place = None if len(group) == 1 else number
                yield _draft(sentence, passage, name, place, Kind.PRESENTATION, phrase, clock)
        elif not heads and (meant := meant_by_pronoun(text, sentence.before)) is not None:
            yield from _meant(sentence, passage, meant, group, clock)
        elif not heads and (named := collected_under(text[: group[0].start], passage.text)) is not None:
            for number, phrase in enumerate(group, 1):
                name = named if len(group) == 1 else f"{singular(named)} {number}"
                place = None if len(group) == 1 else number
                yield _draft(sentence, passage, name, place, kind_of_work(named) or Kind.ASSIGNMENT, phrase, clock)
        elif re.search(r"\bdue\b[^.]{0,25}$", text[: group[0].start], re.IGNORECASE):
            yield from _from_lead(sentence, passage, group[0], clock)
        elif len(dated) == 1 and (listed := name_in_list(text, group[0], passage.section)) is not None:
            is_graded = weight_in_brackets(text, group[0].end) is not None
            phrase = group[0] if is_graded else replace(group[0], doubts=(*group[0].doubts, ONLY_LISTED))
            yield _draft(sentence, passage, tidy_title(listed), None, kind_by_last_word(listed), phrase, clock)


def _inside(head: Head, phrases: Sequence[Phrase]) -> bool:
    return any(phrase.start <= head.start < phrase.end for phrase in phrases)


def _groups(text: str, dated: Sequence[Phrase]) -> list[list[Phrase]]:
    groups: list[list[Phrase]] = []
    for phrase in dated:
        gap = text[groups[-1][-1].end : phrase.start] if groups else ""
        gap = _LABEL_BEHIND.sub("", gap)
        if groups and (_JOINED.match(gap) or is_run_on(text, gap, phrase)):
            groups[-1].append(phrase)
        else:
            groups.append([phrase])
    return groups


def _owner(text: str, heads: Sequence[Head], group: Sequence[Phrase], dated: Sequence[Phrase]) -> Head | None:
    """The work a date belongs to: the nearest before it that no other date has, else one plainly after it."""
    first, last = group[0], group[-1]
    previous_end = max((phrase.end for phrase in dated if phrase.end <= first.start), default=0)
    before = [head for head in heads if previous_end <= head.start < first.start]
    if not before and _DUE_LATER.search(text[previous_end : first.start]):
        before = [head for head in heads if head.start < first.start]  # handed out on one day, due on another
    before = [
        head
        for head in before
        if not head.is_weak or head.number or says_due(text[head.end : first.start]) or label_before(text, head, first)
    ] or before
    for head in _by_strength(before):
        if re.match(r"\s+(?:dates?|times?|days?)\b", text[head.end :]) or _DENIED.search(text[: head.start]):
            continue
        between = text[head.end : first.start]
        if len(between) > FARTHEST_WORDS or not _LINK.search(between) or _ENDS_CLAUSE.search(between):
            continue
        if _has_break(between) or is_passed_over(text, head):
            continue
        if (
            head.is_weak
            and not head.number
            and not (says_due(between) or _is_final(text, head) or label_before(text, head, first))
        ):
            continue
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


def _is_final(text: str, head: Head) -> bool:
    """Whether "final" opens an entry, or stands for a noun ("a final (June 3)", "the final is on"): the final exam."""
    if head.word.lower() != "final":
        return False
    article = re.search(r"(?:^|\b(?:a|the|our|and)\s+)$", text[: head.start].lstrip(), re.IGNORECASE)
    return bool(article) and bool(re.match(r"\s*(?:[(,:;–—-]|is\b|will\b|on\b|takes\b|falls\b|$)", text[head.end :]))


def _by_strength(heads: Sequence[Head]) -> list[Head]:
    return sorted(heads, key=lambda head: (head.is_weak, -head.start))


def _has_break(between: str) -> bool:
    """Whether words stand between that give the date another meaning; "assigned March 4, due" is handled before."""
    tail = re.split(_DUE_LATER, between)[-1]
    return bool(_BREAKS.search(tail))


def _drafts(
    sentence: Sentence, passage: Passage, head: Head, group: Sequence[Phrase], clock: Phrase | None
) -> Iterator[Draft]:
    text = sentence.text
    title = noun_phrase(text, head)
    bare = title
    title = within_entry(within_entry(title, sentence.whole), passage.text)
    kind = Kind.PROJECT if title != bare and is_step(title, head) else head.kind
    lead = lead_of(passage.text)
    named = [one for one in find_heads(lead[1]) if one.kind is head.kind] if lead else []
    own_number = number_of(head)
    if (
        lead
        and named
        and len(group) == 1
        and (not head.number or sentence.start + head.start < lead.end())
        and not (named[-1].word.endswith("s") and not head.word.endswith("s"))
        and not _DATES.search(lead[1])
    ):
        title, own_number = full_title(tidy_title(lead[1])), number_of(named[0])
    called = _NAMED_DUE.match(text[: group[0].start])
    if called is not None and len(group) == 1 and len(called[1].split()) <= MOST_TITLE_WORDS and head.is_weak:
        title = tidy_title(called[1])
    title = full_title(title)
    title = label_before(text, head, group[0]) or title
    stage = stage_before(text[: head.start])
    title = f"{stage} for {title}" if stage and stage.lower() not in title.lower() else title
    count = len(group)
    for number, phrase in enumerate(group, 1):
        name, place_in_series = title, own_number
        if count > 1:
            name, place_in_series = f"{singular(title)} {number}", number
            label = _IN_BRACKETS.match(text, phrase.end)
            name = f"{name}: {label[1].strip()}" if label else name
        draft = _draft(sentence, passage, name, place_in_series, kind, phrase, clock)
        weight = weight_in_brackets(text, head.end) or weight_said(text, phrase.end) if count == 1 else None
        yield replace(draft, item=replace(draft.item, weight=weight)) if weight is not None else draft
    if count == 1 and head.end > head.word_end and title.endswith(head.number):
        for other in numbers_behind(text, head.end):
            name = f"{title.removesuffix(head.number)}{other}"
            yield _draft(sentence, passage, name, roman(other), kind, group[0], clock)


def _meant(
    sentence: Sentence, passage: Passage, head: Head, group: Sequence[Phrase], clock: Phrase | None
) -> Iterator[Draft]:
    """The work of the sentence before, dated by one that calls it "they" or "it"."""
    title = tidy_title(without_count(noun_phrase(sentence.before, head)))
    for number, phrase in enumerate(group, 1):
        if len(group) == 1:
            yield _draft(sentence, passage, title, number_of(head), head.kind, phrase, clock)
        else:
            yield _draft(sentence, passage, f"{singular(title)} {number}", number, head.kind, phrase, clock)


def _next_of(
    sentence: Sentence, passage: Passage, head: Head, count: int, phrase: Phrase, clock: Phrase | None
) -> Draft:
    """The next work of a series that the sentence only counts: "The first paper is due May 3, the second May 17"."""
    title = re.sub(r"^(?:the )?(?:first|1st)\s+", "", singular(noun_phrase(sentence.text, head)), flags=re.IGNORECASE)
    title = re.sub(r"\s*#?(?:1|one)$", "", title)
    return _draft(sentence, passage, f"{title[:1].upper()}{title[1:]} {count}", count, head.kind, phrase, clock)


def _draft(
    sentence: Sentence,
    passage: Passage,
    title: str,
    number: int | None,
    kind: Kind,
    phrase: Phrase,
    clock: Phrase | None,
) -> Draft:
    from syllabus_io.outline.entry_dates import with_clock

    place = passage.place_of(sentence.start + phrase.start, sentence.start + phrase.end)
    context = " ".join(sentence.text.split())
    doubts = phrase.doubts
    if (
        isinstance(phrase.expression, Span)
        and kind in (Kind.PROJECT, Kind.ASSIGNMENT)
        and not mentions_due(sentence.text)
    ):
        doubts = (*doubts, WHILE_IT_LASTS)
    if (
        isinstance(phrase.expression, Span)
        and kind is Kind.EXAM
        and not re.search(r"take[- ]?home", context, re.IGNORECASE)
    ):
        doubts = (*doubts, ONLY_PERIOD)
    mention = Mention(with_clock(phrase, clock), place, phrase.text, context, passage.frame.row, doubts)
    return Draft(Item(kind, title, (mention,), number=number), 0, None, passage.section, True)


def _from_lead(sentence: Sentence, passage: Passage, phrase: Phrase, clock: Phrase | None) -> Iterator[Draft]:
    """A sentence that is all due date belongs to what its paragraph opens with ("Country profile: … Due 4 April")."""
    named = _NAMED_DUE.match(sentence.text[: phrase.start])
    if named is not None and len(named[1].split()) <= MOST_TITLE_WORDS:
        title = tidy_title(named[1])
        yield _draft(sentence, passage, title, None, kind_of_work(title) or Kind.ASSIGNMENT, phrase, clock)
        return
    plain = name_before_due_date(sentence.text[: phrase.start])
    if plain is not None:
        title = tidy_title(plain[:1].upper() + plain[1:])
        yield _draft(sentence, passage, title, None, kind_of_work(title) or Kind.ASSIGNMENT, phrase, clock)
        return
    match = lead_of(passage.text)
    if match is None or (not find_heads(match[1]) and not passage.heading):
        match = _ROW_NAME.match(passage.section) if passage.place.column else None
    if match is None:
        return
    title = full_title(tidy_title(match[1]))
    listed = find_heads(passage.heading)
    heads = find_heads(title) or listed or find_heads(passage.section)
    if not heads:
        return
    number = None
    if listed and not find_heads(title):
        title, number = f"{passage.heading}: {title}", number_of(listed[-1])
    yield _draft(sentence, passage, title, number, heads[-1].kind, phrase, clock)
