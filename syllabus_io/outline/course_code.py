"""The course's own code, section and title among everything in an outline that looks like one."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from syllabus_io.extract.document import Document, Line
from syllabus_io.outline.headings import SectionKind, section_kind
from syllabus_io.outline.labels import LabelKind, label_kind
from syllabus_io.outline.sections import LabelledValue, plain

__all__ = ["CodeFound", "find_codes", "read_code", "read_title"]

# A subject of capitals ("BIO", "LPS ECON" is two words), or one capitalised word ("Econ", "Chemistry"); a number of
# one to five digits; a section behind a hyphen. Number-only codes: 24.118, 15-213, 201-016-50.
_SUBJECT = r"[A-Z]{2,6}(?:&[A-Z]{1,4})?|[A-Z][a-z]{2,14}"
_NUMBER = r"\d{1,5}[A-Z]{0,2}|[A-Z]?\d{3,4}[A-Z]?"
_CODE = re.compile(
    rf"(?<![\w@/.#&'’$-])(?:(?P<subject>{_SUBJECT})(?P<join>\s?[-–.]\s?|\s{{1,3}}|)(?P<number>{_NUMBER})"
    r"(?:(?P<hyphen>[-–./])(?P<section>\d{1,4}[A-Z]?|[A-Z]{1,2}\d?))?)(?![\w@%]|\.\d|:\d)"
)
_BARE_CODE = re.compile(
    r"(?<![\w@/.:-])(?:\d{3}-[0-9A-Z]{3}-[0-9A-Z]{2,3}|\d{1,2}\.\d{2,4}[A-Z]?|\d{2}-\d{3})(?![\w@%.:-]\w?)"
)

# Words with a number behind them that are no course.
_NO_SUBJECT = frozenset(
    re.findall(
        r"\S+",
        "jan feb mar apr may jun jul aug sep sept oct nov dec january february march april june july august september "
        "october november december monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thur "
        "thurs fri sat sun fall spring summer winter autumn term semester quarter session trimester michaelmas hilary "
        "trinity lent easter week weeks wk day days date class classes lecture lectures lec lab labs section sec "
        "sections unit units module modules chapter chapters ch chap part parts page pages pp problem problems "
        "question questions exam exams test tests quiz quizzes homework hw assignment assignments project projects "
        "essay paper ps pset worksheet room rm hall building bldg floor suite office house tower box po street st "
        "road ave avenue drive level grade grades year years age table figure fig volume vol number no nr isbn issn "
        "doi edition phone tel fax ext cell appendix article act title slo slos ilo plo goal step phase stage top "
        "best first last next about over under only until from since before after between within around approximately "
        "maximum minimum covid windows excel python version sars public law code wac ada usc ferpa rule policy at on "
        "in by to of or and the for with is max min points point pts percent credits credit hours hour minutes "
        "students student usa uk ca ny tx dc am pm et pt est pst gmt utc mla apa gpa ap ib gmat gre toefl http https "
        "www zoom meeting id passcode pin crn readings reading video videos episode lesson lessons topic topics block "
        "period meetings group groups team item items line draft drafts due total science second third "
        "fourth fifth upper lower pass fail",
    )
)
_SHORT_DAYS = frozenset({"MO", "TU", "WE", "TH", "FR", "SA", "SU"})  # "TH 9/8" is a day, "TH 201" a course
_YEAR = re.compile(r"19\d\d|20[0-3]\d")
_ALSO_SUBJECTS = frozenset({"LAW", "PS", "CH", "IS", "AM", "PM", "CA"})
_PLACE_WORDS = re.compile(
    r"(?:\b(?:room|rm\.?|office|located|location|hall|building|bldg|place|venue|classroom|where|lab|held|"
    r"hours)\b\s*[:#]?|"
    r"\b(?:at|in|@)|\d\s?[ap]\.?m\.?,?|\d[:.]\d\d,?)\s*(?:the\s+|is\s+)?(?:room\s+)?$",
    re.IGNORECASE,
)
_OTHER_COURSE = re.compile(
    r"pre-?\s?req|co-?\s?req|anti-?req|equivalent|permission|credit (?:for|in)|completed|completion of|passed|grade of|"
    r"\bC-? or better|concurrent|continued in|taken|transfer|such as|majors?\b|following courses|exclusion|formerly",
    re.IGNORECASE,
)
_TOP_LINES = 25
_FIRST_LINES = 6
_LEAST_TOTAL = 0.9  # one place in the running text, far from the top, is some other course
_TITLE_LINES = 60


@dataclass(frozen=True, slots=True)
class CodeFound:
    """A course code in a text: the code without its section, the section, and where it stands."""

    code: str
    section: str | None
    start: int
    end: int


def find_codes(text: str) -> tuple[CodeFound, ...]:
    """Everything in a text with the form of a course code, left to right; rooms and dates are not told apart here,
    but months, weeks, chapters and the like are left out."""
    found = [_code_found(match) for match in _CODE.finditer(text) if _is_subject(match)]
    taken = [(one.start, one.end) for one in found]
    found.extend(
        CodeFound(match[0], None, match.start(), match.end())
        for match in _BARE_CODE.finditer(text)
        if not any(start < match.end() and match.start() < end for start, end in taken)
    )
    return tuple(sorted(found, key=lambda one: one.start))


def _is_subject(match: re.Match[str]) -> bool:
    subject, number, join = match["subject"], match["number"], match["join"]
    if _is_subject_all_the_same(match):
        return True
    if subject in _SHORT_DAYS and len(number) < 3:
        return False
    if subject.lower() in _NO_SUBJECT or (len(subject) == 2 and len(number) == 5):
        return False
    is_word = subject[1:].islower()
    if is_word and (not join.strip(" ") and not join):
        return False
    if join.strip() == "." and not is_word:
        return False
    # "Fall", "Biology 2 of 5": a spelled-out word needs a number of a course's size
    if is_word and (len(number) < 2 or _YEAR.fullmatch(number)):
        return False
    return not _YEAR.fullmatch(number) or bool(join.strip()) or len(subject) >= 3


def _is_subject_all_the_same(match: re.Match[str]) -> bool:
    """Whether a subject whose letters mean something else elsewhere opens a line as a code does: "LAW2041: …"."""
    return (
        match["subject"] in _ALSO_SUBJECTS
        and bool(re.fullmatch(r"\d{3,4}[A-Z]?", match["number"]))
        and not match.string[: match.start()].strip(" #*•")
        and bool(re.match(r"\s*(?:[:–—|-]|$)|\s+[A-Z][a-z]", match.string[match.end() :]))
    )


def _code_found(match: re.Match[str]) -> CodeFound:
    section = match["section"]
    whole = match[0]
    # A lone digit before the hyphen is too short to tell the number from the section: "2-01" stays as written.
    if section and len(match["number"]) > 1 and match["hyphen"] in "-–":
        whole = whole[: match.start("hyphen") - match.start()]
        return CodeFound(" ".join(whole.split()), section, match.start(), match.end())
    if section and match["hyphen"] in "./":
        end = match.start("hyphen")
        return CodeFound(" ".join(whole[: end - match.start()].split()), None, match.start(), end)
    return CodeFound(" ".join(whole.split()), None, match.start(), match.end())


@dataclass(frozen=True, slots=True)
class _Candidate:
    found: CodeFound
    score: float
    order: int


def read_code(document: Document, labels: Sequence[LabelledValue]) -> tuple[str | None, str | None]:
    """The course's own code and section: named by a label, in the heading at the top, or the one named most.

    Codes in rooms, e-mail addresses and sentences about prerequisites count for nothing.
    """
    candidates = list(_candidates(document, labels))
    totals: dict[str, float] = {}
    for candidate in candidates:
        key = _squash(candidate.found.code)
        gain = candidate.score if key not in totals else min(candidate.score, 1.5)
        totals[key] = totals.get(key, 0.0) + gain
    best = max(totals, key=lambda key: (totals[key], -_first(candidates, key).order), default=None)
    if best is None or totals[best] < _LEAST_TOTAL:
        return None, None
    chosen = _first(candidates, best)
    short = _abbreviated(chosen, candidates)
    same = [one.found for one in candidates if _squash(one.found.code) == _squash(short.found.code)]
    section = next((found.section for found in same if found.section), None)
    return short.found.code, section


def _squash(code: str) -> str:
    return re.sub(r"[^a-z0-9]", "", code.lower())


def _first(candidates: Sequence[_Candidate], key: str) -> _Candidate:
    return next(one for one in candidates if _squash(one.found.code) == key)


def _abbreviated(chosen: _Candidate, candidates: Sequence[_Candidate]) -> _Candidate:
    """The code in letters where the heading spells the subject out ("Chemistry 101", elsewhere "CHEM 101")."""
    match = re.fullmatch(r"([A-Z][a-z]{3,})\W*(\d.*)", chosen.found.code)
    if not match:
        return chosen
    for one in candidates:
        other = re.fullmatch(r"([A-Z]{2,5})\W*(\d.*)", one.found.code)
        if other and other[2] == match[2] and _is_short_for(other[1].lower(), match[1].lower()):
            return one
    return chosen


def _is_short_for(letters: str, word: str) -> bool:
    rest = iter(word)
    return letters[0] == word[0] and all(letter in rest for letter in letters)


def _candidates(document: Document, labels: Sequence[LabelledValue]) -> Iterator[_Candidate]:
    for fact in labels:
        if fact.kind in {LabelKind.CODE, LabelKind.TITLE}:
            for found in find_codes(fact.value.split("\n")[0])[:1]:
                yield _Candidate(found, 8.0 if fact.kind is LabelKind.CODE else 6.0, fact.order)
    order = 0
    previous = ""
    largest = _largest_size(document)
    for line in document.lines():
        order += 1
        text = plain(line.text)
        for found in find_codes(text):
            score = _score(text, previous, found, order, bool(line.level or line.bold or line.size >= largest > 0))
            if score:
                yield _Candidate(found, score, order)
        previous = text
    for note in document.notes:
        if note.kind == "running":
            for found in find_codes(plain(note.text))[:1]:
                yield _Candidate(found, 3.0, order)


def _largest_size(document: Document) -> float:
    sizes = sorted({line.size for line in document.lines()}, reverse=True)
    return sizes[0] if len(sizes) > 1 else 0.0


def _score(text: str, previous: str, found: CodeFound, order: int, is_strong: bool) -> float:
    """How telling one place of a code is; 0 where it says nothing about the course's own code."""
    before, after = text[: found.start], text[found.end :]
    if re.search(r"\bdoi\b|isbn|\bpress\b|journal|\bvol\b|et al|\bpp\b", text, re.IGNORECASE):
        return 0.0
    if re.search(r"(?i)\bcourse (?:code|number|id)\b[^.]{0,25}$", before):
        return 5.0
    if _PLACE_WORDS.search(before) or re.search(r"https?://|www\.|@", before[-40:] + after[:2]):
        return 0.0
    if re.search(r"[A-Z]{2}\W?\d(?!\d)", found.code) and order > _FIRST_LINES:
        return 0.0  # "PA1", "UR 1": work or a book, numbered through
    is_bare = bool(re.match(r"\d", found.code))
    is_word = bool(re.match(r"[A-Z][a-z]", found.code))
    if _OTHER_COURSE.search(text) or _OTHER_COURSE.search(previous[-80:]):
        return -2.0 if order > _TOP_LINES else -0.5
    is_title_like = len(text) <= 110
    opens = not before.strip(' #*•"“') or bool(
        re.fullmatch(r"(?:.{0,60}\b(?:syllabus|for|outline|schedule|course)\W*|[A-Z]{2,5} )", before, re.IGNORECASE)
    )
    score = 0.3
    if order <= _TOP_LINES and is_title_like:
        score += 3.0 - order * 0.05
    if opens and is_title_like:
        score += 1.5
        if re.match(r"\s*(?:[:–—|-]|\(|\"|“|$)", after) or re.match(r"\s+[A-Z][a-z]", after):
            score += 1.0
    if re.search(r"\($", before) and after.startswith(")") and order <= _TOP_LINES:
        score += 2.5
    if is_strong and is_title_like:
        score += 1.0
    if is_bare and not (order <= 15 and opens):
        return 0.0
    # a capitalised word may as well be a building or a book, or open a sentence ("Route 66", "Below 600 is an F")
    if is_word:
        return 0.0 if order > _TOP_LINES and not is_strong else 0.1 if score < 2.0 else score - 1.0
    return score


