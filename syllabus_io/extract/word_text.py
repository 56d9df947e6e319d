"""The text of a paragraph as a reader of the printed page sees it: runs, fields, changes, symbols.

Tracked insertions are kept and deletions left out, as if every change had been accepted (ECMA-376 part 1, section
17.13.5); of a field only its shown result is text (17.16); hidden and struck-through text is left out.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from lxml import etree

from syllabus_io.extract.word_package import element_name, w
from syllabus_io.extract.word_styles import RunFormat, Styles

__all__ = ["Inline", "Piece", "TextWalk", "plain_text"]

DESCEND = {
    "hyperlink", "fldSimple", "smartTag", "customXml", "ins", "moveTo", "dir", "bdo", "sdtContent", "rubyBase", "ruby",
    "oMath", "oMathPara",
}  # fmt: skip
"""Wrappers whose content is shown. Elements of formulas are walked for their own text runs."""

SYMBOL_FONTS = ("wingdings", "webdings", "symbol", "wingdings 2", "wingdings 3")
SYMBOLS = {
    "symbol": {
        0xA3: "≤", 0xA5: "∞", 0xAB: "↔", 0xAC: "←", 0xAD: "↑", 0xAE: "→", 0xAF: "↓", 0xB0: "°", 0xB1: "±", 0xB2: "″",
        0xB3: "≥", 0xB4: "×", 0xB7: "•", 0xB9: "≠", 0xBB: "≈", 0xDE: "⇒",
    },
    "wingdings": {
        0x28: "☎", 0x2A: "✉", 0x4A: "☺", 0x6C: "●", 0x6E: "■", 0x6F: "□", 0x71: "❑", 0x75: "◆", 0x76: "❖", 0x9F: "•",
        0xA7: "▪", 0xA8: "□", 0xD8: "➢", 0xE0: "→", 0xDF: "←", 0xE1: "↑", 0xE2: "↓", 0xE8: "➔", 0xF0: "⇨", 0xFB: "✗",
        0xFC: "✓", 0xFD: "☒", 0xFE: "☑",
    },
}  # fmt: skip
"""Code points of two symbol faces as Unicode, by the mapping tables that Unicode publishes; the frequent ones only."""

RAISED_DIGITS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
SPACES = re.compile(r"[\u00a0\u2000-\u200a\u202f\u205f\u3000]")
UNSEEN = re.compile(
    r"[\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\U000e0000-\U000e007f"
    r"\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]"
)


@dataclass(frozen=True, slots=True)
class Piece:
    """Some characters of one look, and the page they stand on. Line breaks are line feeds, tabs are tabs."""

    text: str
    look: RunFormat
    page: int


@dataclass(slots=True)
class Inline:
    """What one paragraph holds: its pieces, notes referred to, text boxes, and what was left out."""

    pieces: list[Piece] = field(default_factory=list)
    notes: list[tuple[str, str]] = field(default_factory=list)
    """Kind ("footnote", "endnote") and identifier."""
    boxes: list[etree._Element] = field(default_factory=list)
    struck: str = ""
    deleted: str = ""
    pictures: int = 0
    objects: int = 0

    @property
    def text(self) -> str:
        """The characters of all pieces."""
        return "".join(piece.text for piece in self.pieces)


def plain_text(text: str) -> str:
    """The text with typographic spaces as blanks, unseen characters gone and no-break hyphens as hyphens."""
    return UNSEEN.sub("", SPACES.sub(" ", text)).replace("\u2011", "-")


class TextWalk:
    """Walks the runs of one document in reading order. Fields and pages go on from paragraph to paragraph."""

    def __init__(self, styles: Styles, drop_page_numbers: bool = False) -> None:
        self.styles = styles
        self.page = 1
        self.counts_recorded_breaks = True
        self._drop_page_numbers = drop_page_numbers
        self._fields: list[list[str]] = []
        """A pair for each open field: its stage ("code", "result", "silent") and its code so far."""

    def inline(self, paragraph: etree._Element, style: str, bold_by_table: bool = False) -> Inline:
        """What a paragraph of the named style holds."""
        found = Inline()
        self._children(paragraph, found, lambda properties: self.styles.run(properties, style, bold_by_table))
        return found

    def _children(
        self, parent: etree._Element, found: Inline, look_of: Callable[[etree._Element | None], RunFormat]
    ) -> None:
        for child in parent:
            name = element_name(child)
            if name == "r":
                self._run(child, found, look_of)
            elif name == "del":
                found.deleted += "".join(part.text or "" for part in child.iter(w("delText"), w("t")))
            elif name == "sdt":
                if child.find(f"{w('sdtPr')}/{w('showingPlcHdr')}") is None:
                    self._children(child, found, look_of)
            elif name == "fldSimple":
                if not self._is_left_out(child.get(w("instr")) or ""):
                    self._children(child, found, look_of)
            elif name == "AlternateContent":
                for part in _chosen(child):
                    self._children(part, found, look_of)
            elif name in DESCEND or _is_formula(child):
                self._children(child, found, look_of)

    def _run(self, run: etree._Element, found: Inline, look_of: Callable[[etree._Element | None], RunFormat]) -> None:
        look = look_of(run.find(w("rPr")))
        for child in run:
            self._run_part(child, found, look)

    def _run_part(self, child: etree._Element, found: Inline, look: RunFormat) -> None:
        match element_name(child):
            case "t":
                self._add(found, _shown(child.text or "", look.font), look)
            case "tab" | "ptab":
                self._add(found, "\t", look)
            case "br":
                if child.get(w("type")) == "page" and not self.counts_recorded_breaks:
                    self.page += 1
                self._add(found, "\n", look)
            case "cr":
                self._add(found, "\n", look)
            case "lastRenderedPageBreak":
                if self.counts_recorded_breaks:
                    self.page += 1
            case "noBreakHyphen":
                self._add(found, "-", look)
            case "sym":
                self._add(found, _symbol(child.get(w("font")) or "", child.get(w("char")) or ""), look)
            case "fldChar":
                self._field(child.get(w("fldCharType")) or "")
            case "instrText":
                if self._fields and self._fields[-1][0] == "code":
                    self._fields[-1][1] += child.text or ""
            case "delText":
                found.deleted += child.text or ""
            case "footnoteReference" | "endnoteReference":
                kind = element_name(child).removesuffix("Reference")
                if not look.hidden and self._is_shown():
                    found.notes.append((kind, child.get(w("id")) or ""))
            case "AlternateContent":
                for part in _chosen(child):
                    for inner in part:
                        self._run_part(inner, found, look)
            case "drawing" | "pict" | "object":
                found.pictures += 1
                found.objects += element_name(child) == "object"
                found.boxes += [box for box in child.iter(w("txbxContent")) if not _is_repeated(box, child)]
            case "ruby":
                base = child.find(w("rubyBase"))
                if base is not None:
                    self._children(base, found, lambda _: look)

    def _add(self, found: Inline, text: str, look: RunFormat) -> None:
        if look.hidden or not text or not self._is_shown():
            return
        text = plain_text(text)
        if look.struck and text.strip():
            found.struck += text
            return
        if look.raised and text.strip().isdigit() and found.text[-1:].isalnum():
            # a note's number set high behind a word or a date must not grow into it: "Oct 6¹" is not Oct 61
            text = " " + text.strip().translate(RAISED_DIGITS)
        if found.pieces and found.pieces[-1].look == look and found.pieces[-1].page == self.page:
            found.pieces[-1] = replace(found.pieces[-1], text=found.pieces[-1].text + text)
        elif text:
            found.pieces.append(Piece(text, look, self.page))

    def _field(self, stage: str) -> None:
        if stage == "begin":
            self._fields.append(["code", ""])
        elif stage == "separate" and self._fields:
            self._fields[-1][0] = "silent" if self._is_left_out(self._fields[-1][1]) else "result"
        elif stage == "end" and self._fields:
            self._fields.pop()

    def _is_shown(self) -> bool:
        return all(stage == "result" for stage, _ in self._fields)

    def _is_left_out(self, code: str) -> bool:
        """Page numbers are part of no outline's text; they are dropped from running heads and feet."""
        return self._drop_page_numbers and bool(re.match(r"\s*(PAGE|NUMPAGES|SECTIONPAGES)\b", code))


