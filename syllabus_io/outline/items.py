"""One deliverable, once: the same work named in schedule, grading table and prose becomes one item."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import combinations

from syllabus_io.outline.day_keys import DayKey, day_key
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.mentions import Draft
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.work_words import find_heads, mentions_due, roman, word_set

__all__ = ["STAGE_WORDS", "merge_drafts", "title_numbers", "title_words"]

_SPELLINGS = (
    "homework: hw hws hwk homeworks; pset: ps psets; exam: exams examination examinations test tests; midterm: "
    "midterms; "
    "quiz: quizzes quizes; presentation: presentations; project: projects; paper: papers; essay: essays; lab: labs; "
    "assignment: assignments; final: finals; report: reports; draft: drafts; poster: posters; reflection: reflections; "
    "response: responses; review: reviews; critique: critiques; analysis: analyses; journal: journals; "
    "presentation: session sessions"
)
_SAME = {
    form: word.strip() for row in _SPELLINGS.split(";") for word, forms in [row.split(":")] for form in forms.split()
}
_EMPTY = word_set("the a an of on in for to and is are be by at your our with due class week")
STAGE_WORDS = word_set(
    "draft proposal outline progress first second rough final revised revision abstract plan slides "
    "presentation report peer review evaluation original counter introduction bibliography milestone group "
    "optional prospectus part"
)
_OWN_WORK = word_set("slides handout proposal outline abstract bibliography")
_ACRONYM = re.compile(r"\b[A-Z]{2,5}\b")
_NUMBERS = re.compile(
    r"(?<![A-Za-z])[A-H]\d{1,2}|\d+(?:\.\d+)?|(?<![A-Za-z])[IVX]{1,4}(?![A-Za-z])|(?<![A-Za-z'’])[A-H](?![A-Za-z'’])"
)
SHORT_TITLE = 3  # words
LEAST_ALIKE = 80.0
_LOOSE_WORDS = word_set(
    "weekly daily online class individual graded short regular written unit chapter number set take home"
)
LEAST_APART = 2  # numbers on which two series differ


@lru_cache(maxsize=4096)
def title_numbers(title: str) -> frozenset[str]:
    """The numbers and letters that tell works of a series apart; Roman numerals count as figures."""
    spaced = re.sub(r"(?<=[A-Za-z]{2})(?=\d)", " ", title)
    found = [match[0] for match in _NUMBERS.finditer(spaced) if "." not in match[0]]
    return frozenset(str(int(one)) if one.isdigit() else str(roman(one) or one) for one in found)


@lru_cache(maxsize=4096)
def title_words(title: str) -> frozenset[str]:
    """The telling words of a title, in one spelling."""
    text = re.sub(r"problem\s+sets?", "pset", title.lower())
    text = re.sub(r"mid[\s-]?terms?", "midterm", text)
    words = re.findall(r"[a-z]+", re.sub(r"(?<=\d)(?=[a-z])|(?<=[a-z])(?=\d)", " ", text))
    return frozenset(_singular(_SAME.get(word, word)) for word in words if word not in _EMPTY and len(word) > 1)


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 4 and word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def merge_drafts(drafts: Sequence[Draft]) -> tuple[Item, ...]:
    """Items in the order of their first naming, each with all its mentions; the schedule's mention comes first."""
    merged: list[list[Draft]] = []
    apart = _series_apart(drafts)
    for draft in drafts:
        same = [
            group
            for group in merged
            if _is_same(group, draft) and not any(frozenset((_stem(one), _stem(draft))) in apart for one in group)
        ]
        if not same:
            merged.append([draft])
            continue
        same[0].append(draft)
        for other in same[1:]:
            if _can_join(same[0], other, draft):
                same[0].extend(other)
                merged.remove(other)
    return tuple(_item(group) for group in merged)


def _series_apart(drafts: Sequence[Draft]) -> frozenset[frozenset[str]]:
    """Pairs of names of numbered series that agree on no day and differ on several: "Quiz 1 … 4" of the lectures and
    "Listening quiz 1 … 6" of the laboratory are not the same quizzes."""
    series: dict[str, dict[frozenset[str], set[DayKey]]] = {}
    for draft in drafts:
        numbers, key = title_numbers(_main(draft.item.title)), _key(draft)
        if numbers and key is not None and key[0] == "date":
            series.setdefault(_stem(draft), {}).setdefault(numbers, set()).add(key)
    apart = set()
    for one, two in combinations(series, 2):
        shared = series[one].keys() & series[two].keys()
        differ = [number for number in shared if not series[one][number] & series[two][number]]
        if len(differ) == len(shared) >= LEAST_APART and _is_distinct(one, two):
            apart.add(frozenset((one, two)))
    return frozenset(apart)


