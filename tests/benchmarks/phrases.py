"""Median time a phrase, beside general date libraries: ``python -m tests.benchmarks.phrases``.

Every reader gets the absolute phrases of the phrase lists, twice; the second round counts. A library that is not
installed is left out. A reader that declines a phrase is timed all the same: declining costs its user too.
"""

from __future__ import annotations

import importlib.util
import statistics
import time
import warnings
from collections.abc import Callable

from syllabus_io.resolve.parse import parse_phrase
from syllabus_io.resolve.running_text import find_phrases
from tests.dates.phrase_lists import FOLDER, read_cases

__all__ = ["median_milliseconds", "readers"]

_LISTS = ("absolute", "numeric")


def readers() -> dict[str, Callable[[str], object]]:
    """What is compared: ours and every general library that is installed."""
    found: dict[str, Callable[[str], object]] = {"syllabus_io": parse_phrase}
    if importlib.util.find_spec("dateutil"):
        from dateutil.parser import parse

        found["dateutil"] = lambda text: parse(text, fuzzy=False)
    if importlib.util.find_spec("dateparser"):
        import dateparser

        found["dateparser"] = lambda text: dateparser.parse(text, languages=["en"])
    if importlib.util.find_spec("timefhuman"):
        found["timefhuman"] = importlib.import_module("timefhuman").timefhuman
    return found


def median_milliseconds(read: Callable[[str], object], phrases: list[str]) -> float:
    """The median time of a phrase in the second of two rounds."""
    took: list[float] = []
    for _ in range(2):
        took.clear()
        for phrase in phrases:
            start = time.perf_counter()
            try:
                read(phrase)
            except Exception as error:  # a library may raise anything for a phrase it does not know
                del error
            took.append(time.perf_counter() - start)
    return 1000 * statistics.median(took)


def main() -> None:
    """Prints a line a reader, and the time a long text takes."""
    phrases = [case.text for name in _LISTS for case in read_cases(FOLDER / f"{name}.txt")]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for name, read in readers().items():
            print(f"{name:12} {median_milliseconds(read, phrases):8.3f} ms a phrase, {len(phrases)} phrases")
    text = ("The draft is due Oct 7 at 5 pm, one week after the midterm; see chapter 3. " * 300)[:20000]
    find_phrases(text)
    start = time.perf_counter()
    found = find_phrases(text)
    took = 1000 * (time.perf_counter() - start)
    print(f"a text of {len(text)} characters: {took:.0f} ms, {len(found)} phrases")


if __name__ == "__main__":
    main()
