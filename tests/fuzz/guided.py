"""A run guided by what code each input reaches: ``python -m tests.fuzz.guided KIND SECONDS [FOLDER]``.

KIND is phrase, term or word. Inputs that reach new code are kept in FOLDER and changed further. It needs the library
``atheris`` (an extra of its own, ``fuzz``, for Linux). A find ends the run; the library keeps the input in a file named
``crash-...`` in the current folder, and the input, made small, becomes a test in test_finds.py.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["syllabus_io"]):
    from tests.fuzz import originals
    from tests.fuzz.targets import check_file, check_phrase, check_term

__all__ = ["main"]


def _on_file(check: Callable[[Path], object], ending: str, folder: Path) -> Callable[[bytes], None]:
    """Gives an input to something that takes a file."""
    path = folder / f"input{ending}"

    def run(content: bytes) -> None:
        path.write_bytes(content)
        check(path)

    return run


def _phrase(content: bytes) -> None:
    check_phrase(content.decode("utf-8", "replace")[:2_000])


def main() -> None:
    """Runs until the time is up or something is found."""
    kind, seconds = sys.argv[1], int(sys.argv[2])
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        target, first = {
            "phrase": (_phrase, [phrase.encode() for phrase in originals.PHRASES]),
            "term": (_on_file(check_term, ".toml", folder), list(originals.term_originals())),
            "word": (_on_file(check_file, ".docx", folder), list(originals.word_originals()[:1])),
        }[kind]
        corpus = Path(sys.argv[3]) if len(sys.argv) > 3 else folder / "reached"
        corpus.mkdir(parents=True, exist_ok=True)
        for number, content in enumerate(first):
            (corpus / f"original-{number}").write_bytes(content)
        atheris.Setup(
            [sys.argv[0], f"-max_total_time={seconds}", "-timeout=20", "-rss_limit_mb=3000", str(corpus)], target
        )
        atheris.Fuzz()


if __name__ == "__main__":
    main()
