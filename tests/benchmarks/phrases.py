"""Median time a phrase, beside general date libraries: ``python -m tests.benchmarks.phrases``.

Every reader gets the absolute phrases of the phrase lists, round by round in turns, after one round to warm up; of each
reader the median phrase of its median round counts, in computing time. A reader that declines a phrase is timed all the
same: declining costs its user too. A library that is not installed is named and left out; the extra ``benchmark``
installs them. Then the time running text takes, one full of dates and the words of the sample outlines.
"""

from __future__ import annotations

import importlib
import importlib.util
import statistics
import time
import warnings
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from syllabus_io.extract.document import Line
from syllabus_io.extract.reader import outline_files, read_document
from syllabus_io.resolve.parse import parse_phrase
from syllabus_io.resolve.running_text import find_phrases
from tests.benchmarks.timing import median_seconds
from tests.dates.phrase_lists import FOLDER, read_cases

__all__ = ["Figure", "main", "measure"]

SAMPLES = Path(__file__).parents[2] / "samples"
_LISTS = ("absolute", "numeric")
_ROUNDS = 7


@dataclass(frozen=True, slots=True)
class Figure:
    """What a reader did with the phrases: the median milliseconds of one, and how many it did not decline."""

    name: str
    milliseconds: float
    read: int


def readers() -> dict[str, Callable[[str], object] | None]:
    """What is compared: ours and general libraries, None for those that are not installed."""
    found: dict[str, Callable[[str], object] | None] = {"syllabus-io": parse_phrase}
    for name in ("dateutil", "dateparser", "timefhuman"):
        found[name] = _reader(name) if importlib.util.find_spec(name) else None
    return found


def _reader(name: str) -> Callable[[str], object]:
    match name:
        case "dateutil":
            from dateutil.parser import parse

            return parse
        case "dateparser":
            import dateparser

            return lambda text: dateparser.parse(text, languages=["en"])
    read: Callable[[str], object] = getattr(importlib.import_module(name), name)
    return read


def measure(phrases: Sequence[str], compared: dict[str, Callable[[str], object]]) -> list[Figure]:
    """The figures of the readers, their rounds in turns, so that a busy moment of the machine slows all alike."""
    rounds: dict[str, list[float]] = {name: [] for name in compared}
    taken: dict[str, int] = {}
    for number in range(_ROUNDS + 1):
        for name, read in compared.items():
            took = [_timed(read, phrase) for phrase in phrases]
            taken[name] = sum(done for _, done in took)
            if number:
                rounds[name].append(statistics.median(seconds for seconds, _ in took))
    return [Figure(name, 1000 * statistics.median(found), taken[name]) for name, found in rounds.items()]


def _timed(read: Callable[[str], object], phrase: str) -> tuple[float, bool]:
    start = time.process_time()
    try:
        found = read(phrase)
    except Exception as error:  # a library may raise anything for a phrase it does not know
        del error
        found = None
    return time.process_time() - start, bool(found)


def main() -> None:
    """Prints a line a reader, and a line a text."""
    phrases = [case.text for name in _LISTS for case in read_cases(FOLDER / f"{name}.txt")]
    print(f"{len(phrases)} phrases, median milliseconds a phrase")
    known = readers()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for figure in measure(phrases, {name: read for name, read in known.items() if read is not None}):
            print(f"  {figure.name:12} {figure.milliseconds:8.3f} ms  {figure.read:4} not declined")
    for name in (name for name, read in known.items() if read is None):
        print(f"  {name:12} is not installed and is left out; pip install 'syllabus-io[benchmark]' adds it")
    sentence = "The draft is due Oct 7 at 5 pm, one week after the midterm; see chapter 3. "
    print_throughput("a text full of dates", (sentence * 300)[:20000])
    blocks = (block for path in outline_files([SAMPLES]) for block in read_document(path).blocks)
    print_throughput("the lines of the samples", "\n".join(one.text for one in blocks if isinstance(one, Line)))


def print_throughput(name: str, text: str) -> None:
    """Prints the time in which the phrases of a text are found."""
    milliseconds = 1000 * median_seconds(lambda: find_phrases(text))
    print(f"{name}: {len(text):,} characters, {len(find_phrases(text))} phrases, {milliseconds:.0f} ms,")
    print(f"  {len(text) / milliseconds:.0f} characters a millisecond")


if __name__ == "__main__":
    main()
