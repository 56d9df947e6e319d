"""The parser as a whole: it never crashes, never hangs, keeps places, and every rule is in use."""

from __future__ import annotations

import random
import time
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from syllabus_io.resolve.expression import ClockTime, FullDate, MonthDay, Weekday
from syllabus_io.resolve.grammar import Grammar
from syllabus_io.resolve.language import GRAMMAR, NEVER, PHRASE, RULES
from syllabus_io.resolve.matching import Parse
from syllabus_io.resolve.parse import parse_phrase
from syllabus_io.resolve.rules import Rule, Scope, pass_on
from syllabus_io.resolve.running_text import find_phrases
from syllabus_io.resolve.tokens import full_year, plain_text
from tests.generators import date_language

_WORDS = sorted({word for rule in RULES for example in rule.examples for word in example.split()})
_LIMIT_SECONDS = 0.05
#: Machines that run tests are slower and busier than those of users; a hang is far beyond this.
_SLACK = 10


def _rules_used(text: str) -> set[int]:
    tree, tokens = GRAMMAR.tree(Scope.WHOLE), GRAMMAR.lexicon.tokens(text)
    reading = Parse(tree, tokens)
    whole = [reading.matches(tree.slot(slot), 0).get(len(tokens)) for slot in (PHRASE, NEVER)]
    return {id(rule) for match in whole if match is not None for rule in match.rules()}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: f"{rule.gives} {rule.name}")
def test_every_rule_has_examples_that_use_it(rule: Rule) -> None:
    assert rule.examples, f"the rule {rule.name!r} has no example"
    for example in rule.examples:
        assert id(rule) in _rules_used(example), f"the rule {rule.name!r} has no part in {example!r}"


def test_rule_names_are_unique() -> None:
    twice = [name for name, count in Counter(rule.name for rule in RULES).items() if count > 1]
    assert not twice


def test_the_page_of_the_date_language_is_fresh() -> None:
    assert date_language.PAGE.read_text(encoding="utf-8") == date_language.make_page(), (
        "docs/date-language.md is stale; run python -m tests.generators.date_language"
    )


@given(st.text(max_size=300))
@settings(max_examples=300, deadline=None)
def test_any_text_parses_or_declines(text: str) -> None:
    parse_phrase(text)
    for weak in (False, True):
        _check_places(text, weak)


@given(st.lists(st.sampled_from(_WORDS), max_size=30))
@settings(max_examples=400, deadline=None)
def test_any_row_of_date_words_parses_or_declines(words: list[str]) -> None:
    text = " ".join(words)
    parse_phrase(text)
    _check_places(text, weak=True)


def _check_places(text: str, weak: bool) -> None:
    before = 0
    for phrase in find_phrases(text, weak):
        assert before <= phrase.start < phrase.end <= len(text), f"places overlap in {text!r}"
        assert text[phrase.start : phrase.end] == phrase.text
        assert phrase.rules, "a phrase says by which rules it was read"
        before = phrase.end


@pytest.mark.parametrize(
    "text",
    [
        "the day after " * 18,
        "every Friday and " * 14,
        "1/" * 120,
        "1-" * 120,
        "1 " * 120,
        "Oct " * 60,
        "first last second " * 13,
        "every every every " * 13,
        "5pm to " * 34,
        "(" * 240,
        "week of " * 30,
        "Monday, " * 30,
        "the " * 60,
        "a week after the week before " * 8,
        "0" * 240,
        "12:30:" * 40,
    ],
    ids=lambda text: str(text)[:20],
)
def test_no_text_takes_long(text: str) -> None:
    parse_phrase(text)  # what is worked out once for a pair of words is not counted
    start = time.perf_counter()
    parse_phrase(text)
    assert time.perf_counter() - start < _LIMIT_SECONDS * _SLACK


def test_a_long_row_of_date_words_takes_time_in_step_with_its_length() -> None:
    chosen = random.Random(7)
    text = " ".join(chosen.choice(_WORDS) for _ in range(3000))
    find_phrases(text)
    start = time.perf_counter()
    find_phrases(text)
    assert time.perf_counter() - start < 40 * _LIMIT_SECONDS * _SLACK


def test_long_texts_are_no_phrase() -> None:
    assert parse_phrase("October 12" + " " * 300) is None


