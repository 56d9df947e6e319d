"""Graded work that the outline names without a date, and what it does say about it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from syllabus_io.outline.frames import DAY_NOT_WRITTEN, Passage
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.items import title_numbers, title_words
from syllabus_io.outline.records import DAY_NOT_THE_CLASS, Category, GradingScheme, Item, Kind, UndatedWork, Weight
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.titles import entry_title, noun_phrase, tidy_title
from syllabus_io.outline.undated_said import EACH, work_said_without_day
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import find_heads, word_set
from syllabus_io.provenance import Place

__all__ = ["read_undated"]

_OPEN = re.compile(
    r"\b(?:tb[ad]|to be (?:announced|determined|arranged|scheduled|confirmed)|"
    r"date (?:and time )?(?:is )?(?:not yet|tba|to be)|"
    r"(?:scheduled|set|announced|determined) by the (?:registrar|university|college|school)|registrar|"
    r"will be announced|"
    r"during (?:the )?(?:final exam(?:ination)? (?:period|week)|finals(?: week)?|formal examination period)|"
    r"(?:held|sat|taken|scheduled|takes? place) (?:in|during) the (?:\w+ )?(?:assessment|exam(?:ination)?s?) "
    r"(?:period|weeks?)|timetable (?:is|will be) published|"
    r"in finals week|unannounced|"
    r"pop quiz(?:zes)?)\b",
    re.IGNORECASE,
)
_EXAM_PERIOD = re.compile(r"\b(?:assessment|exam(?:ination)?s?) (?:period|weeks?)\b", re.IGNORECASE)
_NOT_WORK = re.compile(
    r"\b(?:participation|attendance|attending|engagement|professionalism|total|extra|bonus|office hours?|room|ta|"
    r"location)\b",
    re.IGNORECASE,
)
_NO_FINAL = re.compile(
    r"\b(?:there (?:is|will be) no|no) final(?: exam(?:ination)?)?(?: in this (?:course|class))?\s*(?:[.;,!]|$)",
    re.IGNORECASE,
)
LEAST_SERIES = 3
_LOOSE_WORDS = word_set("weekly daily online class individual graded short regular")
_GENERAL_WORK = word_set("assignment homework quiz work task activity presentation project lab")


def read_undated(
    passages: Sequence[Passage], grading: GradingScheme, items: Sequence[Item], known: Sequence[UndatedWork] = ()
) -> tuple[UndatedWork, ...]:
    """Work without a date: what is said to be announced, and grading categories no dated item belongs to."""
    found: list[UndatedWork] = list(known)
    dated = [item for item in items if item.kind is not Kind.READING]
    for passage in passages:
        for sentence in sentences_of(passage.text):
            work = _announced(sentence.text, passage)
            if work is not None and not _is_dated(work, dated) and not _is_known(work, found):
                found.append(work)
    for work in work_said_without_day(passages, any(passage.frame.is_dated for passage in passages)):
        by_rule = work.reason.startswith(EACH)
        if not _is_dated(work, dated, general=not by_rule) and not _is_known(work, found):
            found.append(work)
    for category in grading.categories:
        work = _of_category(category, passages)
        if work is not None and not _is_dated(work, dated) and not _is_known(work, found):
            found.append(work)
    return tuple(found)


def without_open_series(items: Sequence[Item]) -> tuple[tuple[Item, ...], tuple[UndatedWork, ...]]:
    """The items without those that only recur week by week with no day, and these as work without a date."""
    groups: dict[tuple[Kind, str], list[Item]] = {}
    for item in items:
        if all(
            {DAY_NOT_WRITTEN, DAY_NOT_THE_CLASS} & set(mention.doubts) for mention in item.mentions
        ) and not re.search(r"\d", re.split(r"[:(]", item.title)[0]):
            groups.setdefault((item.kind, re.split(r"[:(]", item.title)[0].strip().lower()), []).append(item)
    open_works: list[UndatedWork] = []
    taken: set[int] = set()
    for (kind, _), series in groups.items():
        if len(series) < LEAST_SERIES:
            continue
        taken.update(id(item) for item in series)
        title = re.split(r"[:(]", series[0].title)[0].strip()
        mention = series[0].mentions[0]
        reason = f"it stands in {len(series)} weeks of the schedule, and no day is written"
        open_works.append(UndatedWork(kind, title, reason, mention.place, mention.context))
    return tuple(item for item in items if id(item) not in taken), tuple(open_works)


def without_denied(items: Sequence[Item], passages: Sequence[Passage]) -> tuple[Item, ...]:
    """The items without an exam that the outline says there is none of ("There is no final exam")."""
    denied = any(_NO_FINAL.search(passage.text) for passage in passages)
    if not denied:
        return tuple(items)
    return tuple(item for item in items if not (item.kind is Kind.EXAM and "final" in title_words(item.title)))


def _announced(text: str, passage: Passage) -> UndatedWork | None:
    match = _OPEN.search(text)
    if match is None or len(text) > 300 or passage.role is ColumnRole.READING:
        return None
    heads = [head for head in find_heads(text) if not head.is_weak and abs(head.start - match.start()) < 120]
    exams = [head for head in heads if head.kind in (Kind.EXAM, Kind.QUIZ, Kind.PRESENTATION)] or heads
    if not exams or (_NOT_WORK.search(text) and len(text) < 60):
        return None
    head = exams[0]
    title = noun_phrase(text, head) if len(text.split()) > 6 or "(" in text else entry_title(_OPEN.sub("", text), [])
    if not find_heads(title):
        title = noun_phrase(text, head)
    if title.lower() in ("exam", "exams", "examination", "final", "test", "tests"):
        title = "Final exam" if "final" in text.lower() or _EXAM_PERIOD.search(text) else title
    reason = f"the outline says: {' '.join(text.split())}"
    return UndatedWork(head.kind, title, reason[:200], passage.place, " ".join(text.split())[:300])


def _of_category(category: Category, passages: Sequence[Passage]) -> UndatedWork | None:
    if _NOT_WORK.search(category.name) or category.extra_credit:
        return None
    kind = kind_of_work(category.name)
    if kind is None or kind is Kind.READING:
        kind = Kind.ASSIGNMENT
    place = category.place or (passages[0].place if passages else Place(""))
    weight = Weight(category.weight, category.points) if (category.weight or category.points) else None
    said = _said_about(category.name, passages)
    reason = f"the outline says only: {said}" if said else "the outline grades it but gives no date"
    return UndatedWork(kind, tidy_title(category.name), reason, place, said, weight, category.name)


def _said_about(name: str, passages: Sequence[Passage]) -> str:
    words = title_words(name)
    if not words:
        return ""
    for passage in passages:
        if passage.frame.is_dated:
            continue
        for sentence in sentences_of(passage.text):
            if (
                len(sentence.text) < 220
                and words <= title_words(sentence.text)
                and re.search(
                    r"\b(?:due|every|each|weekly|week|date|period|announced|scheduled|day)\b",
                    sentence.text,
                    re.IGNORECASE,
                )
            ):
                return " ".join(sentence.text.split())
    return ""


def _is_dated(work: UndatedWork, items: Sequence[Item], *, general: bool = True) -> bool:
    """Whether dated items stand for the work: by its words, or, unless a rule is said for it alone, as works of a kind
    that has no other category (``general``)."""
    words = title_words(work.title) - _LOOSE_WORDS or title_words(work.title)
    final = "final" in title_words(work.title)
    for item in items:
        if item.category is not None and item.category == work.category:
            return True
        other = title_words(item.title)
        if work.kind is Kind.EXAM and item.kind is Kind.EXAM:
            if ("final" in other) == final and (work.category is not None or final or words <= other):
                return True
        elif words <= other or (len(other) > 1 and other <= words and item.kind is work.kind):
            return True
    same_kind = [item for item in items if item.kind is work.kind]
    return general and words <= _GENERAL_WORK and len(same_kind) >= LEAST_SERIES


def _is_known(work: UndatedWork, found: Sequence[UndatedWork]) -> bool:
    words, numbers = title_words(work.title), title_numbers(work.title)
    for other in found:
        others = title_words(other.title)
        finals = ("final" in words) == ("final" in others) or work.kind is not Kind.EXAM
        if other.kind is work.kind and finals and (others <= words or words <= others):
            theirs = title_numbers(other.title)
            if not numbers or not theirs or numbers == theirs:
                return True
    return False
