"""Work that sentences of running text date, as drafts: titles, numbers, weights, doubts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.clauses import label_before, stage_before, weight_in_brackets, weight_said
from syllabus_io.outline.frames import WHILE_IT_LASTS, Passage
from syllabus_io.outline.items import STAGE_WORDS, title_words
from syllabus_io.outline.mentions import Draft, numbers_behind
from syllabus_io.outline.pairings import bracket_behind
from syllabus_io.outline.prose_names import (
    full_title,
    is_step,
    lead_of,
    name_before_due_date,
    name_of_lead,
    within_entry,
    without_count,
)
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.sentences import Sentence
from syllabus_io.outline.titles import noun_phrase, singular, tidy_title
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import Head, find_heads, mentions_due, number_of, roman, word_set
from syllabus_io.resolve.expression import Phrase, Span

__all__ = ["ONLY_PERIOD", "Said", "draft_of", "drafts_from_lead", "drafts_meant", "drafts_named", "drafts_of"]

ONLY_PERIOD = "the outline gives only the period, and not the day"
MOST_TITLE_WORDS = 8
_BRACKETS = re.compile(r"(?<=\w)\s+\([^()]*\)(?=\s)")
_ROW_NAME = re.compile(r"^([^.:;]{3,60})$")
_DATES = re.compile(r"\b(?:dates?|schedule|deadlines?)\b", re.IGNORECASE)
_NAMED_DUE = re.compile(r"^\W*([A-Z][^.;:()]{3,60}?)\s*[(,:–—-]\s*due\b[^.;:]{0,6}$")
_COVERED = re.compile(
    r"(?:covers?|covering|on|over)\s+(?=\w)|(?=(?:chapters?|chs?\.?|units?|modules?|weeks?)\b)", re.IGNORECASE
)
_ONE_EACH = word_set("final midterm")  # a course has one of each, and neither is called by the other's name


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence in its passage, with the time of day that it gives apart from its dates."""

    sentence: Sentence
    passage: Passage
    clock: Phrase | None = None


def drafts_of(said: Said, head: Head, group: Sequence[Phrase]) -> Iterator[Draft]:
    """The work of a sentence, one for each of the dates that belong to it."""
    text = said.sentence.text
    title, own_number, kind = _titled(said, head, group)
    count = len(group)
    for number, phrase in enumerate(group, 1):
        name, place_in_series = title, own_number
        label = bracket_behind(text, phrase) if count > 1 else None
        if count > 1:
            name, place_in_series = f"{singular(title)} {number}", number
            name = f"{name}: {label}" if label and not re.search(r"\d", label) else name
        draft = draft_of(said, name, place_in_series, kind, phrase)
        if label and kind is Kind.EXAM and _COVERED.match(label):
            draft = replace(draft, item=replace(draft.item, covers=_COVERED.sub("", label)))
        weight = weight_in_brackets(text, head.end) or weight_said(text, phrase.end) if count == 1 else None
        yield replace(draft, item=replace(draft.item, weight=weight)) if weight is not None else draft
    if count == 1 and head.end > head.word_end and title.endswith(head.number):
        for other in numbers_behind(text, head.end):
            name = f"{title.removesuffix(head.number)}{other}"
            yield draft_of(said, name, roman(other), kind, group[0])


def _titled(said: Said, head: Head, group: Sequence[Phrase]) -> tuple[str, int | None, Kind]:
    """The title, number and kind of the work of a head, the name of its list entry or paragraph taken in."""
    text = said.sentence.text
    title = bare = noun_phrase(text, head)
    title = within_entry(within_entry(title, said.sentence.whole), said.passage.text)
    kind = Kind.PROJECT if title != bare and is_step(title, head) else head.kind
    own_number = number_of(head)
    lead = lead_of(said.passage.text)
    if lead is not None and len(group) == 1 and _is_called(lead, said, head):
        named = next(one for one in find_heads(lead[1]) if one.kind is head.kind)
        title, own_number = full_title(name_of_lead(lead)), number_of(named)
    elif lead is not None and title_words(title) and title_words(title) <= STAGE_WORDS and _is_step_of(lead, head):
        name = full_title(name_of_lead(lead))  # "Second report, 8 pages. A full draft is due …"
        if not title_words(title) & title_words(name) and not name.lower().endswith("s"):
            title = f"{name} {title[:1].lower()}{title[1:]}"
    called = _NAMED_DUE.match(text[: group[0].start])
    if called is not None and len(group) == 1 and len(called[1].split()) <= MOST_TITLE_WORDS and head.is_weak:
        title = tidy_title(called[1])
    title = full_title(title)
    title = label_before(text, head, group[0]) or title
    stage = stage_before(text[: head.start])
    title = f"{stage} for {title}" if stage and stage.lower() not in title.lower() else title
    return title, own_number, kind


