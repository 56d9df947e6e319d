"""Steps of one work, dated by themselves: "Essay 1 (draft: Feb 2; final: Feb 16)", "Paper: outline due 10/30"."""

from __future__ import annotations

import re

from syllabus_io.outline.clauses import is_lead
from syllabus_io.outline.items import title_words
from syllabus_io.outline.prose_names import lead_of, name_of_lead
from syllabus_io.outline.records import Kind
from syllabus_io.outline.sentences import Sentence
from syllabus_io.outline.titles import noun_phrase, singular
from syllabus_io.outline.work_words import Head, find_heads
from syllabus_io.resolve.expression import Phrase

__all__ = ["step_of_lead", "step_of_work"]

_WHOLE = ("final copy", "final version", "final paper")
_STEP_ALONE = re.compile(
    r"^\W*(?:the\s+|an?\s+)?((?:(?:rough|first|second|full|complete|revised)\s+)?(?:draft|outline|proposal|bibliography|"
    r"revision|abstract)|final (?:copy|version|paper|draft)|(?:(?:final|first)\s+|mid-?)?crit(?:ique)?|thumbnails|"
    r"sketches|prototype|presentation)\s*(?:,|:|\(|[–—-]|(?:\([^()]*\)\s*)?(?:to\s+class\s+)?(?<=\s))\s*(?:due\s+)?"
    r"(?:by\s+|on\s+)?$",
    re.IGNORECASE,
)
_STEP_BEFORE = re.compile(
    r"(?:^|[,;:(–—]|\band\b)\s*(?:(?:an?|the|your)\s+)?("
    r"(?:(?:rough|first|second|full|complete|revised|final|written|oral|progress|peer|annotated|thesis)\s+)?"
    r"(?:draft|outline|proposal|bibliography|revision|abstract|report|presentation|paper|version|copy|prospectus|topic|"
    r"poster|plan|review|statement|thesis|final))"
    r"\s*(?:[:–—,-]|is|will be)?\s*(?:due\s+)?(?:by|on|in class)?\s*$",
    re.IGNORECASE,
)
_ENDS_NAME = re.compile(
    r"\s*(?:\([^()]*\)\s*)?(?:[:–—,-]?\s*\d{1,3}\s*(?:%|points|pts))?\s*(?:\([^()]*\)\s*)?", re.IGNORECASE
)
_OWN_NAME = ("final report", "final presentation", "final exam")


def step_of_lead(text: str, paragraph: str) -> str | None:
    """The step that alone stands before a date, under the work a paragraph opens with ("Paper. … outline, 10/30":
    Paper outline); None without such a step or such work."""
    step, lead = _STEP_ALONE.match(text), lead_of(paragraph)
    if step is None or lead is None or not any(not head.is_weak for head in find_heads(lead[1])):
        return None
    name = singular(name_of_lead(lead))
    if title_words(step[1]) <= title_words(name):
        return None
    return name if step[1].lower() in _WHOLE else f"{name} {step[1].lower()}"


def step_of_work(sentence: Sentence, phrase: Phrase) -> tuple[str, Kind] | None:
    """Title and kind of a step right before its date, of the work that its brackets stand behind or its entry opens
    with ("Essay 2: Draft due 3/2, Final due 3/16"); None elsewhere. An exam has no steps."""
    text = sentence.whole
    end = sentence.offset + phrase.start
    step = _STEP_BEFORE.search(text[:end])
    if step is None:
        return None
    head = _work_before(text, step.start(1))
    if head is None or head.kind in (Kind.EXAM, Kind.QUIZ):
        return None
    name = singular(noun_phrase(text, head)) if head.end <= head.word_end or head.number else noun_phrase(text, head)
    word = " ".join(step[1].lower().split())
    if title_words(word) <= title_words(name) and word != "final":
        return None
    if word.split()[0] == "final" and word not in _OWN_NAME:
        return name, head.kind
    kinds = [one.kind for one in find_heads(word) if not one.is_weak]
    return f"{name} {word}", kinds[-1] if kinds else head.kind


def _work_before(text: str, end: int) -> Head | None:
    """The work whose open brackets hold a step, or whose name and a colon open the entry that holds it."""
    opening = text.rfind("(", 0, end)
    if opening < 0 or ")" in text[opening:end]:
        colon = re.match(r"\W*[A-Z#][^.:;]{2,60}?(?:\([^()]*\))?\s*:(?!\d)", text[:end])
        if colon is None or not is_lead(colon[0]):
            return None
        opening = colon.end() - 1
    heads = [head for head in find_heads(text[:opening]) if not head.is_weak or head.number]
    if not heads or not _ENDS_NAME.fullmatch(text[heads[-1].end : opening]):
        return None
    return heads[-1]