_TERM_TAIL = re.compile(
    r"[\s,;:|(–—-]*\b(?:(?:fall|spring|summer|winter|autumn)\b.{0,12}\d{2,4}|\d{4}\s(?:fall|spring|summer|winter|"
    r"autumn)|"
    r"(?:course )?(?:syllabus|outline|schedule)|section \d+).*$",
    re.IGNORECASE,
)


# Sections whose words stand in titles as well ("Introduction to ...", "Research Project").
_TITLE_SECTIONS = {SectionKind.OTHER, SectionKind.DESCRIPTION, SectionKind.WORK}
_NOT_A_TITLE = re.compile(
    r"@|\d{3}|https?|[a-z]{3}\.\s|\b(?:instructor|professor|dr\.?|university|college|department|school|syllabus)\b|"
    r"\b(?:secondary|grade|level|year|form) \d+$|^(?:semester|trimester|term|quarter|session) \d|"
    r"^(?:marking|grading|reporting) periods?\b|\b(?:course info|information|calendar|due dates|table of contents)\b|"
    r"^(?:course )?(?:description|abstract|overview|introduction|summary|welcome|topics?|outline)\W*$|"
    r"^(?:fall|spring|summer|winter|autumn|[\d:., –-]+)\b.{0,14}$",
    re.IGNORECASE,
)


