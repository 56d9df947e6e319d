"""Changes to files and texts, each decided by a random source, so that a number gives the same input again."""

from __future__ import annotations

import base64
import io
import re
import zipfile
import zlib
from random import Random

__all__ = ["mutated_bytes", "mutated_package", "mutated_pdf", "mutated_term", "mutated_text"]

_NUMBERS = (b"0", b"-1", b"1", b"65535", b"2147483647", b"-2147483648", b"99999999999999999999", b"1e999", b"nan")
_SIGNS = "\x00\x1b\u202e\ufeff\u2028\ud800\U0001f4c5\u0661½ﬁ٣²"
_PIECES = (
    "Oct 6", "10/12", "week 5", "Friday", "noon", "31", "2026", "Feb 30", "13/13/2026", "the last", "every", "of",
    "before", "class 12", "TBA", "-", "–", "/", "(", ")", ":", ";", "\n", "\t", "99999999", "0", "th", "p.m.",
)  # fmt: skip
_STREAM = re.compile(rb"(?<=stream\n).*?(?=endstream)", re.DOTALL)
_ELEMENT = re.compile(r"<((?:\w+:)?\w+)[^<>]*(?:/>|>[^<]*</\1>)")
_ATTRIBUTE_NUMBER = re.compile(r'(?<=")-?\d+(?=")')
_TEXT = re.compile(r"(?<=>)[^<>]+(?=<)")
_TERM_VALUES = (
    "2026-02-30", "0001-01-01", "9999-12-31", "2026-09-01T10:00:00Z", "12:00", "1e400", "nan", "true", "[]", "{}",
    '""', "[[[[]]]]", '"US-OH"', '"Nowhere/Land"', "[2026-12-18, 2026-12-14]", '"\\u202e"', "99999999999999999999",
)  # fmt: skip


def mutated_bytes(content: bytes, random: Random) -> bytes:
    """A file with some stretches changed, removed, repeated or moved, and some numbers made absurd."""
    data = bytearray(content)
    for _ in range(random.choice((1, 1, 2, 4, 12))):
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
                if random.random() < 0.3:
                    del data[start:]
    return bytes(data)


def mutated_pdf(content: bytes, random: Random) -> bytes:
    """A PDF changed anywhere, or only inside its streams, whose drawing orders would else hide behind packed bytes."""
    if random.random() < 0.4:
        return mutated_bytes(content, random)

    def changed(match: re.Match[bytes]) -> bytes:
        if random.random() < 0.3:
            return match[0]
        orders = _unpacked(match[0].strip())
        return mutated_bytes(match[0], random) if orders is None else _packed(mutated_bytes(orders, random))

    return _STREAM.sub(changed, content)


def _unpacked(stream: bytes) -> bytes | None:
    """What a stream holds that is deflated and written in base 85; None for a stream of another kind."""
    try:
        return zlib.decompress(base64.a85decode(stream.removesuffix(b"~>")))
    except (ValueError, zlib.error):
        return None


def _packed(orders: bytes) -> bytes:
    return base64.a85encode(zlib.compress(orders)) + b"~>"


def mutated_package(content: bytes, random: Random) -> bytes:
    """A Word file or workbook with one of its parts changed inside or gone, or the archive itself changed."""
    if random.random() < 0.15:
        return mutated_bytes(content, random)
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    for _ in range(random.randint(1, 2)):
        name = random.choice(sorted(parts))
        if random.random() < 0.1:
            del parts[name]
        else:
            parts[name] = _mutated_xml(parts[name], random)
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as archive:
        for part, data in parts.items():
            archive.writestr(part, data)
    return packed.getvalue()


def _mutated_xml(content: bytes, random: Random) -> bytes:
    """XML that mostly stays well formed: elements repeated or removed, numbers and texts changed."""
    if random.random() < 0.2:
        return mutated_bytes(content, random)
    text = content.decode("utf-8", "replace")
    for _ in range(random.randint(1, 8)):
        pattern = random.choice((_ELEMENT, _ATTRIBUTE_NUMBER, _TEXT))
        match = _some_match(pattern, text, random)
        if match is None:
            continue
        if pattern is _ELEMENT:
            new = match[0] * random.choice((0, 2, 5))
        elif pattern is _ATTRIBUTE_NUMBER or random.random() < 0.3:
            new = random.choice(_NUMBERS).decode()
        else:
            new = mutated_text(match[0], random).replace("<", "").replace("&", "").replace("\x00", "")
        text = text[: match.start()] + new + text[match.end() :]
    return text.encode("utf-8", "replace")


def _some_match(pattern: re.Pattern[str], text: str, random: Random) -> re.Match[str] | None:
    """A match after a random place; listing all of them would take most of the run on a large part."""
    return pattern.search(text, random.randrange(len(text) + 1)) or pattern.search(text)


def mutated_term(content: bytes, random: Random) -> bytes:
    """A term file changed anywhere, or with values that are well formed and absurd."""
    if random.random() < 0.4:
        return mutated_bytes(content, random)
    lines = content.decode().splitlines()
    for _ in range(random.randint(1, 3)):
        at = random.randrange(len(lines))
        name, equals, _ = lines[at].partition("=")
        if equals:
            lines[at] = f"{name}= {random.choice(_TERM_VALUES)}"
        else:
            lines.insert(at, random.choice(lines))
    return "\n".join(lines).encode()


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
