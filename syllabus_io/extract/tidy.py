"""What both readers do to text: composed letters, plain blanks, no soft hyphens, hyphenated words made whole."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Set as AbstractSet
from pathlib import Path

__all__ = ["SOFT_HYPHEN", "join_wrapped", "name_of", "split_marker", "tidy_text"]

SOFT_HYPHEN = "\u00ad"
HYPHENS = "-\u2010"
DASHES = "-\u2010\u2011\u2012\u2013\u2014"
BLANKS = re.compile(r"[\s\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+")
INVISIBLE = re.compile(
    r"[\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\U000e0000-\U000e007f"
    r"\x00-\x08\x0e-\x1f\x7f-\x9f]"
)
"""Signs without a shape: controls, joiners, marks that turn the direction of writing (Unicode Annex 9), tags."""
PRESENTATION = re.compile(r"[\ufb00-\ufb06\U0001d400-\U0001d7ff\uff01-\uff5e]")
"""Ligatures, mathematical letters and full-width letters: one letter drawn in another shape (Unicode chapter 2.3)."""

ADDRESS = re.compile(r"(?:https?:|www\.)\S*$")
BULLETS = "•◦▪▫●○■□◆◇◼◾–—·∙‣⁃*\u2212➢➤►▶▸✓✔✦❖§o-"
MARKER = re.compile(
    rf"""(?P<marker>
        [{re.escape(BULLETS)}]                      # a bullet
      | \(?(?:\d{{1,2}}|[ivxIVX]{{1,5}}|[A-Za-z])[.)]  # 3.  3)  (3)  iv.  (a)  A.
      | \(\d{{1,2}}\)
    )\s+(?=\S)""",
    re.VERBOSE,
)


def name_of(path: Path) -> str:
    """A file's name as text that can be shown and written anywhere: without invisible characters, and with question
    marks for bytes that are no text.

    >>> name_of(Path("outlines/soil\\u202efdp.docx"))
    'soilfdp.docx'
    """
    return tidy_text(path.name.encode("utf-8", "replace").decode()) or "outline"


def tidy_text(text: str) -> str:
    """The text in composed form (NFC) with single plain blanks, and without invisible characters.

    >>> tidy_text("cafe\\u0301\\u00a0 at\\u00ad noon ")
    'café at noon'
    """
    text = PRESENTATION.sub(lambda found: unicodedata.normalize("NFKC", found.group()), text)
    text = unicodedata.normalize("NFC", text)
    return BLANKS.sub(" ", INVISIBLE.sub("", BLANKS.sub(" ", text))).strip()


def split_marker(text: str) -> tuple[str, str]:
    """The list marker that opens the text ("" where there is none), and the text behind it.

    >>> split_marker("(a) Bring a ruler")
    ('(a)', 'Bring a ruler')
    >>> split_marker("A. Lovelace wrote this")
    ('', 'A. Lovelace wrote this')
    """
    found = MARKER.match(text)
    if found is None or _is_initial(found.group("marker"), text[found.end() :]):
        return "", text
    return found.group("marker"), text[found.end() :]


def _is_initial(marker: str, rest: str) -> bool:
    """Whether "A." is the initial of a name: one capital and a full stop before a capitalised single word and more."""
    if len(marker) != 2 or not marker[0].isupper() or marker[1] != ".":
        return False
    words = rest.split()
    return len(words) > 1 and words[0][:1].isupper() and words[0][1:].islower() and words[1][:1].islower()


def join_wrapped(first: str, second: str, known: AbstractSet[str] = frozenset()) -> tuple[str, int]:
    """Two printed lines of one paragraph as one text, and where the second line's characters start in it.

    A word parted by a hyphen is made whole, unless ``known`` (words of the document in lower case) holds it only
    with the hyphen; a hyphen behind a digit or before a capital stays.

    >>> join_wrapped("the prob-", "lem sets")
    ('the problem sets', 8)
    >>> join_wrapped("Sept. 3-", "5")
    ('Sept. 3-5', 8)
    """
    if first.endswith(SOFT_HYPHEN):
        return first[:-1] + second, len(first) - 1
    if not first or not second:
        return first + second, len(first)
    if first[-1] in HYPHENS and len(first) > 1 and not first[-2].isspace():
        whole = _is_parted_word(first, second, known)
        kept = first[:-1] if whole else first
        return kept + second, len(kept)
    if first[-1] in "/\u2013\u2014" and len(first) > 1 and not first[-2].isspace():
        return first + second, len(first)
    if second[0] == "/" and ADDRESS.search(first):
        return first + second, len(first)
    return f"{first} {second}", len(first) + 1


def _is_parted_word(first: str, second: str, known: AbstractSet[str]) -> bool:
    if not (first[-2].isalpha() and second[0].islower()):
        return False
    head = re.split(r"[^\w'-]", first[:-1])[-1].lower()
    tail = re.match(r"[\w'-]*", second)
    end = tail.group().lower() if tail else ""
    if "://" in first.split()[-1] or "@" in first.split()[-1]:
        return False
    return f"{head}{end}" in known or f"{head}-{end}" not in known
