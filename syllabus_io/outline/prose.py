"""Sentences and list entries that date work: "The midterm is on 7 October", "Test I (24 July): 20 %"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from syllabus_io.outline.clauses import (
    collected_under,
    days_of_month,
    is_after_work,
    is_fraction,
    is_presenting,
    is_request,
    is_usable,
    meant_by_pronoun,
    topic_chosen,
    weight_in_brackets,
    with_shared_time,
)
from syllabus_io.outline.entry_dates import exam_window
from syllabus_io.outline.frames import Passage
from syllabus_io.outline.mentions import Draft
from syllabus_io.outline.own_names import own_heads
from syllabus_io.outline.pairings import date_groups, is_inside, is_of_dates, owner_of
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.policies import speaks_of_rules
from syllabus_io.outline.prose_drafts import Said, draft_of, drafts_from_lead, drafts_meant, drafts_named, drafts_of
from syllabus_io.outline.prose_names import (
    counted_due,
    kind_by_last_word,
    name_in_list,
    unnumbered,
    within_entry,
)
from syllabus_io.outline.prose_series import (
    Counted,
    counted_in,
    days_after_last,
    named_above,
    ordinal_before,
    section_to_hand_in,
)
from syllabus_io.outline.records import Kind
from syllabus_io.outline.sentences import Sentence, parts_of_sentence, sentences_of
from syllabus_io.outline.steps import step_of_lead, step_of_work
from syllabus_io.outline.titles import tidy_title
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import Head, find_heads
from syllabus_io.resolve.expression import DayInMonth, Every, Offset, Phrase

__all__ = ["ONLY_LISTED", "read_prose"]

ONLY_LISTED = "it stands in a list of dates, and no word says that it is work to hand in"
ONE_OF_DAYS = "the outline names two days, and not which of them is yours"
MOST_CHOICES = 2
_HANDED_IN = re.compile(
    r"\bdue\b[^.]{0,25}$|^\W*(?:please\s+)?(?:submit|hand\s+in|turn\s+in|upload)\b[^.]{0,45}$", re.IGNORECASE
)
_LEADER = re.compile(r"(?:\.\s?){4,}|…{2,}|_{4,}|·{3,}")
_SCHOOL_REPORTS = re.compile(r"\b(?:marking|grading|reporting) periods?\b|\breport cards?\b", re.IGNORECASE)


def read_prose(passage: Passage, names: frozenset[str] = frozenset()) -> Iterator[Draft]:
    """The work that running text dates; ``names`` are what only this course calls work."""
    return _Reading(replace(passage, text=unnumbered(passage.text)), names).drafts()


class _Reading:
    """One passage read sentence by sentence, with what the sentences before have named."""

    def __init__(self, passage: Passage, names: frozenset[str]) -> None:
        self._passage = passage
        self._names = names
        self._counted: Counted | None = None
        self._last: list[Draft] = []

    def drafts(self) -> Iterator[Draft]:
        """The work of the passage in the order of its sentences."""
        text = _LEADER.sub(lambda match: ":" + " " * (len(match[0]) - 1), self._passage.text)
        of_school = _SCHOOL_REPORTS.search(text)
        before = ""
        for sentence in sentences_of(text):
            if not (of_school and re.search(r"\bprogress reports\b", sentence.text, re.IGNORECASE)):
                # otherwise: the school's reports to parents, sent home between report cards
                yield from self._sentence(sentence, before)
            before = sentence.text

    def _sentence(self, sentence: Sentence, before: str) -> Iterator[Draft]:
        found: list[Draft] = []
        self._counted = counted_in(sentence.text) or self._counted
        for start, part in parts_of_sentence(sentence.text):
            if not speaks_of_rules(part) and not is_request(part):
                found += self._part(Sentence(part, sentence.start + start, sentence.text, before, start))
        self._last = found or self._last
        yield from found

    def _part(self, sentence: Sentence) -> Iterator[Draft]:
        text = sentence.text
        phrases = phrases_of(text, self._passage.text)
        if any(isinstance(phrase.expression, Every) for phrase in phrases):
            phrases = days_that_follow(text, phrases)
        clock = next((phrase for phrase in phrases if phrase.time is not None and phrase.expression is None), None)
        said = Said(sentence, self._passage, clock)
        dated = [
            phrase
            for phrase in phrases
            if phrase.expression is not None
            and (is_usable(phrase.expression) or is_after_work(phrase, text))
            and not is_fraction(text, phrase)
        ]
        if not dated:
            yield from self._after_last(said, phrases)
            return
        heads = [head for head in self._heads(text) if not is_inside(head, phrases)]
        window = exam_window(text, dated)
        if window is not None:
            exam = max((head for head in heads if head.kind is Kind.EXAM), key=lambda head: head.start <= window.start)
            yield from drafts_of(said, exam, [window])
            dated = [phrase for phrase in dated if phrase.end <= window.start or window.end <= phrase.start]
        for group in map(with_shared_time, date_groups(text, dated)):
            yield from self._group(said, heads, group, dated)

    def _heads(self, text: str) -> list[Head]:
        known = find_heads(text)
        own = own_heads(text, self._names)
        free = [head for head in own if not any(head.start < one.end and one.start < head.end for one in known)]
        return sorted((*known, *free), key=lambda head: head.start)

    def _group(
        self, said: Said, heads: Sequence[Head], group: Sequence[Phrase], dated: Sequence[Phrase]
    ) -> Iterator[Draft]:
        text = said.sentence.text
        head = owner_of(text, heads, group, dated)
        if len(group) > 1 and re.search(r"\bor\b", text[group[0].start : group[-1].end]):
            is_known = not isinstance(group[0].expression, DayInMonth)
            if head is not None and head.kind is Kind.EXAM and len(group) == MOST_CHOICES and is_known:
                yield from drafts_of(said, head, [replace(group[0], doubts=(*group[0].doubts, ONE_OF_DAYS))])
        elif isinstance(group[-1].expression, DayInMonth):
            return  # its month is not known
        elif (step := step_of_work(said.sentence, group[0])) is not None:
            yield from drafts_named(said, *step, group)
        elif len(dated) == 1 and (step_name := step_of_lead(text[: group[0].start], self._passage.text)) is not None:
            yield from drafts_named(said, step_name, kind_of_work(step_name) or Kind.ASSIGNMENT, group)
        elif (topic := topic_chosen(text[: group[0].start], self._passage.text)) is not None:
            yield from drafts_named(said, topic, kind_of_work(topic) or Kind.ASSIGNMENT, group[:1])
        elif head is not None:
            self._counted = Counted.of(text, head)
            yield from drafts_of(said, head, group)
        elif self._counted is not None and (number := ordinal_before(text[: group[0].start], self._counted)):
            self._counted = replace(self._counted, number=number)
            yield draft_of(said, self._counted.title(number), number, self._counted.kind, group[0])
        else:
            yield from self._unnamed(said, heads, group, dated)

    def _unnamed(
        self, said: Said, heads: Sequence[Head], group: Sequence[Phrase], dated: Sequence[Phrase]
    ) -> Iterator[Draft]:
        """The work of a date that no work word of its sentence owns."""
        text, passage = said.sentence.text, self._passage
        front = text[: group[0].start]
        named_here = [head for head in heads if not is_of_dates(text, head)]
        if not heads and is_presenting(front):
            yield from drafts_named(said, within_entry("Presentation", said.sentence.whole), Kind.PRESENTATION, group)
        elif not heads and (meant := meant_by_pronoun(text, said.sentence.before)) is not None:
            yield from drafts_meant(said, meant, group)
        elif not heads and (named := collected_under(front, passage.text)) is not None:
            yield from drafts_named(said, named, kind_of_work(named) or Kind.ASSIGNMENT, group)
        elif not named_here and (above := named_above(text, group, passage)) is not None:
            yield from drafts_named(said, *above, group)
        elif not heads and len(dated) == 1 and (headed := section_to_hand_in(front, passage, self._names)) is not None:
            yield from drafts_named(said, *headed, group)
        elif len(group) > 1 and (counted := counted_due(front, passage.text)) is not None:
            yield from drafts_named(said, counted, kind_of_work(counted) or Kind.ASSIGNMENT, group)
        elif _HANDED_IN.search(front):
            yield from drafts_from_lead(said, group[0])
        elif len(dated) == 1 and (listed := name_in_list(text, group[0], passage.section)) is not None:
            is_graded = weight_in_brackets(text, group[0].end) is not None
            phrase = group[0] if is_graded else replace(group[0], doubts=(*group[0].doubts, ONLY_LISTED))
            yield draft_of(said, tidy_title(listed), None, kind_by_last_word(listed), phrase)

    def _after_last(self, said: Said, phrases: Sequence[Phrase]) -> Iterator[Draft]:
        """Work that is dated from the day of the work before it: "The revised essay is due one week later"."""
        for name, kind, phrase in days_after_last(said.sentence.text, phrases, self._last):
            yield draft_of(said, name, None, kind, phrase)


def phrases_of(text: str, paragraph: str) -> tuple[Phrase, ...]:
    """The date phrases of a sentence, with days of a month that its paragraph opens with."""
    numbered = days_of_month(text, paragraph)
    phrases = phrases_in(text)
    others = (one for one in phrases if not any(one.start < day.end and day.start < one.end for day in numbered))
    return tuple(sorted((*map(partial(without_duration, text), others), *numbered), key=lambda phrase: phrase.start))


def without_duration(text: str, phrase: Phrase) -> Phrase:
    """The day on which something begins that lasts some hours ("open for 24 hours from Friday, March 27")."""
    expression = phrase.expression
    if isinstance(expression, Offset) and re.search(r"\bfor\s+$", text[: phrase.start], re.IGNORECASE):
        return replace(phrase, expression=expression.base)
    return phrase


def days_that_follow(text: str, phrases: Sequence[Phrase]) -> tuple[Phrase, ...]:
    """The days that a sentence with a weekly rule lists one by one ("on these Tuesdays: 1/27, 2/10"); none where it
    only has its rule, or names the day from which it holds."""
    rule = next(phrase for phrase in phrases if isinstance(phrase.expression, Every))
    days = tuple(phrase for phrase in phrases if phrase.start >= rule.end and phrase.expression is not None)
    opens = bool(days) and re.fullmatch(r"\s*[:(–—]\s*", text[rule.end : days[0].start])
    return days if opens and len(days) > 1 else ()