def _is_distinct(first: str, second: str) -> bool:
    """Whether two names differ by a word of their own, and not only in how they call the same kind of work."""
    return any(word not in _LOOSE_WORDS and not find_heads(word) for word in {*first.split()} ^ {*second.split()})


@lru_cache(maxsize=4096)
def _stem_of(title: str) -> str:
    return " ".join(sorted(title_words(_main(title))))


def _stem(draft: Draft) -> str:
    return _stem_of(draft.item.title)


def _is_same(group: Sequence[Draft], draft: Draft) -> bool:
    return any(_are_same(one, draft) for one in group) and not any(_conflict(one, draft) for one in group)


def _can_join(first: Sequence[Draft], second: Sequence[Draft], link: Draft) -> bool:
    """Whether two groups are one work because a third naming belongs to both: only over a number they share."""
    numbers = title_numbers(_main(link.item.title))
    shared = bool(numbers) and any(title_numbers(_main(one.item.title)) == numbers for one in second)
    return shared and not any(_conflict(one, other) for one in first for other in second)


def _conflict(first: Draft, second: Draft) -> bool:
    """Two rows of one table or list on different days are two works, whatever their titles, and so are two entries of
    one cell of which one is numbered ("Syllabus quiz; Quiz 1")."""
    if _are_beside(first, second) and bool(title_numbers(first.item.title)) != bool(title_numbers(second.item.title)):
        return True
    return first.group == second.group != 0 and _key(first) != _key(second) and first.mention.row != second.mention.row


def _are_beside(first: Draft, second: Draft) -> bool:
    """Whether two short entries of one kind stand in one cell."""
    a, b = first.mention.place, second.mention.place
    same_cell = a.row is not None and (a.page, a.block, a.row, a.column) == (b.page, b.block, b.row, b.column)
    short = max(len(one.item.title.split()) for one in (first, second)) <= SHORT_TITLE
    return same_cell and a.span != b.span and short and first.item.kind is second.item.kind


def _key(draft: Draft) -> DayKey | None:
    expression = draft.mention.phrase.expression
    return day_key(expression) if expression is not None else None


def _are_same(first: Draft, second: Draft) -> bool:
    a, b = first.item, second.item
    same_day = _key(first) is not None and _key(first) == _key(second)
    numbers_a, numbers_b = title_numbers(_main(a.title)), title_numbers(_main(b.title))
    if numbers_a and numbers_b and not (numbers_a <= numbers_b or numbers_b <= numbers_a):
        return False
    words_a = _without_acronyms(title_words(a.title), a.title, b.title)
    words_b = _without_acronyms(title_words(b.title), b.title, a.title)
    if not words_a or not words_b:
        return False
    if same_day and _is_same_step(words_a, words_b) and a.kind is b.kind:
        return True
    if same_day and _is_first_of(a.title, b.title):
        return True
    if (words_a ^ words_b) & _OWN_WORK:
        return False
    if _stages(words_a) != _stages(words_b) and not (same_day and _is_part(words_a, words_b) and a.kind is b.kind):
        return False
    if same_day and a.kind is b.kind is Kind.EXAM and first.mention.place != second.mention.place:
        return True
    if same_day:
        if _is_part(words_a, words_b) and (a.kind is b.kind or len(words_a & words_b) > 1):
            return True
        return a.kind is b.kind and _alike(a.title, b.title)
    if first.group == second.group and (first.group or first.mention.place.block == second.mention.place.block):
        return False
    if numbers_a == numbers_b and words_a == words_b:
        return bool(numbers_a) or _is_unique(a)
    if numbers_a and numbers_a == numbers_b and a.kind is b.kind:
        return bool(_head_word(a.title)) and _head_word(a.title) == _head_word(b.title)
    return (
        not numbers_a
        and not numbers_b
        and a.kind is b.kind
        and _is_unique(a)
        and _is_unique(b)
        and _is_part(words_a, words_b)
    )


def _is_first_of(first: str, second: str) -> bool:
    """Whether one title holds the first of the things that the other names together ("Paper proposal", "Proposal and
    sources")."""
    for one, other in ((first, second), (second, first)):
        parts = re.split(r"\s(?:\+|&|and|with)\s", other)
        if len(parts) > 1 and title_words(parts[0]) <= title_words(one):
            return True
    return False


def _main(title: str) -> str:
    return re.split(r"[:(–—]", title)[0] or title