def _is_step_of(lead: re.Match[str], head: Head) -> bool:
    """Whether a step ("a full draft") is one of the work that the paragraph opens with, and no exam."""
    named = [one for one in find_heads(lead[1]) if not one.is_weak]
    return bool(named) and Kind.EXAM not in (head.kind, named[-1].kind)


def _is_called(lead: re.Match[str], said: Said, head: Head) -> bool:
    """Whether the work of a sentence is the one its paragraph opens with, and so called by that name."""
    named = [one for one in find_heads(lead[1]) if one.kind is head.kind]
    if not named or _DATES.search(lead[1]) or (named[-1].word.endswith("s") and not head.word.endswith("s")):
        return False
    inside = said.sentence.start + head.start < lead.end()
    if head.number and not inside:
        return False
    text = said.sentence.text
    opens = re.match(r"\W*$", text[: head.start]) and re.match(r"\s*[:–—-]", text[head.end :])
    name = noun_phrase(text, head)
    own = title_words(name) & STAGE_WORDS
    if re.search(rf"(?:^\W*|\b(?:the|your|our)\s+){re.escape(name)}", text, re.IGNORECASE):
        own |= title_words(name) & _ONE_EACH
    return inside or not (opens or own - title_words(lead[1]))


def drafts_meant(said: Said, head: Head, group: Sequence[Phrase]) -> Iterator[Draft]:
    """The work of the sentence before, dated by one that calls it "they" or "it"."""
    title = within_entry(tidy_title(without_count(noun_phrase(said.sentence.before, head))), said.passage.text)
    for number, phrase in enumerate(group, 1):
        if len(group) == 1:
            yield draft_of(said, title, number_of(head), head.kind, phrase)
        else:
            yield draft_of(said, f"{singular(title)} {number}", number, head.kind, phrase)


def drafts_named(said: Said, name: str, kind: Kind, group: Sequence[Phrase]) -> Iterator[Draft]:
    """Works of one name, numbered where it has several dates."""
    for number, phrase in enumerate(group, 1):
        if len(group) == 1:
            yield draft_of(said, name, None, kind, phrase)
        else:
            yield draft_of(said, f"{singular(name)} {number}", number, kind, phrase)


def draft_of(
    said: Said,
    title: str,
    number: int | None,
    kind: Kind,
    phrase: Phrase,
) -> Draft:
    from syllabus_io.outline.entry_dates import with_clock

    place = said.passage.place_of(said.sentence.start + phrase.start, said.sentence.start + phrase.end)
    context = " ".join(said.sentence.text.split())
    doubts = phrase.doubts
    if (
        isinstance(phrase.expression, Span)
        and kind in (Kind.PROJECT, Kind.ASSIGNMENT)
        and not mentions_due(said.sentence.text)
    ):
        doubts = (*doubts, WHILE_IT_LASTS)
    if (
        isinstance(phrase.expression, Span)
        and kind is Kind.EXAM
        and not re.search(r"take[- ]?home", context, re.IGNORECASE)
    ):
        doubts = (*doubts, ONLY_PERIOD)
    mention = Mention(with_clock(phrase, said.clock), place, phrase.text, context, said.passage.frame.row, doubts)
    return Draft(Item(kind, title, (mention,), number=number), 0, None, said.passage.section, True)


def drafts_from_lead(said: Said, phrase: Phrase) -> Iterator[Draft]:
    """A sentence that is all due date belongs to what its paragraph opens with ("Country profile: … Due 4 April")."""
    named = _NAMED_DUE.match(said.sentence.text[: phrase.start])
    if named is not None and len(named[1].split()) <= MOST_TITLE_WORDS:
        title = tidy_title(named[1])
        yield draft_of(said, title, None, kind_of_work(title) or Kind.ASSIGNMENT, phrase)
        return
    plain = name_before_due_date(_BRACKETS.sub("", said.sentence.text[: phrase.start]))
    if plain is not None:
        title = tidy_title(plain[:1].upper() + plain[1:])
        yield draft_of(said, title, None, kind_of_work(title) or Kind.ASSIGNMENT, phrase)
        return
    match = lead_of(said.passage.text)
    if match is None or (not find_heads(match[1]) and not said.passage.heading):
        match = _ROW_NAME.match(said.passage.section) if said.passage.place.column else None
    if match is None:
        return
    title = full_title(name_of_lead(match))
    listed = find_heads(said.passage.heading)
    heads = find_heads(title) or listed or find_heads(said.passage.section)
    if not heads:
        return
    number = None
    if listed and not find_heads(title):
        title, number = f"{said.passage.heading}: {title}", number_of(listed[-1])
    yield draft_of(said, title, number, heads[-1].kind, phrase)
