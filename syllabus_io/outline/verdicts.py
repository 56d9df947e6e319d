"""Whether words that name work stand for work to hand in or sit there, or only speak about it."""

from __future__ import annotations

import re

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.records import Kind
from syllabus_io.outline.titles import singular
from syllabus_io.outline.work_words import Head, find_heads, is_announced, is_passed_over, word_set

__all__ = ["FARTHEST_HEAD", "begins", "chosen_head", "heading_noun", "is_breakdown", "is_only_set_up", "verdict_of"]

_TOLD_OF = re.compile(
    r"\s+(?:of|on|by|about)\b(?!\s+(?:the\s+|your\s+)?(?:final|project|paper|poster|research|student|group|team))",
    re.IGNORECASE,
)
_ONLY_BEGUN = re.compile(r":\s*(?:choose|pick|select|begin|start|continue|work)\b", re.IGNORECASE)
_NOT_GRADED = re.compile(r"\b(?:ungraded|not graded|non-?graded)\b", re.IGNORECASE)
_BEGINS = re.compile(r"s?\s+(?:begin|start)s?\b", re.IGNORECASE)
_FINAL_ALONE = re.compile(
    r"^\W*(?:(?:the|our|class|course|written|oral|comprehensive|cumulative|in-class|take-home|lab|practical|common|semester|"
    r"trimester|term)\s+)+finals?\b(?!\s+(?-i:[a-z]))",
    re.IGNORECASE,
)  # "Written final Thurs 3/5"
_SET_UP = re.compile(
    r"\b(?:groups?|teams?|topics?|partners?|pairs?) (?:(?:are|will be) )?"
    r"(?:formed|chosen|assigned|announced|made|set)\b",
    re.IGNORECASE,
)
_NEVER_DUE = re.compile(
    r"\breview|\bprep|\bstudy for|\bwork ?(?:day|time)s?\b|\bkick-?off\b|\breturned\b", re.IGNORECASE
)
FARTHEST_HEAD = 40  # letters before the work word of an entry in a column of work
_READS = re.compile(
    r"^\W*(?:readings?(?!\s+(?:log|response|journal|quiz|reflection|report|notes|guide|questions?|summar|"
    r"assignment \d))|read(?!-)|watch|listen|view|skim|review|chapters?|ch\.?|pp?\.|pages?|sections?|§|handouts?|"
    r"study(?!\s*\d))\b",
    re.IGNORECASE,
)
_COUNTS = re.compile(r"[A-Za-z)]:?\s+\d{1,3}(?:\.\d+)?\s*(?:%|percent\b|per cent\b)(?!\s+of\b)")
_BEHIND_TEST = re.compile(
    r"\s*(?:$|[^\w\s]|\d|(?:on|in|over|at|covering|today|day|and|ch|chap|cap|chapters?|units?|modules?|lessons?)\b)",
    re.IGNORECASE,
)  # not "test prints"
_NUMBERED_NAME = re.compile(r"[A-Z][a-z]+(?:\s+[a-z]+){1,3}\s+(?:#?\s?\d{1,2}|[IVX]{1,4})\W*")  # "Care plan II"
_PART_OF_A_BOOK = re.compile(
    r"\b(?:units?|modules?|lectures?|lessons?|parts?|weeks?|days?|books?|volumes?|acts?|scenes?|verses?|tables?|"
    r"figures?|topics?|class(?:es)?|groups?|videos?|episodes?|cantos?|read|no)\b",
    re.IGNORECASE,
)
_SECTION_OF_A_BOOK = re.compile(r"\W*\d{1,2}\.\d{1,2}\s+[A-Za-z]")
_DO = re.compile(
    r"^\W*(?:submit|turn in|hand in|complete|upload|post|write|create|fill (?:out|in)|email|e-mail|send|finish|"
    r"sign up|register|"
    r"take|present|record|respond|reply|finalize|find)\b",
    re.IGNORECASE,
)
_EXAM_MODIFIER = re.compile(
    r"^(?:final|mid-?term|first|second|third|fourth|unit|chapter|group|evening|oral|written|practical|lab|online|take-?home|in-?class|"
    r"class|course|comprehensive|cumulative|hands?|on|the|an?|our|semester|section|module|part|individual|common|departmental|"
    r"\d+(?:st|nd|rd|th)?|#\d+|[IVX]+|essay|no|class,|and|&|of|mini)$",
    re.IGNORECASE,
)


