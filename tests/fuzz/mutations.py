"""Changes to files and texts, each decided by a random source, so that a number gives the same input again."""

from __future__ import annotations

import io
import re
import zipfile
from random import Random

__all__ = ["mutated_bytes", "mutated_text", "mutated_word"]

_NUMBERS = (b"0", b"-1", b"1", b"65535", b"2147483647", b"-2147483648", b"99999999999999999999", b"1e999", b"nan")
_SIGNS = "\x00\x1b\u202e\ufeff\u2028\ud800\U0001f4c5\u0661½ﬁ٣²"
_PIECES = (
    "Oct 6", "10/12", "week 5", "Friday", "noon", "31", "2026", "Feb 30", "13/13/2026", "the last", "every", "of",
    "before", "class 12", "TBA", "-", "–", "/", "(", ")", ":", ";", "\n", "\t", "99999999", "0", "th", "p.m.",
)  # fmt: skip


def mutated_bytes(content: bytes, random: Random) -> bytes:
    """A file with some stretches changed, removed, repeated or moved, and some numbers made absurd."""
    data = bytearray(content)
    for _ in range(random.randint(1, 12)):
        if not data:
            break
        start = random.randrange(len(data))
        end = min(len(data), start + random.choice((1, 1, 4, 64, 1024)))
        match random.randrange(6):
            case 0:
                data[start] ^= 1 << random.randrange(8)
            case 1:
                del data[start:end]
            case 2:
                data[start:start] = data[start:end] * random.randint(1, 3)
            case 3:
                data[start:end] = random.randbytes(end - start)
            case 4:
                numbers = list(re.finditer(rb"\d+", bytes(data[start : start + 4096])))
                if numbers:
                    number = random.choice(numbers)
                    data[start + number.start() : start + number.end()] = random.choice(_NUMBERS)
            case _:
                del data[start:]
    return bytes(data)


def mutated_word(content: bytes, random: Random) -> bytes:
    """A Word file with one of its parts changed inside, or the archive itself changed."""
    if random.random() < 0.3:
        return mutated_bytes(content, random)
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    name = random.choice(sorted(parts))
    if random.random() < 0.1:
        del parts[name]
    else:
        parts[name] = _mutated_xml(parts[name], random)
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for part, data in parts.items():
            archive.writestr(part, data)
    return packed.getvalue()


def _mutated_xml(content: bytes, random: Random) -> bytes:
    """XML that mostly stays well formed: elements repeated or removed, numbers and texts changed."""
    if random.random() < 0.3:
        return mutated_bytes(content, random)
    text = content.decode("utf-8", "replace")
    for _ in range(random.randint(1, 6)):
        elements = list(re.finditer(r"<(w:\w+)[^>]*(?:/>|>[^<]*</\1>)", text))
        numbers = list(re.finditer(r'(?<=")-?\d+(?=")', text))
        words = list(re.finditer(r"(?<=<w:t>)[^<]+", text))
        found = random.choice((elements, numbers, words))
        if not found:
            continue
        match = random.choice(found)
        if found is elements:
            new = match[0] * random.choice((0, 2, 5))
        elif found is numbers:
            new = random.choice(_NUMBERS).decode()
        else:
            new = mutated_text(match[0], random).replace("<", "").replace("&", "").replace("\x00", "")
        text = text[: match.start()] + new + text[match.end() :]
    return text.encode("utf-8", "replace")


def mutated_text(text: str, random: Random) -> str:
    """A text with words moved, repeated, cut or joined to date words and odd signs."""
    words = text.split(" ")
    for _ in range(random.randint(1, 5)):
        at = random.randrange(len(words) + 1)
        match random.randrange(5):
            case 0:
                words.insert(at, random.choice(_PIECES))
            case 1:
                words.insert(at, random.choice(_SIGNS))
            case 2:
                del words[at : at + random.randint(1, 3)]
            case 3:
                words[at:at] = words[at : at + 3] * random.randint(1, 20)
            case _:
                random.shuffle(words)
    return random.choice((" ", " ", " ", "", "\n")).join(words)
