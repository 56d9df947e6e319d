"""Titles of work, as a student would write them: the words of an entry without its date and its due words."""

from __future__ import annotations

import re

from syllabus_io.outline.work_words import Head, word_set

__all__ = ["entry_title", "is_name", "name_before_due", "noun_phrase", "singular", "tidy_title"]

LONGEST_TITLE = 90
LONGEST_NAME_DUE = 5  # words
_STAGE = (
    r"(?:(?:rough|first|second|final|full|revised|written)\s+)*(?:draft|proposal|outline|plan|sketch|abstract|topic|"
    r"revision|bibliography|report|model|prototype|paper|slides|presentation|poster|summary)s?"
)
_NAME_DUE = re.compile(rf"^\W*([A-Z][^.:;,()[\]\0]{{2,50}}?(?::\s+{_STAGE})?)\s+(?:is\s+|are\s+)?due\b")

_DUE_TAIL = re.compile(
    r"[\s,;:–—(-]*\b(?:(?:is|are|will be|must be|to be|should be)\s+)?(?:all\s+)?"
    r"(?:due(?:\s+dates?)?|submit(?:ted)?\s+(?:via|by|on|to|through)|submission\s+(?:due|deadline)|deadline|"
    r"turn(?:ed)?\s+in|hand(?:ed)?\s+in|uploaded?\s+(?:to|by)|collected)\b"
    r"(?:\s+(?:by|on|at|in|before|today|tonight|now|via|the))*(?:\s+(?:start|beginning|end)\s+of)?(?:\s+(?:class|lecture|lab|recitation|section))?[\s:,.)–—-]*",
    re.IGNORECASE,
)
_DUE_LEAD = re.compile(
    r"^\W*(?:assignments?\s+)?(?:due|deadline|to hand in|hand in|turn in|submit)\b[\s:.–—-]*(?=\S)", re.IGNORECASE
)
_TAIL = re.compile(
    r"[\s,;:–—(-]*\b(?:is|are|will be|takes? place|held|scheduled|posted|assigned|opens?|on|by|at|from|before|"
    r"until|in class|begins?|"
    r"during)\s*$",
    re.IGNORECASE,
)
_TENTATIVE = re.compile(r"\s*[(\[]?\b(?:tentative(?:ly)?|tbc|to be confirmed|subject to change)\b[)\]]?", re.IGNORECASE)
_PLACE_NOTE = re.compile(
    r"\s*\((?:[^()]*\b(?:at|@|by|via|on)\b\s*[^()]*|[A-Z]{2,4}\d?[A-Z]?|due[^()]*|link|code|data\d?(?:,\s*\w+)*|[\s,;:–—-]*)\)",
    re.IGNORECASE,
)
_LEAD = re.compile(
    r"^(?:\W+|\d+\.\s+|n\.?b\.?[:\s]\s*|no class(?:es)?\b\W*|(?:and|or|also|then|plus|the|your|our|a|an|that|this|have|"
    r"you will have|there (?:is|are|"
    r"will be)(?: an?)?|"
    r"we will have(?: an?)?)\s+)+(?=\S)",
    re.IGNORECASE,
)
_DO_LEAD = re.compile(
    r"^(?:please\s+)?(?:submit|turn in|hand in|complete|take|upload|finish|bring|do|e-?mail(?: me)?|write(?: down)?|"
    r"post)\s+(?:the|your|an?|all)?\s*",
    re.IGNORECASE,
)
_MODIFIERS = word_set(
    "final midterm mid-term first second third fourth group team individual research term weekly daily short "
    "long take-home take home in-class online oral written poster rough peer class course reading lab "
    "laboratory video pop practice comprehensive cumulative evening project paper essay draft design unit "
    "chapter section module topic syllabus map vocabulary literature annotated policy case field data "
    "analysis math mathematics writing programming coding computer critical creative personal optional makeup "
    "make-up mini homework problem discussion response reflection position book film article journal mock "
    "open-book skill progress summary capstone portfolio thesis senior"
)
_NUMBERED_MODIFIERS = word_set(
    "final midterm mid-term reading writing written lab laboratory group team take-home in-class essay project "
    "programming "
    "weekly video online oral peer practice paper homework research discussion response reflection"
)
_STOP_LEFT = word_set(
    "the a an your our their its his her my this that these those each every all any some no one two three "
    "four five six seven eight nine ten is are be was were will would must should may can could and or but of "
    "for to in on at by with from as into during after before about than if when there have has had take "
    "takes taking give given submit submitted complete turn hand upload write sit hold holds get assigned "
    "posted due date dates both only"
)
_OPENS_ENTRY = re.compile(r"\W*(?:\([a-z\d]{1,2}\)\s*)?([A-Z][\w'’-]*\s+(?:[a-z][\w'’-]*\s+){0,2})")
_OPENING_WORDS = word_set(
    "bring print read see email e-mail post prepare discuss review return do finish start begin include use",
    "expect missing please check schedule revise present record share choose select plan study attend most",
    "many several few more less another such other unlike regarding concerning submitting completing taking",
    "grading turning handing no not early graded ungraded unexcused makeup make-up missed important what which",
    "when where who how why also then so thus sometimes usually typically generally often here there today",
    "students each both",
)
_BEHIND_ARTICLE = re.compile(r"\b(?:the|an?|your|our)\s+((?:[a-z][a-z'’-]+\s+){1,2})$", re.IGNORECASE)
_MEASURES = re.compile(
    r"^(?:one|two|three|four|five|six|seven|eight|nine|ten)\b|-(?:hour|minute|page|word|point|day|week)$"
)
_NO_NAME = word_set(
    "next last usual same other following good late new whole complete completed finished actual entire above only "
    "remaining graded original additional separate required regular single missed scheduled given corresponding "
    "associated assigned previous current upcoming main best full different set typical one-page two-page brief"
)
_RIGHT_NOUN = re.compile(
    r"\s+(?:rough\s+|first\s+|final\s+|full\s+|complete\s+)?(?:draft|proposal|outline|report|presentation|prospectus|revision|abstract|bibliography|paper|exam|"
    r"examination|project|poster|slides|part\s+(?:\d|[IVX]+|[A-D])|version|topic)\b(?:\s+(?:\d{1,2}|[IVX]+)\b)?",
    re.IGNORECASE,
)