def _without_acronyms(words: frozenset[str], title: str, other: str) -> frozenset[str]:
    """The words of a title without a short form of the other's words ("CIP" beside "Cultural Immersion Project")."""
    capitals = _ACRONYM.findall(title)
    if not capitals:
        return words
    initials = "".join(word[0] for word in re.findall(r"[A-Za-z]+", other)).upper()
    short = {word.lower() for word in capitals if word not in other and _runs_in(word, initials)}
    return words - short or words


def _runs_in(letters: str, initials: str) -> bool:
    start = initials.find(letters[0])
    for letter in letters:
        if start < 0 or (start := initials.find(letter, start)) < 0:
            return False
        start += 1
    return True


def _stages(words: frozenset[str]) -> frozenset[str]:
    return words & STAGE_WORDS


def _is_part(first: frozenset[str], second: frozenset[str]) -> bool:
    return first <= second or second <= first


def _is_same_step(first: frozenset[str], second: frozenset[str]) -> bool:
    """Whether two titles name the same step of what shares a telling word ("Case study DRAFT, 2 copies")."""
    steps = _stages(first)
    return bool(steps) and steps == _stages(second) and bool((first & second) - steps)


def _is_unique(item: Item) -> bool:
    """Works of which a course has one: the final, the midterm, a named paper or project."""
    words = title_words(item.title)
    if item.kind is Kind.EXAM:
        return bool(words & {"final", "midterm"})
    return len(words) > 1 or item.kind in (Kind.PROJECT, Kind.PRESENTATION)


def _head_word(title: str) -> str:
    heads = find_heads(_main(title)) or find_heads(title)
    word = heads[-1].word.lower() if heads else ""
    word = re.sub(r"mid[\s-]?term.*", "midterm", word)
    word = re.sub(r"(?<=^homework) assignments?$", "", word)
    return _SAME.get(word, word)


def _alike(first: str, second: str) -> bool:
    from rapidfuzz.fuzz import token_set_ratio

    return bool(token_set_ratio(first.lower(), second.lower()) >= LEAST_ALIKE)


def _item(group: Sequence[Draft]) -> Item:
    """One item from its drafts: the mention to trust most first, the best title, every doubt of that mention."""
    ranked = sorted(group, key=_trust)
    best = ranked[0].item
    counts = Counter(title_words(draft.item.title) for draft in group)
    titled = min(group, key=lambda draft: (-counts[title_words(draft.item.title)], *_title_rank(draft)))
    mentions: list[Mention] = []
    for draft in ranked:
        mention = draft.mention
        if all(
            (mention.phrase.expression, mention.place) != (other.phrase.expression, other.place) for other in mentions
        ):
            mentions.append(mention)
    mentions = [_with_time(mention, mentions) for mention in mentions]
    kinds = [draft.item.kind for draft in group if draft.item.kind is titled.item.kind]
    return replace(
        best,
        kind=kinds[0] if kinds else best.kind,
        title=titled.item.title,
        number=titled.item.number if titled.item.number is not None else best.number,
        mentions=tuple(mentions),
        covers=next((draft.item.covers for draft in group if draft.item.covers), None),
        weight=next((draft.item.weight for draft in group if draft.item.weight), None),
        category=next((draft.item.category for draft in group if draft.item.category), None),
        end=next((draft.item.end for draft in group if draft.item.end), None),
    )


def _trust(draft: Draft) -> tuple[int, int, bool]:
    """Lower is better: a single day without doubts before a stretch, a doubt or a weekday derived from a rule."""
    mention = draft.mention
    key = _key(draft)
    weak = draft.role in (ColumnRole.TOPIC, ColumnRole.NOTES) and not mentions_due(mention.context)
    return (
        len(mention.doubts),
        0 if key is not None and key[0] == "date" else 1,
        weak and draft.item.kind is Kind.ASSIGNMENT,
    )


def _title_rank(draft: Draft) -> tuple[int, int, int, int, int]:
    title = draft.item.title
    numbered = bool(title_numbers(title))
    plural = title.lower().endswith("s") and not numbered
    return (not draft.is_sure_title, not numbered, plural, title.isupper(), abs(len(title) - 18))


def _with_time(mention: Mention, mentions: Sequence[Mention]) -> Mention:
    """The mention with the time that another mention of the same day gives."""
    if mention.phrase.time is not None or mention.phrase.expression is None:
        return mention
    for other in mentions:
        same = other.phrase.expression is not None and day_key(other.phrase.expression) == day_key(
            mention.phrase.expression
        )
        if same and other.phrase.time is not None:
            phrase = replace(mention.phrase, time=other.phrase.time, end_time=other.phrase.end_time)
            return replace(mention, phrase=phrase)
    return mention