def _chosen(alternatives: etree._Element) -> list[etree._Element]:
    """The one alternative to read: the first choice, which holds the same text as the fallback for old programs."""
    choices = [child for child in alternatives if element_name(child) == "Choice"]
    return choices[:1] or [child for child in alternatives if element_name(child) == "Fallback"][:1]


def _is_repeated(box: etree._Element, drawing: etree._Element) -> bool:
    """Whether a text box lies inside another one (which reads it) or is the fallback of a choice that is read."""
    parent = box.getparent()
    while parent is not None and parent is not drawing:
        name = element_name(parent)
        if name == "txbxContent":
            return True
        if name == "Fallback":
            alternatives = parent.getparent()
            if alternatives is not None and parent not in _chosen(alternatives):
                return True
        parent = parent.getparent()
    return False


def _is_formula(element: etree._Element) -> bool:
    tag = element.tag
    return isinstance(tag, str) and tag.startswith("{http://schemas.openxmlformats.org/officeDocument/2006/math}")


def _shown(text: str, font: str) -> str:
    """The text of a run, with the private characters of symbol faces as what they look like."""
    if not any("\uf000" <= letter <= "\uf0ff" for letter in text):
        return text
    return "".join(
        _symbol(font if font.lower() in SYMBOL_FONTS else "symbol", f"{ord(letter):04X}")
        if "\uf000" <= letter <= "\uf0ff"
        else letter
        for letter in text
    )


def _symbol(font: str, code: str) -> str:
    """A character of a symbol face; empty when it is not known, for a wrong letter would be worse than none."""
    if not re.fullmatch(r"[0-9A-Fa-f]{1,6}", code):
        return ""
    number = int(code, 16)
    face = font.lower()
    if face not in SYMBOL_FONTS:
        return chr(number) if 0x20 <= number < 0xD800 else ""
    return SYMBOLS.get(face, {}).get(number & 0xFF, "")