_ONLY_SAYS = re.compile(
    r"\W*(?:(?:is|are|was|were|be|will be|must be|should be)\b\W*)?"
    r"(?:due|submitted|handed in|turned in|collected)?\W*(?:by|on|at)?\W*",
    re.IGNORECASE,
)


def is_name(title: str) -> bool:
    """Whether a title names anything: "Is due" is what is left of a sentence whose beginning stands elsewhere."""
    return not _ONLY_SAYS.fullmatch(title)


def entry_title(text: str, cuts: list[tuple[int, int]]) -> str:
    """The title of a short entry: its words without the date phrases at ``cuts`` and without due words."""
    for start, end in sorted(cuts, reverse=True):
        left, right = text[:start], text[end:]
        if re.search(r"\(\s*(?:due|closes|by|on|at|@)?\W*$", left, re.IGNORECASE) and right.lstrip().startswith(")"):
            left = re.sub(r"\s*\(\s*(?:due|closes|by|on|at|@)?\W*$", "", left, flags=re.IGNORECASE)
            right = right.lstrip()[1:]
        text = f"{left} \0 {right}"
    text = _DUE_LEAD.sub("", text)
    text = (
        re.split(r"\.\s+(?=[A-Z])", text)[0]
        if "\0" not in text.split(". ")[0] or len(text.split("\0")[0].strip()) > 3
        else text
    )
    tail = _DUE_TAIL.search(text)
    if tail and tail.start() > 2 and re.search(r"\w", text[: tail.start()]):
        text = text[: tail.start()]
    head, _, rest = text.partition("\0")
    text = head if re.search(r"\w", head) else rest.replace("\0", " ")
    return tidy_title(text)


def tidy_title(text: str) -> str:
    """A title without stray marks, leading small words, empty brackets and notes of place or time."""
    text = text.replace("\0", " ")
    text = _PLACE_NOTE.sub(" ", _TENTATIVE.sub(" ", text))
    text = " ".join(text.split())
    before = None
    while before != text:
        before = text
        text = _TAIL.sub("", text)
        text = text.strip(" ,;:–—-•*@|/&+")
        if text[:1] in ('"', "“") and text[-1:] in ('"', "”") and len(text) > 2:
            text = text[1:-1]
        if text.endswith(".") and not re.search(r"\b[A-Za-z]\.$", text):
            text = text[:-1]
    text = _LEAD.sub("", text)
    text = _DO_LEAD.sub("", text)
    if text.count("(") > text.count(")"):
        text = text[: text.rindex("(")].rstrip(" ,;:–—-")
    if text.count(")") > text.count("("):
        text = text.replace(")", "").strip()
    if len(text) > LONGEST_TITLE:
        cut = re.search(r"[:;,(–—.]\s", text[20:LONGEST_TITLE])
        text = text[: 20 + cut.start()] if cut else text[: text.rindex(" ", 0, LONGEST_TITLE)]
        text = text.rstrip(" ,;:–—-(")
    return text[:1].upper() + text[1:]


