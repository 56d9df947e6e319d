"""What sentences say about the parts of a grade: how many, how many dropped, late work, rules kept as text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from syllabus_io.extract.document import Block, Document, Line
from syllabus_io.outline.headings import SectionKind, any_of
from syllabus_io.outline.records import Category, Kind
from syllabus_io.outline.sections import OPENED_LEVEL, Section, flat_blocks, plain
from syllabus_io.outline.vocabulary import COUNT_WORDS, count_of, find_work_words, kind_of_work

__all__ = ["counts_stated", "late_policy", "rules_stated", "with_counts", "with_drops"]

_NUMBER = rf"(?:\d{{1,2}}|{any_of(word for word in COUNT_WORDS if len(word) > 2)})"
_SENTENCE = re.compile(r"(?<=[.!?])(?<!\b[A-Z]\.)(?<!e\.g\.)(?<!i\.e\.)\s+(?=[A-Z“\"(])|\n|\s;\s")
_DROP = re.compile(
    r"\bdrop(?:ped|s|ping)?\b|\bthrow(?:n)? out\b|\b(?:discard|exclud|omit|ignor|disregard|remov)(?:ed|e|es|ing)?\b|"
    r"\b(?:do|does|will) not count\b|\b(?:is|are|be) not counted\b|\bnot be counted\b|\bonly (?:count|use|take|"
    r"keep)|\bbest\b|\bhighest\b|"
    r"\bhigher\b|\btop\b",
    re.IGNORECASE,
)
_LOWEST = re.compile(r"\b(?:lowest|worst|minimum|least|poorest|drop|best|highest|higher|top|lower)\b", re.IGNORECASE)
_NOT_A_DROP = re.compile(
    r"add[ /-]drop|drop (?:the |this |a )?(?:course|class|deadline|date|period|off|by|box|down|in\b|a letter)|"
    r"drop-?(?:in|box|off|down)|"
    r"dropping (?:the |a |this )?(?:course|class)|last day to|withdraw|best (?:way|of luck|practice|interest|"
    r"wishes|predictor|effort|to|reach)|"
    r"best (?:serve|suit|able|prepare|describe|meet)|top (?:of|priority)|highest (?:standard|ethic|level|quality|"
    r"degree)|your best\b(?! \d)",
    re.IGNORECASE,
)
_LATE = re.compile(
    r"\blate\b[^.]{0,60}\b(?:work|assignments?|homeworks?|submissions?|papers?|labs?|projects?|essays?|quiz|penalt|"
    r"accepted|credit|deduct|points?|days?|reduc)"
    r"|\b(?:work|assignments?|homeworks?|submissions?|papers?|submitted|turned in|handed in|"
    r"submitting)\b[^.]{0,50}\blate\b|after the (?:deadline|due date)",
    re.IGNORECASE,
)
_RULE = re.compile(
    r"\breplac(?:e|es|ed)\b[^.]*\b(?:exam|score|grade|quiz|midterm|test)|\b(?:must|need to|required to|have to|"
    r"at least)\b[^.]*\b(?:to pass|pass the (?:course|class))|"
    r"\b(?:to|in order to) pass (?:the|this) (?:course|class)|\bcounts? (?:double|twice)|\bweight(?:s)? (?:of|"
    r"will)[^.]*(?:added|transfer|shift)|"
    r"\b(?:fail|failing)\b[^.]*\b(?:final exam|exam average|regardless)|\bcurve(?:d)?\b|\bonly count the (?:higher|"
    r"best)",
    re.IGNORECASE,
)
_WORD = re.compile(r"[A-Za-z]{3,}")
_NOT_A_COUNT = re.compile(r"lowest|highest|best|drop|worst|first|last|per week|each week", re.IGNORECASE)
_LATE_LIMIT = 700
_RULE_LIMIT = 8


@dataclass(frozen=True, slots=True)
class _Named:
    start: int
    end: int
    category: int


def _sentences(block: Block) -> tuple[str, ...]:
    if isinstance(block, Line):
        return _parted(plain(block.text))
    return _parted("\n".join(plain(cell.text) for cell in block.cells))


@lru_cache(maxsize=4096)
def _parted(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in _SENTENCE.split(text) if part and part.strip())


def counts_stated(document: Document, names: Sequence[str]) -> dict[int, int]:
    """How many of each named part sentences say there are ("There will be eight problem sets"), by position."""
    counts: dict[int, int] = {}
    patterns = [(number, _stem(_head(name)), _count_pattern(name)) for number, name in enumerate(names)]
    for line in document.lines():
        for sentence in _sentences(line):
            lower = sentence.lower()
            for number, stem, pattern in patterns:
                if pattern is None or number in counts or stem not in lower:
                    continue
                for match in pattern.finditer(sentence):
                    around = sentence[max(0, match.start() - 30) : match.end() + 40]
                    count = count_of(match["count"])
                    if count and 1 < count <= 40 and not _NOT_A_COUNT.search(around):
                        counts.setdefault(number, count)
    return counts


def _count_pattern(name: str) -> re.Pattern[str] | None:
    head = _head(name)
    if not head or re.search(r"\band\b|&|\+", name):
        return None
    return re.compile(
        rf"(?<![\d.#])\b(?P<count>{_NUMBER})\s*(?:\(\d+\)\s*)?[“\"]?(?:(?!{_NUMBER}\b)"
        rf"[a-z-]+\s){{0,2}}{_plural(head)}\b(?!\s*(?:points|%))",
        re.IGNORECASE,
    )


@cache
def _head(name: str) -> str:
    """The word a part is known by, in the singular: the last work word in its name, else its last word."""
    found = find_work_words(name)
    word = name[found[-1][0] : found[-1][1]] if found else (re.findall(r"[A-Za-z]{3,}", name) or [""])[-1]
    return _singular(word.lower())


def _stem(head: str) -> str:
    """What a word's singular and plural have in common."""
    return head.removesuffix("y")


