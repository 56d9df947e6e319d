"""Pictures of places in PDF files, drawn in a process of their own, within limits."""

from __future__ import annotations

import base64
import json
from collections.abc import Mapping, Sequence
from pathlib import Path

from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.isolation.process import ReadingProcess
from syllabus_io.provenance import PagePlace

__all__ = ["draw_pictures"]

_PNG = b"\x89PNG\r\n\x1a\n"


def draw_pictures(
    places: Mapping[Path, Sequence[PagePlace]], limits: ReadingLimits = DEFAULT_LIMITS
) -> dict[tuple[Path, PagePlace], bytes]:
    """A PNG picture for each place that can be drawn. A file whose pages cannot be drawn goes without pictures: they
    help to compare, and nothing depends on them."""
    drawn: dict[tuple[Path, PagePlace], bytes] = {}
    process = ReadingProcess(limits)
    try:
        for path, wanted in places.items():
            reply = process.read(path, wanted) if wanted else "[]"
            if isinstance(reply, str):
                pictures = [base64.b64decode(text) for text in json.loads(reply)]
                for place, picture in zip(wanted, pictures, strict=True):
                    if picture.startswith(_PNG):
                        drawn[path, place] = picture
    finally:
        process.close()
    return drawn