_DRAFT_ALONE = re.compile(
    r"^\W*(?P<name>(?:[A-Za-z’'-]+\s+){1,4})draft(?:\s+(?:of|for)\s+[\w ]{3,30})?\W*$", re.IGNORECASE
)
_NO_DRAFT = word_set(
    "a an the from to of on in for and or with about how your our my peer review workshop discuss share bring read "
    "revise revised edit write no sample model"
)


def is_breakdown(text: str) -> bool:
    """Whether a text says what several kinds of work count ("Essays 40%, exams 60%"), which dates none of them."""
    return len(_COUNTS.findall(text)) > 1


def chosen_head(text: str, heads: list[Head], role: ColumnRole | None) -> Head | None:
    """The work word that names the clause: its first strong one, else the first that counts in such a column."""
    strong = [head for head in heads if not head.is_weak]
    usable = strong or [
        head for head in heads if head.number or role in (ColumnRole.DUE, ColumnRole.WORK, ColumnRole.EXAM)
    ]
    if not usable:
        return None
    chosen = usable[0]
    for head in heads:
        if not head.is_weak and head.start > chosen.end and not text[chosen.end : head.start].strip():
            chosen = head  # "final project presentations" are presentations
    return chosen


def verdict_of(text: str, head: Head | None, passage: Passage, due: bool, has_date: bool) -> str | None:
    """How the clause counts as work: "due" (handed in), "event" (sat or given), or None when it is no work."""
    role = passage.role
    if (is_announced(text) and not due) or is_only_set_up(text, due):
        return None
    if (
        head is not None
        and is_passed_over(text, head)
        and not begins(text, head)
        and not (due and role in (ColumnRole.DUE, ColumnRole.WORK))
        and (role is not ColumnRole.DUE or _NEVER_DUE.search(text))
    ):
        return None
    if role is ColumnRole.DUE:
        if _READS.match(text) and not (head is not None and not head.is_weak):
            return None
        return "due"
    if due and (head is not None or re.search(r"\bdue\b", text, re.IGNORECASE)):
        if head is None and re.match(r"^\W*(?:read|reading|chapter)", text, re.IGNORECASE):
            return None
        return "due"
    if role in (ColumnRole.WORK, ColumnRole.EXAM):
        return _verdict_in_work_column(text, head, passage, has_date)
    return _verdict_in_topic(text, head, has_date)


def is_only_set_up(text: str, due: bool) -> bool:
    """Whether a clause says that work is not graded, or, where it is not due, that it is chosen or begun there."""
    return bool(_NOT_GRADED.search(text) or (not due and (_SET_UP.search(text) or _ONLY_BEGUN.search(text))))


def begins(text: str, head: Head) -> bool:
    """Whether presentations begin there ("group presentations begin"): a first day of several."""
    return head.kind is Kind.PRESENTATION and _BEGINS.match(text, head.word_end) is not None


def _verdict_in_work_column(text: str, head: Head | None, passage: Passage, has_date: bool) -> str | None:
    noun = heading_noun(passage.heading)
    if _READS.match(text) and (head is None or head.is_weak):
        return "due" if passage.role is ColumnRole.EXAM and noun is not None and passage.frame.is_dated else None
    frame = passage.frame
    if not has_date and frame.day is None and frame.weekday is None:
        named = head is not None and (not head.is_weak or head.number) and ":" not in text[: head.start]
        return "due" if named and head is not None and not _is_bare_plural(text, head) else None
    if (head is not None and head.start <= FARTHEST_HEAD) or has_date or _DO.match(text):
        return "due"
    if noun is not None and len(text) < 80:
        return "due"
    return "due" if _NUMBERED_NAME.fullmatch(text.strip()) and not _PART_OF_A_BOOK.search(text) else None