def _plural(head: str) -> str:
    """A pattern of a word's singular and plural."""
    if head.endswith("y"):
        return head[:-1] + "(?:y|ies)"
    return head + ("(?:z?es)?" if head.endswith("z") else "s?(?:es)?")


def _singular(word: str) -> str:
    if word.endswith("zzes"):
        return word[:-3]
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word


def with_counts(categories: Sequence[Category], document: Document) -> tuple[Category, ...]:
    """The categories with counts that sentences state; a part named in the singular is one piece of work."""
    counts = counts_stated(document, [category.name for category in categories])
    heads = [_head(category.name) for category in categories]
    counted: list[Category] = []
    for number, category in enumerate(categories):
        count = category.count
        is_alone = heads.count(heads[number]) == 1
        if count is None and _is_single(category.name):
            count = 1
        elif count is None and is_alone:
            count = counts.get(number)
        counted.append(replace(category, count=count))
    return tuple(counted)


def _is_single(name: str) -> bool:
    last = (re.findall(r"[A-Za-z]+", name) or [""])[-1].lower()
    is_numbered = bool(re.search(r"\b(?:\d+|I{1,3}|IV|V)$", name.strip()))
    if re.search(r"(?i)\bfinal (?:exam|paper|project|presentation|report|essay|examination)$", name) or is_numbered:
        return True
    found = [word for _, _, word in find_work_words(name) if not word.is_weak]
    is_strong = bool(found) and found[-1].kind in {Kind.EXAM, Kind.PROJECT, Kind.PRESENTATION}
    return (is_strong or last == "final") and not last.endswith("s") and "/" not in name


