"""PDF files made to hang or exhaust a reader, built object by object (ISO 32000-1, chapters 7 and 8)."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Sequence

__all__ = ["HEAVY", "LIGHT", "page_with", "pdf"]

_FONT = b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"
_RESOURCES = b"/Resources << /Font << /F1 4 0 R >> %s>>"


def pdf(objects: Sequence[bytes], trailer: bytes = b"") -> bytes:
    """A file of these objects, numbered from 1, the first of them the catalogue, with a sound cross-reference table."""
    out = bytearray(b"%PDF-1.7\n")
    starts = []
    for number, content in enumerate(objects, start=1):
        starts.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, content)
    table = len(out)
    out += b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1)
    out += b"".join(b"%010d 00000 n \n" % start for start in starts)
    out += b"trailer\n<< /Size %d /Root 1 0 R %s>>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, trailer, table)
    return bytes(out)


def stream(content: bytes, entries: bytes = b"") -> bytes:
    """A stream, deflated."""
    packed = zlib.compress(content, 9)
    return _stream(packed, b"/Filter /FlateDecode " + entries)


def _stream(content: bytes, entries: bytes = b"") -> bytes:
    return b"<< /Length %d %s>>\nstream\n%s\nendstream" % (len(content), entries, content)


def page_with(content: bytes, more: Sequence[bytes] = (), resources: bytes = b"", packed: bool = True) -> bytes:
    """A file of one page with this content stream, and more objects from number 6 on."""
    return pdf(
        [
            b"<< /Type /Catalog /Pages 2 0 R >>",
            b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
            b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 5 0 R " + _RESOURCES % resources + b" >>",
            _FONT,
            stream(content) if packed else _stream(content),
            *more,
        ]
    )


WORDS = b"BT /F1 12 Tf 72 700 Td (Soil Science 101, essay due October 6, 2026) Tj ET\n"


def nested_forms() -> bytes:
    """Forms that each call the next one twice, 24 deep: sixteen million calls from five kilobytes."""
    depth = 24
    forms = [
        stream(
            b"/X Do /X Do",
            b"/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Resources << /XObject << /X %d 0 R >> >> " % (number + 7),
        )
        for number in range(depth - 1)
    ]
    forms.append(stream(WORDS, b"/Type /XObject /Subtype /Form /BBox [0 0 9 9] " + _RESOURCES % b"" + b" "))
    return page_with(WORDS + b"/X Do", forms, b"/XObject << /X 6 0 R >> ")


def form_calling_itself() -> bytes:
    """A form that draws itself."""
    form = stream(b"/X Do", b"/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Resources << /XObject << /X 6 0 R >> >> ")
    return page_with(WORDS + b"/X Do", [form], b"/XObject << /X 6 0 R >> ")


def deflated_blanks(megabytes: int = 600) -> bytes:
    """Blanks without end, a thousand times smaller when packed."""
    packer = zlib.compressobj(9)
    block = b" " * 1_000_000
    packed = packer.compress(WORDS) + b"".join(packer.compress(block) for _ in range(megabytes)) + packer.flush()
    sound = page_with(b"")
    return _with_stream(sound, packed)


def deflated_twice() -> bytes:
    """The same, deflated twice over: a few kilobytes."""
    packer = zlib.compressobj(9)
    block = b" " * 1_000_000
    packed = b"".join(packer.compress(block) for _ in range(600)) + packer.flush()
    return _with_stream(page_with(b""), zlib.compress(packed, 9), b"[/FlateDecode /FlateDecode]")


def _with_stream(sound: bytes, packed: bytes, filters: bytes = b"/FlateDecode") -> bytes:
    """The file with the content stream of its page replaced; its cross-reference table no longer fits, as in damage."""
    head, _, rest = sound.partition(b"5 0 obj\n")
    tail = rest[rest.index(b"endobj") :]
    return head + b"5 0 obj\n" + _stream(packed, b"/Filter " + filters + b" ") + b"\n" + tail


def many_letters() -> bytes:
    """520,000 letters on one page."""
    return page_with(b"BT /F1 1 Tf " + b"1 0 0 1 72 700 Tm (%s) Tj " % (b"x" * 1000) * 520 + b"ET")


def many_lines() -> bytes:
    """20,000 ruled lines on one page."""
    return page_with(WORDS + b"".join(b"72 %d m 500 %d l S\n" % (n % 792, n % 792) for n in range(20_000)))


def large_grid() -> bytes:
    """A grid of 110 by 80 drawn cells."""
    across = b"".join(b"20 %d m 580 %d l S\n" % (20 + 6 * n, 20 + 6 * n) for n in range(111))
    down = b"".join(b"%d 20 m %d 680 l S\n" % (20 + 7 * n, 20 + 7 * n) for n in range(81))
    return page_with(across + down + WORDS)


def nested_arrays() -> bytes:
    """200,000 arrays inside one another."""
    return page_with(b"[" * 200_000 + b"]" * 200_000 + WORDS)


def nested_arrays_in_catalogue() -> bytes:
    """Arrays inside one another where the page tree should be."""
    return pdf([b"<< /Type /Catalog /Pages " + b"[" * 100_000 + b"]" * 100_000 + b" >>"])


def deep_graphics_states() -> bytes:
    """Saved graphics states that are never restored."""
    return page_with(b"q " * 300_000 + WORDS)


def cross_reference_loop() -> bytes:
    """A cross-reference table whose earlier version is itself."""
    sound = page_with(WORDS)
    start = sound.rindex(b"startxref")
    table = int(sound[start:].split()[1])
    return sound.replace(b"/Root 1 0 R >>", b"/Root 1 0 R /Prev %d >>" % table)


def length_loop() -> bytes:
    """A stream whose length is said to stand in that very stream."""
    return pdf(
        [
            b"<< /Type /Catalog /Pages 2 0 R >>",
            b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
            b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 5 0 R " + _RESOURCES % b"" + b" >>",
            _FONT,
            b"<< /Length 5 0 R >>\nstream\n" + WORDS + b"\nendstream",
        ]
    )


def page_tree_loop() -> bytes:
    """Pages that are their own children."""
    return pdf([b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Kids [2 0 R 2 0 R 2 0 R] /Count 9 >>"])


def wide_page_tree() -> bytes:
    """A page tree that leads to one page a hundred thousand times."""
    kids = b"3 0 R " * 100_000
    return pdf(
        [
            b"<< /Type /Catalog /Pages 2 0 R >>",
            b"<< /Type /Pages /Kids [" + kids + b"] /Count 100000 >>",
            b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 5 0 R " + _RESOURCES % b"" + b" >>",
            _FONT,
            stream(WORDS),
        ]
    )


def unterminated_inline_image() -> bytes:
    """An inline image that never ends."""
    return page_with(WORDS + b"BI /W 9 /H 9 /BPC 8 /CS /G ID " + b"\x00" * 1_000_000, packed=False)


def huge_page() -> bytes:
    """A page larger than any sheet, with letters far apart."""
    return page_with(WORDS).replace(b"[0 0 612 792]", b"[0 0 9000000000000000 9000000000000000]")


def upside_down_page() -> bytes:
    """A page whose corners are not numbers that make a box."""
    return page_with(WORDS).replace(b"[0 0 612 792]", b"[9 nan (x)]")


def truncated() -> bytes:
    """A sound file, cut in the middle."""
    sound = page_with(WORDS * 50)
    return sound[: len(sound) // 2]


def junk() -> bytes:
    """The right first bytes, and then nothing sensible."""
    return b"%PDF-1.7\n" + bytes(range(256)) * 200


LIGHT: tuple[Callable[[], bytes], ...] = (
    nested_forms,
    form_calling_itself,
    large_grid,
    cross_reference_loop,
    length_loop,
    page_tree_loop,
    unterminated_inline_image,
    huge_page,
    upside_down_page,
    truncated,
    junk,
    nested_arrays_in_catalogue,
)
HEAVY: tuple[Callable[[], bytes], ...] = (
    deflated_blanks,
    deflated_twice,
    many_letters,
    many_lines,
    nested_arrays,
    deep_graphics_states,
    wide_page_tree,
)
