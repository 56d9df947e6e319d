"""From passages to pieces of work: what an entry names, whether it is due there, and when."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from syllabus_io.outline.clauses import stage_before
from syllabus_io.outline.day_labels import labelled_entries
from syllabus_io.outline.entries import Entry
from syllabus_io.outline.entry_dates import Reading, date_of, own_phrases
from syllabus_io.outline.frames import WHILE_IT_LASTS, Passage
from syllabus_io.outline.headings import ColumnRole, column_role
from syllabus_io.outline.own_names import says_own_name
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.titles import entry_title, name_before_due, noun_phrase, singular, tidy_title
from syllabus_io.outline.verdicts import FARTHEST_HEAD, begins, chosen_head, heading_noun, is_only_set_up, verdict_of
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import (
    Head,
    find_heads,
    is_announced,
    is_negated,
    mentions_due,
    number_of,
    roman,
)
from syllabus_io.resolve.expression import (
    Phrase,
    Span,
)

__all__ = [
    "GIVEN_OR_DUE",
    "Draft",
    "Reading",
    "numbers_behind",
    "read_drafts",
]

_TOPIC_ROLES = (ColumnRole.TOPIC, ColumnRole.NOTES, ColumnRole.READING, None)
_NO_ITEM = re.compile(
    r"^\W*(?:none|n/?a|tba|tbd|nothing\b.*|no class(?:es)?\W*|no class (?!.*(?:exam|midterm|test|quiz)).*|"
    r"holiday.*|good luck.*|"
    r"(?:be|come)\s+(?:ready|prepared)\b.*|bring\b.*|supplies\b.*|attend(?:ance)?\b.*|have a\b.*|enjoy\b.*|"
    r"love\b.*|happy\b.*|(?:see|check)\s.*|begin\b.*|continue\b.*|start\b.*|keep\b.*|prepare for\b.*|work on\b.*|"
    r"turn to\b.*|.*\bmeeting\b|.*\bmtg\b|.*\bconferences?\b|.*\bdiscussion\b(?! ?(?:board|post|question|forum))|"
    r".*\bhandouts?)\W*$",
    re.IGNORECASE,
)
_JOIN = re.compile(
    r"\s*(?:,\s*(?:and\s+|&\s*)?|;|\.\s+(?=[A-Z])|\s&\s|\s\+\s|\band\b|\bplus\b|\n|\s/\s|\s[-–—]\s)\s*", re.IGNORECASE
)
_BRING = re.compile(r"\bbring\b", re.IGNORECASE)
_NAMED_DUE = re.compile(
    r"(?!(?:It|This|That|These|Those|They|All|Both|Each)\b)[A-Z][\w’'-]+(?:\s+[\w’'&-]+){0,3}\s+(?:is\s+|are\s+)?due\b"
)
_BY = re.compile(r"\bby\s+$", re.IGNORECASE)
_ASIDE = re.compile(r"(?<=\w)\s*\(no [^()]*\)", re.IGNORECASE)  # "Exam 2 Fri (no HW)"
_BEGINS_THEN = re.compile(r"\s+(?:begin|start)s?\b.*$", re.IGNORECASE)
_CODE = re.compile(r"\s*[A-Z]{1,4}\s?\d{1,2}[a-z]?(?![\w:./-])(?!\s*[-–])")  # "PA1, PA2 out"
MOST_DUE_WORDS = 6
_PLAINLY_DUE = re.compile(
    r"\w+ (?:is )?(?P<due>due)(?:\s+(?:by|at|before|in))?(?:\s+(?:the\s+)?(?:start|beginning|end)\s+of)?"
    r"(?:\s+(?:class|lecture|lab|seminar))?\W*$",
    re.IGNORECASE,
)
_ACCOMPANIES = re.compile(r"s?\s+(?:slides?|handouts?|script|notes|materials)\b", re.IGNORECASE)
FIRST_OF_SEVERAL = "the outline says that they begin then; find out which day is yours"
GIVEN_OR_DUE = "its column does not say whether it is due that day or given then"
MAYBE_BROUGHT = "its column holds what to bring as well as what to hand in"
TENTATIVE = "the outline calls this date tentative"
MAY_NOT_COUNT = "a survey or evaluation of a course often carries no grade; find out whether this one counts"
_SURVEY = re.compile(r"\bsurveys?\b|\b(?:course|teaching|instructor) evaluations?\b", re.IGNORECASE)
_TENTATIVE = re.compile(
    r"\b(?:tentative(?:ly)?|date may change|subject to change|to be confirmed|tbc)\b", re.IGNORECASE
)
_ABBREVIATED = re.compile(
    r"\b(?:chs?|dr|mrs?|ms|st|nos?|vol|pp?|secs?|figs?|eqs?|vs|prof|jan|feb|mar|apr|aug|sept?|oct|nov|dec)$",
    re.IGNORECASE,
)
_WEEKDAY = r"(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?\b"
_WEEKDAY_NEXT = re.compile(rf"{_WEEKDAY}(?!\s*[:–—-])", re.IGNORECASE)
_BEHIND_WEEKDAY = re.compile(rf",\s(?i:{_WEEKDAY})\.?(\s+)(?=[A-Z])")
_MORE_NUMBERS = re.compile(
    r"\s*(?:,|and|&|/|\+)\s*(?:and\s+|&\s*)?#?(\d{1,2}|[IVX]{1,4}|[A-H]\d)(?![\w%:.]\d?|\s*(?:%|points|pts|am\b|pm\b))",
    re.IGNORECASE,
)
_RANGE = re.compile(r"\s*(?:-|–|to|through)\s*#?(\d{1,2})(?![\w%:/.])")
_COVERS = re.compile(
    r"\b(?:covers?|covering|on|over|includes?)\s+((?:material|chapters?|ch\.?|chs\.?|modules?|units?|sections?|weeks?|lectures?|topics?|parts?)\b[^.;|]{1,60})"
    r"|\(((?:all\s+)?(?:material|chapters?|ch\.?|chs\.?|modules?|units?|sections?|weeks?|lectures?|topics?)\b[^)]{1,60})\)"
    r"|\b((?:chapters?|ch\.?|chs\.?|modules?|units?)\s*\d+\s*(?:-|–|to|through)\s*\d+)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Draft:
    """A piece of work as one passage names it, before the same work elsewhere is put together with it."""

    item: Item
    group: int
    role: ColumnRole | None
    section: str = ""
    is_sure_title: bool = True

    @property
    def mention(self) -> Mention:
        """Its only mention."""
        return self.item.mentions[0]


def read_drafts(passage: Passage, reading: Reading) -> Iterator[Draft]:
    """The pieces of work in a passage that stands in a row, under a date or in a column of work."""
    drafts = tuple(_read_passage(passage, reading))
    for draft in drafts:
        is_all = len(drafts) == 1 and passage.frame.weight is not None  # the row's weight is that of its only work
        yield replace(draft, item=replace(draft.item, weight=passage.frame.weight)) if is_all else draft


def _read_passage(passage: Passage, reading: Reading) -> Iterator[Draft]:
    if passage.role is ColumnRole.ASSIGNED:
        return
    for entry, framed in labelled_entries(passage):
        for number, clause in enumerate(_clauses(entry)):
            if number and not _is_work_clause(clause, entry, framed, reading):
                continue
            # What a label dates is not dated by what follows it in the same entry.
            yield from _read_clause(clause, entry if framed is passage else clause, framed, reading)


def _is_work_clause(clause: Entry, entry: Entry, passage: Passage, reading: Reading) -> bool:
    """Whether a later clause of an entry names work of its own: behind a full stop only when it says it is due."""
    before = entry.text[: max(0, clause.start - entry.start)]
    heads = [head for head in find_heads(clause.text) if not head.is_weak or head.number]
    if passage.role in (ColumnRole.DUE, ColumnRole.WORK) and _CODE.match(clause.text):
        return True
    if says_own_name(clause.text, reading.names) and re.search(r"\d|\bdue\b", clause.text):
        return True
    if re.search(r"[.!?](?:\s|$)", before):
        if any(name_before_due(clause.text, head) for head in find_heads(clause.text)):
            return True
        short = len(clause.text.split()) - _date_words(clause.text) <= 4 and not passage.frame.doubts
        named = _PLAINLY_DUE.search(clause.text)
        if named is not None and len(clause.text[: named.start("due")].split()) < MOST_DUE_WORDS:
            return True  # "Planning document 1 due."
        if passage.frame.is_dated and _NAMED_DUE.match(clause.text):
            return True  # "Squib 1 due Monday, September 23"
        return bool(heads) and (short or bool(re.search(r"\bdue\b", clause.text, re.IGNORECASE)))
    return bool(heads)


def _date_words(text: str) -> int:
    return sum(len(phrase.text.split()) for phrase in phrases_in(text))


# --- clauses --------------------------------------------------------------------------------------------


def _clauses(entry: Entry) -> list[Entry]:
    """An entry cut between the pieces of work it names: at joining words that stand between two work words."""
    text = entry.text
    heads = [head for head in find_heads(text) if not head.is_weak or head.number]
    phrases = phrases_in(text)
    cuts: list[tuple[int, int]] = []
    for start, end in _joins(text):
        if _depth(text, start) or any(p.start < end and start < p.end for p in phrases):
            continue
        begin = cuts[-1][1] if cuts else 0
        left = [head for head in heads if begin <= head.start < start]
        right = [head for head in heads if head.start >= end]
        join = text[start:end]
        if (
            (left and right and _stands_alone(text, end, right[0], join))
            or (join.strip() == "." and not _ABBREVIATED.search(text[begin:start]))
            or (join.strip() == "," and _CODE.fullmatch(text[begin:start]) and _CODE.match(text, end))
        ):
            cuts.append((start, end))
    pieces: list[Entry] = []
    begin = 0
    for start, end in [*cuts, (len(text), len(text))]:
        piece = text[begin:start].strip()
        if re.search(r"\w", piece):
            pieces.append(Entry(piece, entry.start + begin, entry.start + start))
        begin = end
    return pieces


def _joins(text: str) -> list[tuple[int, int]]:
    """Where words of an entry may be cut: at joining words and marks, but not before a weekday ("Quiz 1, Tuesday"),
    which belongs to what stands before it; behind such a weekday instead."""
    joins = [match.span() for match in _JOIN.finditer(text) if not _WEEKDAY_NEXT.match(text, match.end())]
    return sorted([*joins, *(match.span(1) for match in _BEHIND_WEEKDAY.finditer(text))])


def _stands_alone(text: str, start: int, head: Head, join: str) -> bool:
    """Whether the work word behind a join opens a new piece of work, with at most a few modifiers before it."""
    between = text[start : head.start].split()
    if len(between) > 3 or any(
        word.lower() in ("of", "for", "on", "the", "in", "to", "with", "from", "by") for word in between
    ):
        return bool(re.match(r"\W*(?:[.;\n])", join)) and len(between) <= 6
    return True


def _depth(text: str, position: int) -> int:
    return text[:position].count("(") - text[:position].count(")")


# --- one clause -----------------------------------------------------------------------------------------


def _read_clause(clause: Entry, entry: Entry, passage: Passage, reading: Reading) -> Iterator[Draft]:
    text = clause.text
    if is_negated(_ASIDE.sub("", text)) or _NO_ITEM.match(text):
        return
    heads = list(find_heads(text))
    own = own_phrases(text, heads, passage)
    due = mentions_due(text) or any(phrase.expression and _BY.search(text[: phrase.start]) for phrase in own)
    head = chosen_head(text, heads, passage.role)
    verdict = verdict_of(text, head, passage, due, any(phrase.expression is not None for phrase in own))
    if (
        verdict is None
        and passage.role is not ColumnRole.READING
        and not is_announced(text)
        and not is_only_set_up(text, due)
    ):
        verdict = "due" if says_own_name(text, reading.names) else None
    if verdict is None:
        return
    dated = date_of(text, own, entry, clause, passage, reading)
    if dated is None:
        return
    phrase, doubts = dated
    if _TENTATIVE.search(text):
        doubts = (*doubts, TENTATIVE)
    if passage.role is ColumnRole.DUE and not heads and _BRING.search(passage.heading) and not due:
        doubts = (*doubts, MAYBE_BROUGHT)
    is_bare = passage.role is ColumnRole.WORK and not heads and re.search(r"[A-Za-z]{3}", text) is not None
    if is_bare and not due and phrase.text == passage.frame.words:
        doubts = (*doubts, GIVEN_OR_DUE)
    if head is not None and begins(text, head):
        doubts = (*doubts, FIRST_OF_SEVERAL)
    if _SURVEY.search(text) and not re.search(r"\d\s*(?:%|points?\b|pts?\b)", text):
        doubts = (*doubts, MAY_NOT_COUNT)
    is_phase = isinstance(phrase.expression, Span) and any(one.expression == phrase.expression for one in own)
    if is_phase and not due and head is not None and head.kind in (Kind.PROJECT, Kind.ASSIGNMENT):
        doubts = (*doubts, WHILE_IT_LASTS)
    is_named = head is not None and says_own_name(text, reading.names)
    title, sure = _title(text, head, own, passage, "named" if is_named else verdict)
    title = _ASIDE.sub("", _BEGINS_THEN.sub("", title) if doubts[-1:] == (FIRST_OF_SEVERAL,) else title)
    if not re.search(r"[A-Za-z0-9]", title):
        return
    kind = _kind(title, head, passage)
    place = passage.place_of(clause.start, clause.end)
    whole = passage.written or passage.text
    context = whole if len(whole) < 400 else text
    mention = Mention(
        phrase, place, phrase.text or passage.frame.words, " ".join(context.split()), passage.frame.row, doubts
    )
    covers = _covers(text) if kind is Kind.EXAM else None
    for name, number in _expanded(title, head):
        item = Item(kind, name, (mention,), number=number, covers=covers)
        yield Draft(item, passage.group, passage.role, passage.section, sure)


# --- its date -------------------------------------------------------------------------------------------


# --- its title and kind ---------------------------------------------------------------------------------


def _title(text: str, head: Head | None, own: list[Phrase], passage: Passage, verdict: str) -> tuple[str, bool]:
    after = head.end if head is not None else 0
    cuts = [(p.start, p.end) for p in own if p.expression is not None or p.time is not None or p.start >= after]
    short = len(text.split()) <= 14
    in_topics = passage.role in _TOPIC_ROLES
    if head is not None and in_topics and verdict == "due" and (name := name_before_due(text, head)) is not None:
        return name, True
    if head is not None and in_topics and verdict == "due":
        title = noun_phrase(text, head, with_subtitle=text[: head.start].strip() == "")
        stage = stage_before(text[: head.start])
        return f"{title} {stage.lower()}" if stage and stage.lower() not in title.lower() else title, True
    if head is not None and in_topics and text[: head.start].rstrip().endswith(("[", "(")):
        return noun_phrase(text, head), True
    if (
        head is not None
        and verdict != "named"
        and ((not short and head.start <= FARTHEST_HEAD) or (in_topics and head.start > 25))
    ):
        return noun_phrase(text, head, with_subtitle=False), True
    title = entry_title(text, cuts)
    title = _without_covers(title, head)
    noun = heading_noun(passage.heading)
    if head is None and noun is not None and not find_heads(title):
        title = f"{noun} {title}" if re.fullmatch(r"[#\d.\sA-Za-z]{1,3}", title) else f"{noun}: {title}"
    elif head is None and passage.role is ColumnRole.DUE and _is_name(passage.heading):
        title = f"{_plain_heading(passage.heading)}: {title}"
    quiz = re.fullmatch(r"Q\s?(\d{1,2})", title)
    if quiz:
        title = f"Quiz {quiz[1]}"
    return title, head is not None


def _without_covers(title: str, head: Head | None) -> str:
    if head is None or head.kind is not Kind.EXAM:
        return title
    title = re.sub(r"[\s:,;(–—-]+(?:comprehensive|cumulative)\)?$", "", title, flags=re.IGNORECASE)
    cut = _COVERS.search(title)
    if cut and cut.start() >= 4 and find_heads(title[: cut.start()]):
        return tidy_title(title[: cut.start()])
    return title


def _covers(text: str) -> str | None:
    match = _COVERS.search(text)
    return tidy_title(next(part for part in match.groups() if part)) if match else None


def _is_name(heading: str) -> bool:
    """Whether a column is headed with a name for work of this course, not with a word for work in general."""
    plain = _plain_heading(heading)
    is_general = column_role(plain) is not None and not plain.lower().startswith("discussion")
    return bool(plain) and len(plain.split()) <= 2 and not is_general and _role_words(plain) is None


def _plain_heading(heading: str) -> str:
    return re.sub(r"\s*\([^)]*\)", "", heading).strip()


def _role_words(heading: str) -> str | None:
    match = re.search(
        r"\b(?:due|assignments?|deliverables?|submi\w+|hand[- ]?in|turn[- ]?in|work|@)", heading, re.IGNORECASE
    )
    return match[0] if match else None


def _kind(title: str, head: Head | None, passage: Passage) -> Kind:
    front = re.split(r"[:–—(]", title)[0]
    named = re.split(r"\b(?:for|of|on|about)\b", front)[0]
    front = named if find_heads(named) else front
    found = find_heads(front) or find_heads(title)
    if found and re.search(r"\band\b", front) and not found[0].number:
        return found[0].kind
    strong = [one for one in found if not one.is_weak]
    if strong:
        return Kind.ASSIGNMENT if _ACCOMPANIES.match(title, strong[-1].end) else strong[-1].kind
    if re.search(r"\bassessments?\b", front, re.IGNORECASE):
        return Kind.ASSIGNMENT
    if head is not None and not head.is_weak:
        return head.kind
    if re.search(r"\b(?:designs?|phase|prototype|milestone|plan)\b", title, re.IGNORECASE):
        return Kind.PROJECT
    headed = {one.kind for one in find_heads(passage.heading)}
    by_heading = headed.pop() if len(headed) == 1 else None  # "Assignments/Tests" does not tell
    return kind_of_work(front) or kind_of_work(title) or by_heading or Kind.ASSIGNMENT


def numbers_behind(text: str, end: int) -> list[str]:
    """The further numbers of a list behind a numbered work word that ends at ``end`` ("HW 3, 4 and 5": 4, 5)."""
    more: list[str] = []
    while match := _MORE_NUMBERS.match(text, end):
        more.append(match[1])
        end = match.end()
    return more


def _expanded(title: str, head: Head | None) -> list[tuple[str, int | None]]:
    """The titles a numbered list stands for ("HW 3 and 4"); the title alone when there is no list."""
    heads = [one for one in find_heads(title) if one.number and one.end > one.word_end]
    if not heads:
        return [(title, number_of(head) if head is not None and head.number and head.number in title else None)]
    first = heads[0]
    more = numbers_behind(title, first.end)
    end = first.end
    while match := _MORE_NUMBERS.match(title, end):
        end = match.end()
    ranged = _RANGE.match(title, first.end) if not more else None
    last = roman(ranged[1]) if ranged else None
    opening = roman(first.number)
    if ranged and last and opening and first.word.lower().endswith("s") and 0 < last - opening < 12:
        more, end = [str(number) for number in range(opening + 1, last + 1)], ranged.end()
    tail = title[end:]
    if not more or re.match(r"\s*[A-Za-z]", tail):
        return [(title, roman(first.number))]
    stem = title[: first.word_end]
    stem = singular(stem)
    tail = tail if tail.startswith(("(", " (")) else ""
    return [(f"{stem} {number}{tail}", roman(number)) for number in (first.number, *more)]
