"""Writes the sample outlines: ``python -m tests.generators.make_samples [FOLDER]`` (default: samples).

Tarnbrook College, its courses, people and dates are invented.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

from tests.generators.sample_algebra import write_algebra
from tests.generators.sample_biology import write_biology
from tests.generators.sample_geology import write_geology
from tests.generators.sample_history import write_history
from tests.generators.sample_letters import write_letters
from tests.generators.sample_music import write_music

__all__ = ["SAMPLES", "make_samples"]

SAMPLES: dict[str, Callable[[Path], None]] = {
    "algebra.docx": write_algebra,
    "biology.docx": write_biology,
    "geology.pdf": write_geology,
    "history.docx": write_history,
    "letters.pdf": write_letters,
    "music.pdf": write_music,
}


def make_samples(folder: Path) -> None:
    """Write every sample outline into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, write in SAMPLES.items():
        write(folder / name)


if __name__ == "__main__":
    make_samples(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parents[2] / "samples")