def _is_bare_plural(text: str, head: Head) -> bool:
    """Whether an entry only says that there are works ("group assignments"), not which."""
    return head.word.lower().endswith("s") and not head.number and len(text.split()) <= 3


def _verdict_in_topic(text: str, head: Head | None, has_date: bool) -> str | None:
    """Among lecture topics only what plainly is sat, given or handed in counts."""
    if _is_draft_alone(text):
        return "due"
    if head is None or head.is_weak:
        return "event" if _FINAL_ALONE.match(text) else None
    if _SECTION_OF_A_BOOK.match(text) and not re.match(r"\s*#?\d", text[head.word_end :]):
        return None  # "5.4 First derivative test"
    before = text[: head.start].strip(" -–—:•*")
    if re.search(r"\b(?:of|about|for|(?<!hands )on|to|with|from|by|in|how)$", before, re.IGNORECASE):
        return None
    if head.kind in (Kind.EXAM, Kind.QUIZ):
        words = re.findall(r"[^\s]+", before)
        if all(_EXAM_MODIFIER.match(word.strip(",:;()")) for word in words) or before.endswith((":", ".", ",")):
            return "event" if _is_plain_test(text, head) else None
        if head.kind is Kind.QUIZ and len(words) <= 3:
            return "event"
        return "event" if head.number and len(words) <= 4 else None
    if head.kind is Kind.PRESENTATION:
        if _TOLD_OF.match(text[head.end :]) or re.search(r"\b(?:and|or|of)$", before, re.IGNORECASE):
            return None  # "Judge and jury" is a topic
        return "event" if len(before.split()) <= 4 and len(text.split()) <= 10 else None
    rest = re.split(r"(?<=\w)[,;]\s", text[head.end :].strip())[0]  # "Paper 2 final, with a talk"
    if head.number and len(before.split()) <= 2 and (has_date or len(rest.split()) <= 2):
        return "due"
    return None


def _is_draft_alone(text: str) -> bool:
    """Whether an entry is nothing but the draft of something ("Personal statement draft", "Rough draft of essay")."""
    match = _DRAFT_ALONE.match(text)
    words = match["name"].lower().split() if match is not None else []
    return bool(words) and not any(word in _NO_DRAFT or word.endswith("ing") for word in words)


def _is_plain_test(text: str, head: Head) -> bool:
    if head.word.lower() not in ("test", "tests"):
        return True
    if head.word.lower() == "tests" and not head.number:
        return False  # "Lab tests" among topics are what the class is about
    return bool(head.number) or (len(text.split()) <= 3 and _BEHIND_TEST.match(text[head.word_end :]) is not None)


_ALSO_TOPICS = re.compile(r"\b(?:topics?|readings?|content|lectures?|class|activit\w+)\b", re.IGNORECASE)
_GENERAL_NOUNS = word_set(
    "assignment assignments task tasks activity activities deliverable deliverables assessment assessments submission "
    "submissions discussion analysis summary review outline workshop"
)


def heading_noun(heading: str) -> str | None:
    """The singular work noun a column is headed with ("Homework Due Tuesday": Homework), None for general ones."""
    plain = re.sub(r"\([^)]*\)", " ", heading)
    heads = find_heads(plain)
    if len(heads) != 1 or _ALSO_TOPICS.search(plain) or ("due" in plain.lower().split() and len(plain.split()) > 4):
        return None
    word = heads[0].word
    if word.lower() in _GENERAL_NOUNS:
        return None
    return word.rstrip("s") if word.isupper() else singular(word[:1].upper() + word[1:].lower())