def with_drops(categories: Sequence[Category], sections: Sequence[Section]) -> tuple[Category, ...]:
    """The categories with the number of marks left out that sentences state ("The lowest two quizzes are dropped").

    A sentence that names no category speaks of the one its section or the text before it is about.
    """
    drops: dict[int, int] = {}
    counts: dict[int, int] = {}
    names = [_Name(category.name) for category in categories]
    for section in sections:
        current = _named_in(section.title, names)
        subject = current[-1].category if current else None
        for block in section.blocks:
            for sentence in _sentences(block):
                named = _named_in(sentence, names) or _only_of_kind(sentence, categories)
                if _DROP.search(sentence) and not _NOT_A_DROP.search(sentence):
                    _note_drops(sentence, named, subject, drops, counts)
                if named:
                    subject = named[0].category
                elif any(not word.is_weak for _, _, word in find_work_words(sentence)):
                    subject = None
    return tuple(
        replace(
            category,
            drop=category.drop or (drops.get(number, 0) if category.count != 1 else 0),
            count=category.count or counts.get(number),
        )
        for number, category in enumerate(categories)
    )


def _only_of_kind(sentence: str, categories: Sequence[Category]) -> list[_Named]:
    """The one category whose kind of work a sentence speaks of in another word (problem sets, for "Assignments")."""
    found = [(start, end, word.kind) for start, end, word in find_work_words(sentence) if not word.is_weak]
    if not found:
        return []
    same = [number for number, one in enumerate(categories) if kind_of_work(one.name) is found[0][2]]
    return [_Named(found[0][0], found[0][1], same[0])] if len(same) == 1 else []


def _note_drops(
    sentence: str, named: list[_Named], subject: int | None, drops: dict[int, int], counts: dict[int, int]
) -> None:
    kept = re.search(
        rf"\b(?:best|highest|top|average of|only)\b[^.]{{0,12}}?\b({_NUMBER})\s*\(?(?:out )?of (?:the |"
        rf"your )?({_NUMBER})\b|"
        rf"\b({_NUMBER})\s*\(?(?:out )?of (?:the |your )?({_NUMBER})\b\)?[^.]{{0,25}}\b(?:scores?|grades?|best|"
        rf"highest)\b",
        sentence,
        re.IGNORECASE,
    )
    target = named[0].category if named else subject
    if kept and target is not None:
        first, given = count_of(kept[1] or kept[3]), count_of(kept[2] or kept[4])
        if first and given and first < given:
            drops.setdefault(target, given - first)
            counts.setdefault(target, given)
            return
    if target is None:
        return
    if re.search(
        r"\bonly (?:count|use|take|keep)\w* the (?:higher|better|best|highest)(?: (?:score|grade|one))? of the two\b",
        sentence,
        re.IGNORECASE,
    ):
        drops.setdefault(target, 1)
        counts.setdefault(target, 2)
        return
    if not re.search(
        r"\b(?:drop\w*|discard\w*|thrown? out|not (?:be )?count\w*|exclud\w*|omit\w*|ignor\w*|disregard\w*|remov\w*)\b",
        sentence,
        re.IGNORECASE,
    ):
        return
    for category, number in _dropped(sentence, named, target):
        drops.setdefault(category, number)


def _dropped(sentence: str, named: list[_Named], target: int) -> Iterator[tuple[int, int]]:
    several = []
    for one in named:
        lead = re.search(rf"\b({_NUMBER})(?:\s*\(\d+\))?\s+(?:lowest |worst )?$", sentence[: one.start], re.IGNORECASE)
        number = count_of(lead[1]) if lead else None
        far = re.split(r"%|;", sentence[one.end :])[0]
        is_told = bool(
            re.search(r"(?:lowest|worst)\s*$", sentence[: one.start]) or _DROP.search(far) or _LOWEST.search(far)
        )
        if number and number <= 5 and is_told:
            several.append((one.category, number))
    if several:
        yield from several
        return
    around = re.search(
        rf"\b(?:lowest|worst|minimum|least|drop\w*)\s+(?:scor\w+ |grade\w* )?({_NUMBER})\b|"
        rf"\b({_NUMBER})\s+(?:of (?:your|the) )?(?:\w+ )?(?:lowest|worst)|"
        rf"\b({_NUMBER})\b[^.,()]{{0,40}}\b(?:dropped|not count|excluded|discarded)|drop\w*\s+(?:your |the |"
        rf"one'?s? )?({_NUMBER})\b",
        sentence,
        re.IGNORECASE,
    )
    number = next((count_of(part) for part in around.groups() if part), None) if around else None
    if number is None and not _LOWEST.search(sentence):
        return
    if number is None or number <= 6:
        yield target, number or 1


