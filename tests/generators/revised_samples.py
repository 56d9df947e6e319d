"""The sample outlines as their instructors might send them anew in mid-term: dates moved, an exam swapped with a class,
weights changed, work renamed, dropped and added, one course as a Word file instead of a PDF."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from pathlib import Path
from types import ModuleType
from typing import Any
from unittest.mock import patch

from reportlab.platypus import Flowable, Paragraph, Table

from tests.generators import (
    outline_pdf,
    outline_word,
    sample_algebra,
    sample_biology,
    sample_geology,
    sample_history,
    sample_letters,
    sample_music,
)

__all__ = ["REVISED", "make_revised_samples"]

REVISED = {
    "algebra.docx": "algebra.docx",
    "biology.docx": "biology.docx",
    "geology.pdf": "geology.pdf",
    "history.docx": "history.docx",
    "letters.pdf": "letters.pdf",
    "music.pdf": "music.docx",
}
"""The name of each sample and of its revised outline."""

_CHANGES: dict[str, tuple[ModuleType, tuple[tuple[str, str], ...]]] = {
    "algebra.docx": (
        sample_algebra,
        (
            (r"^Week 3 Friday$", "Week 4 Tuesday"),
            (r"^Quiz 2: systems of equations$", "Quiz 2: systems of two equations"),
            (r"^20$", "25"),
            (r"^80$", "100"),
            (r"^1000$", "1020"),
        ),
    ),
    "biology.docx": (
        sample_biology,
        (
            (r"Tue 29 Sep; the list", "Tue 6 Oct; the list"),
            (r"^Tue 29 Sep: Review\. \*\*Herbarium sheet 1 due\*\*$", "Tue 29 Sep: Review"),
            (r"^(Tue 6 Oct: Seeds .*)$", r"\1. **Herbarium sheet 1 due**"),
            (r"^Thu 3 Dec: \*\*Group presentations\*\*$", "Thu 3 Dec: **Exam 3** (chapters 8–10)"),
            (r"^Thu 10 Dec: \*\*Exam 3\*\*.*$", "Thu 10 Dec: **Group presentations**"),
            (r"^Garden plan: 20%$", "Garden plan: 15%"),
            (r"^Final exam: 10%$", "Final exam: 15%"),
        ),
    ),
    "geology.pdf": (
        sample_geology,
        (
            (r"^Folds and faults<br/>.*$", "Folds and faults"),
            (r"^How old is it\?$", "How old is it?<br/><b>Midterm 2 (Thu, in class)</b>"),
            (r"<br/>Reading quiz 2 \(Thu\)", ""),
            (r"^Reading quizzes \(5\)$", "Reading quizzes (4)"),
            (r"^Lab report 6 \(Wed\)$", "Lab report 6 (Wed)<br/>Map exercise (Thu)"),
            (r"^Field guide proposal \(Tue\)$", "Field guide: proposal and list of rocks (Tue)"),
            (r"^30%$", "25%"),
            (r"^20%$", "25%"),
        ),
    ),
    "history.docx": (
        sample_history,
        (
            (r"^Map quiz \(Mon\)$", "Map quiz (Wed)"),
            (r"^Portfolio \(Wed\)$", "Portfolio of notes (Wed)"),
            (r"Wednesday, December 16", "Thursday, December 17"),
        ),
    ),
    "letters.pdf": (
        sample_letters,
        (
            (r"Friday, September 25, at 5 p\.m\.", "Monday, September 28, at 5 p.m."),
            (r"1,200 words, 20 percent", "1,200 words, 25 percent"),
            (r"2,000 words, 25 percent", "2,000 words, 20 percent"),
            (r"Wednesday, October 14", "Wednesday, October 21"),
        ),
    ),
    "music.pdf": (
        sample_music,
        (
            (r"^<b>Concert report 1 due</b> at the start of class\. ", ""),
            (r"^The orchestra grows", "<b>Concert report 1 due</b> at the start of class. The orchestra grows"),
            (r"^Review: bring your questions.*$", "<b>MIDTERM EXAM</b>, in class; listening and short answers"),
            (r"^<b>MIDTERM EXAM</b>, in class.*$", "How the midterm went"),
        ),
    ),
}


def make_revised_samples(folder: Path) -> None:
    """Writes every revised outline into a folder. Fails when a change no longer finds its words in the sample."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, revised in REVISED.items():
        _write_revised(name, folder / revised)


def _write_revised(name: str, path: Path) -> None:
    module, changes = _CHANGES[name]
    used: Counter[str] = Counter()

    def changed(text: str) -> str:
        for pattern, new in changes:
            text, count = re.subn(pattern, new, text)
            used[pattern] += count
            if count and pattern.startswith("^"):  # a line that was written anew is not changed back
                break
        return text

    with ExitStack() as stack:
        for place, function in (
            (module, "Paragraph"),
            (outline_pdf, "Paragraph"),
            (module, "add_text"),
            (outline_word, "add_text"),
        ):
            if hasattr(place, function):
                usual = getattr(place, function)
                stack.enter_context(patch.object(place, function, _rewriting(usual, function == "Paragraph", changed)))
        if path.suffix != Path(name).suffix:
            stack.enter_context(patch.object(module, "draw_pages", _write_story_as_word))
        getattr(module, f"write_{Path(name).stem}")(path)
    missing = [pattern for pattern, _ in changes if not used[pattern]]
    assert not missing, f"{name}: nothing is left to change for {missing}"


def _rewriting(usual: Callable[..., Any], text_first: bool, changed: Callable[[str], str]) -> Callable[..., Any]:
    """The same call with its text changed."""

    def call(first: Any, second: Any, *others: Any, **named: Any) -> Any:
        if text_first:
            return usual(changed(first), second, *others, **named)
        return usual(first, changed(second), *others, **named)

    return call


def _write_story_as_word(path: Path, title: str, story: Sequence[Flowable], **_: object) -> None:
    """What would have been drawn as pages, as a Word file: headings, paragraphs, tables."""
    document = outline_word.new_word("Georgia", 11)
    for part in story:
        if isinstance(part, Paragraph):
            _add_paragraph(document, part)
        elif isinstance(part, Table):
            rows = [[_marked(cell.text) for cell in row] for row in part._cellvalues]
            outline_word.word_table(document, rows, [1.0 * width / 72 for width in part._argW])
    outline_word.save_word(document, path, title)


def _add_paragraph(document: Any, part: Paragraph) -> None:
    text = _marked(part.text)
    number = part.bulletText
    if part.style.name in ("heading", "month", "title"):
        document.add_heading(text.replace("**", ""), 1)
    else:
        outline_word.add_text(document.add_paragraph(), f"{number}  {text}" if number else text)


def _marked(text: str) -> str:
    """Words of a page with bold ones between asterisks."""
    from html import unescape

    bold = re.sub(r"</?b>", "**", text)
    return unescape(re.sub(r"<br/>", "\n", re.sub(r"</?i>", "", bold)))
