"""What identifies a course and how to reach its people: code, title, term, instructor, room, meetings."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from syllabus_io.extract.document import Document, Line, Table
from syllabus_io.outline.course_code import find_codes, read_code, read_title
from syllabus_io.outline.headings import SectionKind, section_kind
from syllabus_io.outline.labels import LabelKind
from syllabus_io.outline.meetings import read_meetings
from syllabus_io.outline.records import CourseFacts
from syllabus_io.outline.sections import LabelledValue, flat_blocks, plain, read_labels, read_sections
from syllabus_io.outline.terms import read_term, years_named

__all__ = ["read_course", "read_years"]

_EMAIL = re.compile(r"[\w.+-]+\s?(?:@|\(at\)|\[at\])\s?[\w-]+(?:\.[\w-]+)+", re.IGNORECASE)
_PHONE = re.compile(
    r"(?:\+\d{1,3}[ .-]?)?(?:\(\d{3}\)|\b\d{3})?[ .-]{0,2}\b\d{3,4}[ .-]\d{3,4}\b(?:\s*(?:x|ext\.?)\s*\d+)?"
)
_PERSON = re.compile(
    r"(?:(?:Dr|Prof|Professor|Mr|Mrs|Ms|Mx)\.?\s+)?[A-ZÀ-Ý][\w'’.-]*(?:\s+(?:de|van|von|der|la|al|del|di|bin|ibn))?"
    r"(?:\s+[A-ZÀ-Ý][\w'’.-]*){1,3}"
)
_HONORIFIC = re.compile(
    r"^(?:Dr|Prof|Professor|Mr|Mrs|Ms|Mx)\.?\s+[A-Z]|,\s*(?:Ph\.?\s?D\.?|Professor|M\.?A\.?|M\.?D\.?|Ed\.?D\.?)\b"
)
_CREDITS = re.compile(
    r"\b(\d(?:\.\d{1,2})?)\s*(?:[- ]\s*)?(?:semester |quarter |credit |s\.?h\.?\s)?(?:credit[- ]?hours?|credits?|"
    r"units?|hours\)|ects)\b|"
    r"\b(?:credits?|credit hours?|units?(?=:))\s*[:=]?\s*\(?(\d(?:\.\d{1,2})?)\b",
    re.IGNORECASE,
)
_TOLD_HOURS = re.compile(
    r"\b(?:[Oo]ffice|[Ss]tudent) hours?(?::| are| will be| is)\s*(?:held |on )?(?P<hours>(?:[A-Z][a-z]|[MTWRF]\b|"
    r"[Bb]y app)[^.;]{3,120}"
    r"(?:(?<=[ap])\.m[^.]{0,60})?)"
)
_TOP_LINES = 25
_NOT_A_PERSON = re.compile(
    r"\b(?:university|college|school|department|syllabus|course|fall|spring|summer|winter|introduction|office|hours|"
    r"hall|monday|tuesday|wednesday|thursday|friday|room|science|studies|analysis|and|of|the|to|for|in)\b",
    re.IGNORECASE,
)


def read_course(document: Document, labels: Sequence[LabelledValue] | None = None) -> CourseFacts:
    """The facts about the course as the outline states them, None for others; ``labels`` when already read."""
    labels = read_labels(document) if labels is None else labels
    code, section = read_code(document, labels)
    own = _own_people(labels)
    instructor = _instructor(document, labels)
    meetings = read_meetings(document, labels)
    room = _value(labels, LabelKind.ROOM, 60) or next((one.room for one in meetings if one.room), None)
    return CourseFacts(
        code=code,
        title=read_title(document, labels, code, instructor),
        section=_section(labels) or section or _named_section(document),
        term=read_term(document, labels),
        instructor=instructor,
        email=_email(document, own),
        phone=_phone(own),
        office=_value(own, LabelKind.OFFICE, 80),
        office_hours=_value(own, LabelKind.OFFICE_HOURS, 240) or _told_office_hours(document),
        room=room,
        credits=_credits(document, labels),
        meetings=meetings,
    )


def read_years(document: Document, labels: Sequence[LabelledValue] | None = None) -> tuple[int, ...]:
    """The calendar years that the outline names for its term, the most telling first; ``labels`` when already read."""
    return years_named(document, read_labels(document) if labels is None else labels)


def _own_people(labels: Sequence[LabelledValue]) -> tuple[LabelledValue, ...]:
    """The labelled facts without those that follow a teaching assistant's label and so are the assistant's."""
    own: list[LabelledValue] = []
    is_assistant = False
    for fact in labels:
        if fact.kind is LabelKind.ASSISTANT:
            is_assistant = True
        elif fact.kind in {LabelKind.INSTRUCTOR, LabelKind.CODE, LabelKind.TITLE, LabelKind.MEETINGS, LabelKind.TERM}:
            is_assistant = False
        if not is_assistant:
            own.append(fact)
    first_hours = next((fact for fact in labels if fact.kind is LabelKind.OFFICE_HOURS), None)
    if first_hours and not any(fact.kind is LabelKind.OFFICE_HOURS for fact in own):
        own.append(first_hours)
    return tuple(own)


def _told_office_hours(document: Document) -> str | None:
    """Office hours told within a sentence: "My office hours will be Tuesdays after class, 3:00-4:00"."""
    for line in document.lines():
        match = _TOLD_HOURS.search(plain(line.text))
        if match and not re.search(r"\bTAs?\b|assistant", match[0]):
            return match["hours"].strip(" ,;.")
    return None


def _value(labels: Iterable[LabelledValue], kind: LabelKind, limit: int) -> str | None:
    for fact in labels:
        if fact.kind is kind:
            value = " ".join(fact.value.split()).strip(" ,;|")
            if value:
                return value if len(value) <= limit else value[:limit].rsplit(" ", 1)[0].rstrip(" ,;") + " …"
    return None


def _section(labels: Sequence[LabelledValue]) -> str | None:
    value = _value(labels, LabelKind.SECTION, 20)
    return value if value and re.search(r"\d|^[A-Z]$", value) else None


def _named_section(document: Document) -> str | None:
    """The one section that a short line at the top names; None where several are named."""
    found: list[str] = []
    for line in list(document.lines())[:_TOP_LINES]:
        text = plain(line.text)
        if len(text) <= 90 and not re.search(r"(?i)\bsee section|meet", text):
            found.extend(
                match[1] for match in re.finditer(r"\b[Ss]ec(?:tion|\.)\s?#?\s?(\d{1,4}[A-Z]?|[A-Z])\b(?!\.\d)", text)
            )
    return found[0] if len(set(found)) == 1 else None


def _instructor(document: Document, labels: Sequence[LabelledValue]) -> str | None:
    for fact in labels:
        if fact.kind is LabelKind.INSTRUCTOR:
            name = _person(fact.value)
            if name:
                return name
    top = [block for block in flat_blocks(document) if isinstance(block, Line)][:_TOP_LINES]
    for line in top:
        text = plain(line.text)
        if len(text) <= 90 and _HONORIFIC.search(text):
            name = _person(text)
            if name:
                return name
    for section in read_sections(document):
        if section.kind is SectionKind.CONTACT:
            for block in section.blocks[:2]:
                if isinstance(block, Line) and len(block.text) <= 90:
                    name = _person(plain(block.text))
                    if name:
                        return name
    for line in top[1:6]:
        text = plain(line.text)
        if _PERSON.fullmatch(text) and not re.search(r"\d", text) and _is_believable(text, top):
            name = _person(text)
            if name == text:
                return name
    return None


def _is_believable(name: str, top: Sequence[Line]) -> bool:
    """Whether a line of capitalised words alone is a name and not a title: an initial, an address that holds the
    surname, or a title that stands elsewhere, beside the code."""
    surname = re.sub(r"\W", "", name.split()[-1].lower())
    addresses = " ".join(_EMAIL.findall(" ".join(plain(line.text) for line in top))).lower()
    if re.search(r"\s[A-Z]\.\s", name) or (len(surname) >= 4 and surname in addresses):
        return True
    first = plain(top[0].text)
    return any(len(first) > found.end + 8 for found in find_codes(first))


def _person(text: str) -> str | None:
    """The name a value begins with, titles kept, without what follows it."""
    text = text.split("\n")[0]
    text = re.split(
        r"\s*(?:[(|;•\[<]|https?:|,\s*(?=[\w.+-]+@)|\be-?mail\b|\boffice\b|\bphone\b)",
        text,
        maxsplit=1,
        flags=re.IGNORECASE,
    )[0]
    match = _PERSON.match(text.strip(" ,:-–—"))
    if not match:
        return None
    name = re.sub(r"(?:\s+(?:Office|Email|Phone|Class|Course|Hall|Room))+$", "", match[0]).strip(" ,.-")
    name = re.sub(r"['’]s$", "", name)
    if _NOT_A_PERSON.search(name) or section_kind(name) is not SectionKind.OTHER or len(name.split()) < 2:
        return None
    degree = re.match(r",\s*(?:Ph\.?\s?D\.?|M\.?D\.?|Ed\.?D\.?)", text.strip(" ,:-–—")[match.end() :])
    return name + (degree[0].rstrip() if degree else "")


def _email(document: Document, own: Sequence[LabelledValue]) -> str | None:
    for kind in (LabelKind.EMAIL, LabelKind.INSTRUCTOR):
        for fact in own:
            match = _EMAIL.search(fact.value) if fact.kind is kind else None
            if match:
                return match[0].replace(" ", "")
    for line in list(document.lines())[:_TOP_LINES]:
        match = _EMAIL.search(plain(line.text))
        if match and not re.search(r"\bTA\b|assistant", line.text, re.IGNORECASE):
            return match[0].replace(" ", "")
    return None


def _phone(own: Sequence[LabelledValue]) -> str | None:
    for fact in own:
        if fact.kind is LabelKind.PHONE:
            match = _PHONE.search(fact.value)
            return match[0].strip() if match else None
    return None


def _credits(document: Document, labels: Sequence[LabelledValue]) -> float | None:
    for fact in labels:
        if fact.kind is LabelKind.CREDITS:
            match = re.search(r"(?<![\d-])(\d{1,2}(?:\.\d{1,2})?)(?![\d-])", fact.value)
            if match and float(match[1]) <= 60:
                return float(match[1])
    for number, block in enumerate(document.blocks[:80]):
        text = plain(block.text) if isinstance(block, Line) else _table_text(block)
        if number > 12 and len(text) > 120:
            text = text[:160] if number < 40 else ""
        match = _CREDITS.search(text) if not re.search(r"extra|per week|prerequisite", text, re.IGNORECASE) else None
        if match and 0 < float(match[1] or match[2]) <= 9:
            return float(match[1] or match[2])
    return None


def _table_text(table: Table) -> str:
    return " ".join(plain(cell.text) for cell in table.cells)[:400] if table.row_count <= 12 else ""
