"""Parts of a grade in text: "Homework: 20%", "20% Homework", "4 x 10%", "each paper is worth 15% of the grade"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from syllabus_io.outline.headings import any_of
from syllabus_io.outline.vocabulary import COUNT_WORDS, EXTRA_CREDIT_WORDS, count_of
from syllabus_io.provenance import Place

__all__ = [
    "EXTRA",
    "LEADING",
    "NOT_A_SHARE",
    "NOT_BEHIND",
    "VERB",
    "Share",
    "StatedWeight",
    "clean_name",
    "count_in",
    "find_weights",
    "is_name",
    "line_shares",
    "points_in",
    "share_of",
    "sums_written_out",
    "weight_in",
]


@dataclass(frozen=True, slots=True)
class Share:
    """One part of the grade as one place of the outline states it.

    ``percent`` or ``points`` is the whole part, or that of each of its marks where ``is_each``. ``order`` counts
    the document's blocks, ``depth`` is larger for a part of the part before it. ``told`` marks what was read from
    a sentence, ``is_total`` a line of the sum. ``about`` is the text around it.
    """

    name: str
    percent: float | None
    points: float | None
    place: Place
    order: int = 0
    depth: int = 0
    count: int | None = None
    drop: int = 0
    is_each: bool = False
    is_extra: bool = False
    is_total: bool = False
    about: str = ""

    @property
    def weight(self) -> float | None:
        """The percent, else the points."""
        return self.percent if self.percent is not None else self.points


@dataclass(frozen=True, slots=True)
class StatedWeight:
    start: int
    end: int
    percent: float | None
    points: float | None
    count: int | None
    is_each: bool


_DIGIT = re.compile(r"\d")
EXTRA = re.compile(any_of(EXTRA_CREDIT_WORDS), re.IGNORECASE)
_NUMBER_WORD = rf"(?:\d{{1,2}}|{any_of(word for word in COUNT_WORDS if len(word) > 2)})"
_EACH = (
    r"(?P<each>\s*(?:points?\s*)?(?:,\s*)?(?:each|apiece|a piece|per (?:quiz|exam|test|paper|essay|assignment|"
    r"homework|lab|project|post|response|week|class|session)|/\s?(?:each|ea\.?)))?"
)
_PERCENT = re.compile(
    rf"(?:(?P<times>{_NUMBER_WORD})\s*(?:[x×*]|@|"
    rf"at)\s*)?[~∼≈]?\s*(?:(?<![\d.,/–-])(?<!% )(?P<percent>\d{{1,3}}(?:\.\d+)?)\s*(?:%(?!\s?[-–]\s?\d)|percent\b|"
    rf"per cent\b)"
    rf"|%\s?(?P<before>\d{{1,3}}(?:\.\d+)?)(?![\d%]))(?:\s*(?:of (?:the |your )?(?:final |course |total |"
    rf"overall )?grade|of total|total))?"
    rf"{_EACH}(?:\s*\(?=\s*(?P<total>\d{{1,3}}(?:\.\d+)?)\s*%\)?)?",
    re.IGNORECASE,
)
_POINTS = re.compile(
    rf"(?:(?P<times>{_NUMBER_WORD})\s*(?:[x×*]|@|at)\s*)?(?<![\d.,/$-])(?P<points>\d{{1,2}},\d{{3}}|"
    rf"\d{{1,4}}(?:\.\d+)?)\s*-?(?:points?|pts?|marks?)\b\.?"
    rf"(?: possible| total)?{_EACH}(?:\s*\(?=\s*(?P<total>\d{{1,4}}(?:\.\d+)?)\s*(?:points?|pts?\.?|marks?)?\)?)?",
    re.IGNORECASE,
)
_OF_GRADE = re.compile(r"\bof (?:the |your )?(?:final |course |total |overall )*(?:grade|mark|total)\b", re.IGNORECASE)
_NOT_OF_A_WEIGHT = re.compile(
    r"(?<![A-Za-z])(?!(?:of|the|total|grade|each|points?|pts|about|approx|approximately|up|to|worth|"
    r"max|extra|"
    r"credit|overall|your|possible|bonus)\b)[A-Za-z]{2,}",
    re.IGNORECASE,
)
_IS_TOLD = re.compile(r"\b(?:counts?|worth|accounts?|constitutes?|makes? up|will be|is|are)\b[^.!?]*[.!?]\s+[A-Z]")
_SUM_IN_BRACKETS = re.compile(r"\((?P<sum>[^()]*?\d\s*%?[^()]*?)=\s*(?P<total>\d{1,3}(?:\.\d+)?)\s*%\s*\)")
NOT_A_SHARE = re.compile(
    r"penalt|deduct|\blose\b|lost|\blate\b|reduc|per day|each day|per hour|\boff\b|lower(?:ed)? by|"
    r"attendance below|students receive|"
    r"e\.g\.|for example|\breceive (?:a |an )?(?:zero|0|F\b|no |\d)|\bzero\b|or (?:higher|better|above|more)|"
    r"miss(?:ing|ed)? |absen|plagiari|cheat|dishonest|"
    r"adds? up|will receive a|\brounded|curve|average (?:of|is)|score of|to pass|passing|confiden|discount|similar|"
    r"random|"
    r"(?:top|highest|lowest|best|second|third|fourth|fifth|sixth)\b[^.;:]{0,30}\bscores?|raise|boost|up to \d|probabil|"
    r"(?:below|less than|more than|at least|under|over|above|exceed\w*|up to|only)\s*[~$]?\d",
    re.IGNORECASE,
)
NOT_BEHIND = re.compile(
    r"penalt|deduct|\boff\b|per day|\blate\b|or (?:higher|better|above|more)|discount|reduc", re.IGNORECASE
)
_TOTAL = re.compile(
    r"^\W*(?:grand |course |maximum |overall |possible )?(?:total|sum|overall)(?: points| possible| score| grade|"
    r"s)?(?: possible| available)?\b\W*$",
    re.IGNORECASE,
)
LEADING = re.compile(
    r"^(?:[\W_]*(?:of (?:the |your )?(?:final |course |total |overall )*(?:course )?grade|of total|of (?:the|our|"
    r"your)|of(?= (?:\d|two|three|four|five|six))|each|total|and|"
    r"plus|or|worth|for|from|"
    r"the|a|an|your|our|all|finally|also|in addition|there (?:will be|are|is)|(?:we|you) will (?:have|complete|"
    r"write|take|be)|"
    r"(?:final |course |overall )?grade\s*=|(?:approximately|about|roughly)|points?|pts)\b)*[\W_]*",
    re.IGNORECASE,
)
_COUNT_LEAD = re.compile(
    rf"^(?P<count>{_NUMBER_WORD})(?:\s*\(\d+\))?\s*(?:x\s+)?(?=[A-Za-z“\"‘']|\d+-)(?!-)", re.IGNORECASE
)
_NAME_CUT = re.compile(
    r"\s*(?:[:;.]\s+|[:;.(\[{|]|\s[–—=-]\s?|—|\.{3,}|…|,\s+(?:each|worth|taking|due|which|where|each of|including)|"
    r"\bconsist|"
    r"\bwill be\b|\bis\b|\bare\b|\bwhich\b|\bthat\b|\bworth\b|\bcounts?\b|\bcovering\b)",
    re.IGNORECASE,
)
VERB = (
    r"(?:(?:will |shall |may |can )?(?:each |together |collectively |also )*(?:be |are |is |be each )?(?:each )?"
    r"(?:worth|counts?|counted|counting|accounts?|accounting|constitutes?|makes? up|made up|makes?|contributes?|"
    r"comprises?|comprising|represents?|"
    r"weighted|weighs?|weigh|equals?|valued|determines?|forms?)(?: (?:for|as|toward|towards|up|at|to))*|=|:|"
    r"will be|is|are)"
)


def weight_in(text: str) -> tuple[float | None, float | None, int | None, bool] | None:
    """Percent, points, count and whether each, of a text that is hardly more than a weight ("5 x 2% each = 10%")."""
    found = find_weights(text)
    rest = text[: found[0].start] + text[found[0].end :] if len(found) == 1 else ""
    rest = _OF_GRADE.sub(" ", rest)
    if len(found) == 1 and not _NOT_OF_A_WEIGHT.search(rest):
        one = found[0]
        return one.percent, one.points, one.count, one.is_each
    return None


def points_in(text: str) -> float | None:
    """The points of a table cell that holds plain numbers, one to a line and summed ("15", "15"); None otherwise."""
    numbers = [part for part in re.split(r"[\n+]", text) if part.strip()]
    values = [
        re.fullmatch(r"\s*[*~]?(\d{1,2},\d{3}|\d{1,4}(?:\.\d+)?)\s*(?:points?|pts?\.?|marks?)?\s*", part, re.IGNORECASE)
        for part in numbers
    ]
    if not values or any(value is None for value in values):
        return None
    return sum(float(value[1].replace(",", "")) for value in values if value)


_MEASURE = r"(?:pages?|words?|minutes?|hours?|weeks?|days?|sources?|paragraphs?|sentences?|items?|semesters?|terms?)\b"


def count_in(text: str) -> tuple[int | None, int]:
    """How many marks and how many dropped a detail says: "4/5 assignments", "best 5 of 6", "10 quizzes"."""
    pair = re.search(
        rf"\b(?:best|top|highest)?\s*({_NUMBER_WORD})\s*(?:\(?\s*(?:out )?of(?: the| your)?|"
        rf"/)\s*({_NUMBER_WORD})\b\)?(?!\s*(?:%|points))",
        text,
        re.IGNORECASE,
    )
    if pair:
        kept, given = count_of(pair[1]), count_of(pair[2])
        if kept and given and kept < given <= 40:
            return given, given - kept
    counted = re.search(  # "(4, best 3 count)", "5 quizzes; the top four count"
        rf"\b({_NUMBER_WORD})\b[^.%]{{0,20}}[,;:(–—-]\s*(?:only )?(?:the |your )?"
        rf"(?:best|top|highest) ({_NUMBER_WORD})\b",
        text,
        re.IGNORECASE,
    )
    if counted:
        given, kept = count_of(counted[1]), count_of(counted[2])
        if kept and given and kept < given <= 40:
            return given, given - kept
    times = re.search(rf"\b({_NUMBER_WORD})\s*[x×]\s*\d", text, re.IGNORECASE)
    if times:
        return count_of(times[1]), 0
    bracket = re.search(rf"\(\s*({_NUMBER_WORD})\s*(?:\)|,|;|total\b|of them\b)", text, re.IGNORECASE)
    dropped = re.search(
        rf"\b(?:drop(?:ping)?|lowest|worst)\s+(?:the |your )?(?:lowest |worst )?({_NUMBER_WORD})?\b|"
        rf"\b({_NUMBER_WORD}) (?:lowest|worst)\b",
        text,
        re.IGNORECASE,
    )
    if bracket or (dropped and re.search(r"\bdrop", text, re.IGNORECASE)):
        number = (count_of(dropped[1] or dropped[2] or "one") or 1) if dropped else 0
        return (count_of(bracket[1]) if bracket else None), number
    alone = re.search(
        rf"(?<![–-])\b({_NUMBER_WORD})\s+(?!(?:[a-z-]+\s)?{_MEASURE})(?:[a-z-]+\s){{0,2}}[a-z]{{3,}}s\b",
        text,
        re.IGNORECASE,
    )
    count = count_of(alone[1]) if alone else None
    return (count, 0) if count and count <= 60 else (None, 0)


def find_weights(text: str) -> list[StatedWeight]:
    if not _DIGIT.search(text):
        return []
    found = [_weight(match) for match in _PERCENT.finditer(text)]
    return found or [_weight(match) for match in _POINTS.finditer(text)]


def _weight(match: re.Match[str]) -> StatedWeight:
    groups = match.groupdict()
    times = count_of(groups["times"]) if groups["times"] else None
    is_percent = "percent" in groups
    written = groups.get("percent") or groups.get("before") or groups.get("points") or "0"
    value = float(written.replace(",", ""))
    is_each = bool(groups["each"]) or times is not None
    if groups["total"]:
        total = float(groups["total"])
        count = times or (round(total / value) if value and is_each else None)
        value, is_each, times = total, False, count
    start = match.start() + len(match[0]) - len(match[0].lstrip())
    return StatedWeight(
        start, match.end(), value if is_percent else None, None if is_percent else value, times, is_each
    )


def clean_name(text: str) -> tuple[str, int | None]:
    """The name of a part as a student would write it, and the count that stood before it ("Seven problem sets": 7)."""
    text = LEADING.sub("", text.replace("\n", " "), count=1)
    text = re.sub(r"[\s~∼≈=:–—.…*∗†‡-]+$", "", text)
    count: int | None = None
    lead = _COUNT_LEAD.match(text)
    if lead:
        count = count_of(lead["count"])
        rest = text[lead.end() :].lstrip(" ×x")
        text = rest or text
    cut = _NAME_CUT.search(text)
    if cut and cut.start() >= 3:
        text = text[: cut.start()]
    text = re.sub(r"\s*\(\s*\)$", "", text).strip(' ,;:.–—-=*∗†‡~∼≈|"“”•·/&+')
    text = re.sub(r"(?i)\s+(?:and|for|of|the|will|to|at|each|is|are|total|worth)$", "", text).rstrip(" ,;:&+")
    text = re.sub(r"(?i)\b(q)uiz(?:es|z)\b", r"\1uizzes", text)
    return (text[:1].upper() + text[1:] if text else ""), count


def line_shares(text: str, place: Place, order: int = 0, depth: int = 0) -> tuple[Share, ...]:
    """The parts of the grade that a line, list entry or formula states; empty when it is a sentence or names none."""
    text = sums_written_out(text)
    weights = find_weights(text)
    if not weights or len(text) > 700:
        return ()
    first = weights[0]
    behind = 25 if text[: first.start].strip(" (*•") else 12
    is_extra = bool(EXTRA.match(text.lstrip(" *•-(")))
    if not is_extra and NOT_A_SHARE.search(text[max(0, first.start - 60) : first.end + behind]):
        return ()
    main = [first, *(other for other in weights[1:] if not _is_detail(text, first, other))]
    if len(main) > 1 and _IS_TOLD.search(text[: main[-1].start]):
        return ()
    if len(main) == 1:
        share = _single(text, first, place, order, depth)
        return (share,) if share else ()
    return tuple(_several(text, main, place, order, depth))


def sums_written_out(text: str) -> str:
    """Sums in brackets made one weight: "(2 × 20% + 2 × 15% = 70%)" is "(4 x 17.5% = 70%)"."""

    def one(match: re.Match[str]) -> str:
        times = [count_of(number) or 0 for number in re.findall(r"(\d+)\s*[x×*]", match["sum"])]
        count = sum(times)
        return f"({count} x 1% = {match['total']}%)" if count else f"({match['total']}%)"

    return _SUM_IN_BRACKETS.sub(one, text) if "+" in text else text


def _is_detail(text: str, first: StatedWeight, other: StatedWeight) -> bool:
    """Whether a further weight only explains the first: inside brackets, in the sentences behind it, or a sum."""
    between = text[first.end : other.start]
    opened = between.count("(") + between.count("[") - between.count(")") - between.count("]")
    if opened > 0 or len(between) > 140 or NOT_A_SHARE.search(between):
        return True
    behind = re.split(r"[.!?]\s+(?=[A-Z])", between)
    return len(behind) > 1 and (len(behind[-1]) > 45 or bool(re.search(r"\b(?:will|is|are|you|we)\b", behind[-1])))


def _single(text: str, weight: StatedWeight, place: Place, order: int, depth: int) -> Share | None:
    before, after = text[: weight.start], text[weight.end :]
    if _TOTAL.match(before) or (not before.strip() and _TOTAL.match(after)):
        return Share("Total", weight.percent, weight.points, place, order, depth, is_total=True, about=text)
    lead = before.strip(" (*•·-–—:~∼≈")
    if not lead:
        named = after.strip(" )*:–—-=\t")
        name, count = clean_name(re.split(r"(?<=\w)[.!?]\s", named)[0])
    else:
        if (
            len(lead) > 75
            or re.search(r"[.!?]\s+[A-Z]", lead)
            or re.search(
                r"\b(?:will|is|are|you|we|I(?= [a-z])|worth|counts?|makes?|made|accounts?|constitutes?|contributes?)\b",
                re.sub(r"\([^)]*\)?", "", lead),
            )
        ):
            return None
        name, count = clean_name(re.sub(r"\([^)]*$", "", before))
    if not is_name(name):
        return None
    return share_of(name, count, weight, text, place, order, depth)


_SUM_WORDS = (
    r"(?:consists? of|composed of|comprised of|made up of|based (?:up)?on|calculated (?:as|by|from)|determined by|"
    r"as follows|are|is)"
)
_OPENS_SUM = re.compile(rf"\b{_SUM_WORDS}(?: the)?:?$", re.IGNORECASE)
_SUM_INTRO = re.compile(rf"^.*\b{_SUM_WORDS}:?\s+(?:the )?(?=\S)", re.IGNORECASE)


def _several(text: str, weights: Sequence[StatedWeight], place: Place, order: int, depth: int) -> Iterator[Share]:
    intro = text[: weights[0].start]
    second = text[weights[0].end : weights[1].start].rstrip()
    names_first = bool(re.search(r"[=:]\s*$", intro)) and second[-1:] in {"=", ":"}
    if names_first:
        ends = [0, *(one.end for one in weights)]
        pieces = [(text[ends[number] : one.start].rstrip(" =:"), one) for number, one in enumerate(weights)]
    elif not re.sub(r"^.*[=:]\s*", "", intro).strip(" (") or _OPENS_SUM.search(intro.rstrip(" (")):
        pieces = [
            (text[one.end : (weights[number + 1].start if number + 1 < len(weights) else len(text))], one)
            for number, one in enumerate(weights)
        ]
    else:
        ends = [0, *(one.end for one in weights)]
        pieces = [(text[ends[number] : one.start], one) for number, one in enumerate(weights)]
    for number, (words, weight) in enumerate(pieces):
        words = re.sub(rf"\s+{VERB}\s*$", "", words.rsplit(")", 1)[-1] if "(" in words[-2:] else words)
        if number == 0:
            words = re.sub(r"^.*?[=:]\s*(?=\S)", "", words) if "(" not in words else words
            words = _SUM_INTRO.sub("", words)
        if re.search(r"[.!?]\s+[A-Z]", words.rstrip(" .")):
            words = re.split(r"[.!?]\s+(?=[A-Z])", words)[-1 if weight.start > text.find(words) else 0]
        if len(words) > 90 or re.search(r"\b(?:you|we|I)\b", words):
            continue
        name, count = clean_name(re.sub(r"\([^)]*$", "", words))
        if is_name(name):
            yield share_of(name, count, weight, words, place, order, depth)


def is_name(name: str) -> bool:
    return (
        bool(re.match(r"\W{0,2}(?:[A-Za-z]{2}|[A-Z]\b|\d+-?\w*\s[A-Za-z])", name))
        and "%" not in name
        and not re.match(r"[A-F][+-]?(?:\W|$)(?!\w{2})", name)
        and len(name) <= 80
        and len(name.split()) <= 11
    )


def share_of(
    name: str, count: int | None, weight: StatedWeight, about: str, place: Place, order: int, depth: int
) -> Share:
    detail_count, drop = count_in(about)
    if detail_count and not drop and count is not None:
        detail_count = None
    is_extra = bool(EXTRA.search(f"{name} {about[:120]}"))
    return Share(
        name=name,
        percent=weight.percent,
        points=weight.points,
        place=place,
        order=order,
        depth=depth,
        count=weight.count or (detail_count if drop or "(" in about else None) or count,
        drop=drop,
        is_each=weight.is_each,
        is_extra=is_extra,
        is_total=bool(_TOTAL.match(name)),
        about=about,
    )