def read_title(
    document: Document, labels: Sequence[LabelledValue], code: str | None, instructor: str | None = None
) -> str | None:
    """The course's title: labelled, or beside the code, or the first large line at the top; None when unclear.

    The instructor's name is never taken for it.
    """
    for fact in labels:
        if fact.kind is LabelKind.TITLE:
            title = _tidied(fact.value.split("\n")[0], code)
            if title:
                return title
    top = [line for line in islice(document.lines(), _TITLE_LINES) if not _is_person(plain(line.text), instructor)]
    lines = [plain(line.text) for line in top]
    if code:
        for number, text in enumerate(lines):
            for found in find_codes(text):
                if _is_same(found.code, code) and len(text) <= 140:
                    title = _beside(text, found, code) or _neighbour(top, lines, number, code)
                    if title:
                        return _with_line_above(title, top, lines, number)
        for note in document.notes:
            found_codes = find_codes(plain(note.text)) if note.kind == "running" else ()
            title = _beside(plain(note.text), found_codes[0], code) if found_codes else None
            if title and _is_same(found_codes[0].code, code):
                return title
    for number, (line, text) in enumerate(zip(top[:4], lines, strict=False)):
        title = _tidied(re.sub(r"[\s,(]*20\d\d\s?[-–/]\s?(?:20)?\d\d\)?$", "", text), code)
        is_set_off = line.level == 1 or line.bold or line.size > min(one.size for one in top)
        if title and _is_title(title) and (is_set_off or (number == 0 and code is None)):
            return title
    return None