def test_two_digit_years_follow_posix() -> None:
    # POSIX.1-2017, strptime: %y 69 to 99 are 1969 to 1999, 00 to 68 are 2000 to 2068.
    assert [full_year(year) for year in (0, 25, 68, 69, 99)] == [2000, 2025, 2068, 1969, 1999]


def test_plain_text_keeps_every_place() -> None:
    text = "Oct 12ᵗʰ – ５ｐｍ “noon”"
    assert plain_text(text) == 'Oct 12th - 5pm "noon"'
    assert len(plain_text(text)) == len(text)


def test_a_phrase_names_its_rules_outermost_first() -> None:
    phrase = parse_phrase("the Friday of week 5")
    assert phrase is not None
    assert phrase.rules.index("<weekday> of <week>") < phrase.rules.index("week <number>")


def test_next_before_a_weekday_is_doubtful() -> None:
    phrase = parse_phrase("next Friday")
    assert phrase is not None
    assert any("next" in doubt for doubt in phrase.doubts)


@pytest.mark.parametrize(
    ("text", "doubtful"), [("Oct 5, 8:00", True), ("Oct 5, 8:00 am", False), ("Oct 5, 08:00", False)]
)
def test_a_time_that_may_be_morning_or_evening_is_doubtful(text: str, doubtful: bool) -> None:
    phrase = parse_phrase(text)
    assert phrase is not None
    assert phrase.time == ClockTime(8)
    assert bool(phrase.doubts) == doubtful


def test_midnight_is_told_from_zero_hours() -> None:
    midnight, zero = parse_phrase("Oct 5 at midnight"), parse_phrase("Oct 5 at 0:00")
    assert midnight is not None
    assert zero is not None
    assert midnight.time == ClockTime(0, from_midnight=True)
    assert zero.time == ClockTime(0)


def test_a_weekday_found_in_a_row_belongs_to_its_week() -> None:
    assert find_phrases("Reading for Friday") == ()
    (weekday,) = find_phrases("Reading for Friday", weak=True)
    assert weekday.expression is not None
    assert _written(weekday.expression) == "weekday_in(calendar_week(reference(), 0), FR)"


def _written(expression: object) -> str:
    from syllabus_io.resolve.expression import write_expression

    return write_expression(expression)  # type: ignore[arg-type]  # any expression of a phrase


@pytest.mark.parametrize(
    "text", ["February 30", "April 31, 2025", "13/13", "0/5", "Feb 29, 2025", "Week 75", "25:00", "13am"]
)
def test_days_and_times_that_no_calendar_has_are_declined(text: str) -> None:
    phrase = parse_phrase(text)
    assert phrase is None


def test_two_weekdays_for_one_day_are_declined() -> None:
    assert parse_phrase("Monday, October 5 (Tuesday)") is None


def test_a_weekday_is_kept_to_be_checked() -> None:
    phrase = parse_phrase("Monday, October 12, 2025")
    assert phrase is not None
    assert isinstance(phrase.expression, FullDate)
    assert phrase.expression.weekday is Weekday.MO  # a Sunday: cross-checking says so, not the parser


def test_line_breaks_count_as_blanks_but_an_empty_line_parts() -> None:
    broken = parse_phrase("Aug.\n28")
    assert broken is not None
    assert broken.expression == MonthDay(8, 28)
    assert parse_phrase("Aug.\n\n28") is None


def test_web_and_mail_addresses_hold_no_dates() -> None:
    text = "See https://example.org/2025-10-12 or write to a.b-10-12@example.org before Oct 5."
    assert [phrase.text for phrase in find_phrases(text)] == ["Oct 5"]


def test_a_grammar_names_the_slot_that_no_rule_gives() -> None:
    with pytest.raises(LookupError, match="<nothing>"):
        Grammar([Rule("a", "<nothing>", pass_on, "<phrase>", ("a",))])


@pytest.mark.slow
def test_known_phrases_are_fast() -> None:
    """The median time a known phrase, measured warm, in one run; printed by -s."""
    phrases = [example for rule in RULES for example in rule.examples]
    for text in phrases:
        parse_phrase(text)
    took: list[float] = []
    for text in phrases:
        start = time.perf_counter()
        parse_phrase(text)
        took.append(time.perf_counter() - start)
    median = sorted(took)[len(took) // 2]
    print(f"{1000 * median:.3f} ms a phrase")
    assert median < 0.0001 * _SLACK