class _Name:
    """The name of a category as sentences are searched for it: its words in the singular and those it is known by."""

    def __init__(self, name: str) -> None:
        self.words = [_singular(word) for word in re.findall(r"[a-z]{3,}", name.lower())]
        self.heads = {_singular(word) for word in _head(name).split()}


def _named_in(text: str, names: Sequence[_Name]) -> list[_Named]:
    """The categories that a text names, left to right; of two that share a word the one with more words in common."""
    found: dict[int, tuple[float, _Named]] = {}
    words = [(match.start(), match.end(), _singular(match[0].lower())) for match in _WORD.finditer(text)]
    stems = [word for _, _, word in words]
    for number, name in enumerate(names):
        if name.heads.isdisjoint(stems):
            continue
        own = set(name.words)
        for position, stem in enumerate(stems):
            if stem not in name.heads:
                continue
            near = own.intersection(stems[max(0, position - 3) : position + 1])
            score = len(near) / max(len(name.words), 1) + len(near)
            known = found.get(position)
            if known is None or score > known[0]:
                first = min(place for place, word in enumerate(stems) if place >= position - 3 and word in own)
                found[position] = (score, _Named(words[first][0], words[position][1], number))
    return [found[position][1] for position in sorted(found)]


def late_policy(sections: Sequence[Section]) -> str | None:
    """What the outline says about late work, in its own words, up to some 700 characters; None when nothing."""
    for number, section in enumerate(sections):
        if section.kind is SectionKind.LATE and re.search(r"\blate\b", section.title, re.IGNORECASE):
            blocks = list(section.blocks)
            for following in sections[number + 1 :] if section.level != OPENED_LEVEL else ():
                # paragraphs that open with a label of their own still belong to the heading above them
                if following.level != OPENED_LEVEL or len(blocks) >= 4:
                    break
                blocks.extend(following.blocks)
            told = [sentence for block in blocks[:5] if isinstance(block, Line) for sentence in _sentences(block)]
            if told:
                return _joined(told)
    told = []
    for section in sections:
        if section.kind in {SectionKind.SCHEDULE, SectionKind.MATERIALS, SectionKind.OBJECTIVES}:
            continue
        for block in section.blocks:
            if isinstance(block, Line):
                told.extend(_late_sentences(_sentences(block)))
    return _joined(list(dict.fromkeys(told))) if told else None


def _late_sentences(sentences: Sequence[str]) -> Iterator[str]:
    """The sentences about late work, each with the next one where that goes on about it."""
    goes_on = False
    for sentence in sentences:
        is_late = bool(_LATE.search(sentence))
        if is_late or (goes_on and re.search(r"\b(?:credit|accept|penalt|deduct|extension)", sentence, re.IGNORECASE)):
            yield sentence
        goes_on = is_late


def _joined(sentences: Sequence[str]) -> str:
    text = ""
    for sentence in sentences:
        if text and len(text) + len(sentence) > _LATE_LIMIT:
            break
        text = f"{text} {sentence}".strip()
    return text


def rules_stated(document: Document) -> tuple[str, ...]:
    """Sentences with rules that a sum of weights cannot hold: replacement, minimum to pass, work that counts twice."""
    found: list[str] = []
    for block in flat_blocks(document):
        if isinstance(block, Line):
            found.extend(sentence for sentence in _sentences(block) if _RULE.search(sentence) and len(sentence) <= 400)
    return tuple(dict.fromkeys(found))[:_RULE_LIMIT]