def noun_phrase(text: str, head: Head, with_subtitle: bool = False) -> str:
    """The title around a work word inside running text: its modifiers, the word, its number and what part it is."""
    start = _left_end(text, head)
    end = head.end
    while match := _RIGHT_NOUN.match(text, end):
        end = match.end()
    if with_subtitle:
        subtitle = re.match(r"\s*[:–—-]\s*([^.;(\0]{3,60})", text[end:])
        if subtitle and not re.match(r"\s*[:–—-]?\s*(?:due|by|on)\b", text[end:], re.IGNORECASE):
            cut = re.search(r"[\s,–—-]*\b(?:is|are)?\s*due\b", subtitle[0], re.IGNORECASE)
            end += cut.start() if cut else subtitle.end()
    title = text[start:end]
    ordinal = re.match(r"\W*(?:first|second|third|fourth|fifth|\d)", title, re.IGNORECASE)
    if not ordinal and not re.search(r"\d|[IVX]+$", title) and head.number and head.end == head.word_end:
        title = f"{title} {head.number}"
    return tidy_title(title)


def name_before_due(text: str, head: Head) -> str | None:
    """The whole name of a work that a short clause says is due ("Tree map 2 due in class": Tree map 2); else None."""
    match = _NAME_DUE.match(text)
    if match is None or not match.start(1) <= head.start < match.end(1) or len(match[1].split()) > LONGEST_NAME_DUE:
        return None
    words = re.findall(r"[\w'’-]+", match[1].lower())
    return tidy_title(match[1]) if not _STOP_LEFT.intersection(words) else None


def singular(title: str) -> str:
    """A title with its last word in the singular ("Journal entries": "Journal entry").

    >>> singular("Reading quizzes")
    'Reading quiz'
    """
    for pattern, form in (
        (r"(?i)quiz(?:z)?es$", "quiz"),
        (r"(?i)(?<=[a-z])yses$", "ysis"),
        (r"(?<=[a-z]{2})(?<!ser)(?<!Ser)(?<!spec)ies$", "y"),
        (r"(?i)(?<=[a-z]tch|[a-z]ish|[a-z]ess)es$", ""),
    ):
        changed = re.sub(pattern, form, title)
        if changed != title:
            return changed[:1].upper() + changed[1:] if title[:1].isupper() else changed
    return re.sub(r"(?:(?<=[a-z]{3})|(?<=-[a-z]{2}))(?<![su])s$", "", title)


def _left_end(text: str, head: Head) -> int:
    start = head.start
    numbered = head.end > head.word_end
    for _ in range(4):
        match = re.search(r"([\w'’/-]+)\s+$", text[:start])
        if not match:
            break
        word = match[1]
        low = word.lower().strip("'’")
        if low in _STOP_LEFT or low.isdigit():
            break
        if numbered and low not in _NUMBERED_MODIFIERS:
            break
        opens = _opens_sentence(text, match.start(1))
        is_name = word[0].isupper() and not numbered and not (opens and _is_no_modifier(low, head))
        if low not in _MODIFIERS and not is_name:
            break
        start = match.start(1)
    opening = _opening_name(text[: head.start]) if head.word[:1].islower() else None
    if opening is not None:
        return min(start, opening)
    named = _BEHIND_ARTICLE.search(text[: head.start]) if not numbered else None
    if named is not None and named.start(1) < start:
        words = re.findall(r"[\w'’-]+", named[1].lower())
        if not any(word in _STOP_LEFT or word in _NO_NAME or _MEASURES.search(word) for word in words):
            return named.start(1)
    return start


def _opening_name(front: str) -> int | None:
    """Where a name of up to three words begins that opens an entry and runs up to its work word ("Book critique 1",
    "Multiple choice test"); None where other words open it."""
    match = _OPENS_ENTRY.fullmatch(front)
    if match is None:
        return None
    words = re.findall(r"[\w'’-]+", match[1].lower())
    if any(word in _STOP_LEFT or word in _NO_NAME or word in _OPENING_WORDS or not word.isalpha() for word in words):
        return None
    return match.start(1)


def _is_no_modifier(word: str, head: Head) -> bool:
    """Whether a word that opens a sentence before a work word may be no part of its name ("Submit essays by")."""
    return not head.word[:1].islower() or word in _OPENING_WORDS or word in _NO_NAME


def _opens_sentence(text: str, position: int) -> bool:
    before = text[:position].rstrip()
    return not before or before[-1] in ".!?"