def _is_person(text: str, instructor: str | None) -> bool:
    return bool(instructor) and len(text) <= 60 and (instructor or "") in text


def _is_same(one: str, code: str) -> bool:
    """Whether two codes are the same, one of them perhaps with its subject spelled out."""
    if _squash(one) == _squash(code):
        return True
    spelled, short = re.fullmatch(r"([A-Z][a-z]{3,})\W*(\d.*)", one), re.fullmatch(r"([A-Z]{2,6})\W*(\d.*)", code)
    return bool(spelled and short and spelled[2] == short[2] and _is_short_for(short[1].lower(), spelled[1].lower()))


def _with_line_above(title: str, top: Sequence[Line], lines: Sequence[str], number: int) -> str:
    """The title with the line above it, where a heading of the same type was broken in two."""
    if (
        number
        and lines[number].startswith(title)
        and re.search(r"\b(?:of|and|the|in|for|to|on|with|a|an)$|[:,&]$", lines[number - 1])
    ):
        above = _tidied(lines[number - 1], None)
        if above and abs(top[number - 1].size - top[number].size) < 0.5:
            return f"{above} {title}"
    return title


def _beside(text: str, found: CodeFound, code: str) -> str | None:
    after = _tidied(text[found.end :], code)
    if after and _is_title(after, is_beside=True):
        return after
    before = _tidied(text[: found.start], code)
    return before if before and _is_title(before, is_beside=True) and len(before.split()) >= 2 else None


def _neighbour(top: Sequence[Line], lines: Sequence[str], number: int, code: str) -> str | None:
    near = [other for other in (number + 1, number - 1) if 0 <= other < len(lines)]
    for other in sorted(near, key=lambda place: -top[place].size):
        if _is_title(lines[other]) and not find_codes(lines[other]):
            same_type = top[other].bold == top[number].bold and abs(top[other].size - top[number].size) < 3
            title = _tidied(lines[other], code)
            if title and (same_type or top[other].size > top[number].size) and len(title.split()) >= 2:
                return title
    return None


def _tidied(text: str, code: str | None) -> str | None:
    text = re.sub(r"(?i)^\W*sec(?:tion|\.)?s?\s*#?\s*\d+[A-Z]?\b", "", text)
    text = re.sub(r"^(?:[-–/]?\s?(?:\d{1,3}[A-Z]?|[A-Z]\d{1,2})\b)?\s*(?:#\d+)?[\s:;,.|)–—-]*", "", text)
    text = re.sub(r"(?i)^(?:course )?(?:syllabus|outline)(?: (?:and schedule|for))?\b[\s:;,.|–—-]*", "", text)
    text = _TERM_TAIL.sub("", text)
    text = re.sub(r"(?i)(?<=\w),\s*\(?(?:grades?|year|form) \d{1,2}(?:\s?[-–/]\s?\d{1,2})?\)?$", "", text)
    text = re.sub(r"\s*\([^)]*$", "", text).strip(' :;,|–—-"“”.(')
    text = re.sub(r"(?i)^(?:for|of)\s+", "", text)
    return text if re.search(r"[A-Za-z]{3}", text) and text != code else None


def _is_title(text: str, is_beside: bool = False) -> bool:
    """Whether a text may be a course's title; beside the code it may hold the words of a section's heading too."""
    words = text.split()
    label = text.split(":")[0] if ":" in text else ""
    return (
        1 <= len(words) <= 16
        and len(text) <= 120
        and text[:1].isupper()
        and not text.endswith(":")
        and not _NOT_A_TITLE.search(text)
        and not (label and label_kind(label))
        and (is_beside or section_kind(text) in _TITLE_SECTIONS)
    )
