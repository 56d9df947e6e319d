"""Whatever an expression says, evaluation gives an answer, and no date outside the term goes without a reason."""

from __future__ import annotations

from datetime import date

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from syllabus_io.resolve.evaluate import ReadingContext, evaluate, expand
from syllabus_io.resolve.expression import (
    Anchor,
    CalendarMonth,
    CalendarWeek,
    ClassNear,
    DateExpression,
    DayInMonth,
    DayOf,
    Direction,
    Every,
    Frequency,
    FullDate,
    IsoWeek,
    MeetingNumber,
    MonthDay,
    MonthPart,
    NamedDay,
    NthWeekday,
    NumericDate,
    Offset,
    Part,
    PartOf,
    Reference,
    RotationDay,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.formula import write_end_formula, write_formula
from syllabus_io.resolve.records import Ambiguous, Resolved, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.dates.calendars import CALENDARS
from tests.resolve.answers import NAMES

NUMBERS = st.one_of(st.integers(-30, 60), st.sampled_from([0, 1, -1, 400, -400, 10**6, -(10**6)]))
DAYS = st.one_of(st.dates(date(2026, 1, 1), date(2028, 12, 31)), st.dates())
WEEKDAYS = st.sampled_from(list(Weekday))
MAYBE_WEEKDAY = st.one_of(st.none(), WEEKDAYS)
MONTHS = st.integers(1, 12)
YEARS = st.one_of(st.none(), st.integers(2025, 2029), st.sampled_from([1, 9999]))
KINDS = st.sampled_from(["", "lab", "lecture", "classes", "choir"])
DAY_NAMES = st.one_of(
    st.sampled_from(["Labor Day", "spring break", "the break", "Easter", "Thanksgiving", "", "observed", "Diwali"]),
    st.text(max_size=20),
)

LEAVES: st.SearchStrategy[DateExpression] = st.one_of(
    st.builds(FullDate, DAYS, MAYBE_WEEKDAY),
    st.builds(MonthDay, MONTHS, st.integers(1, 31), MAYBE_WEEKDAY),
    st.builds(NumericDate, st.integers(1, 31), st.integers(1, 31), YEARS, MAYBE_WEEKDAY),
    st.builds(DayInMonth, st.integers(1, 31), MAYBE_WEEKDAY, st.one_of(st.none(), MONTHS)),
    st.builds(WholeMonth, MONTHS, YEARS),
    st.builds(MonthPart, st.sampled_from(list(Part)), MONTHS, YEARS),
    st.builds(Week, NUMBERS),
    st.builds(IsoWeek, st.integers(0, 60), YEARS),
    st.builds(NthWeekday, st.integers(-6, 6), WEEKDAYS, MONTHS, YEARS),
    st.builds(MeetingNumber, NUMBERS, KINDS),
    st.builds(RotationDay, st.sampled_from(["A", "B", "1", "x"]), NUMBERS),
    st.builds(NamedDay, DAY_NAMES, YEARS),
    st.builds(TermPoint, st.sampled_from(list(TermEdge))),
    st.builds(Anchor, st.sampled_from(["the midterm", "essay", ""])),
    st.just(Reference()),
)


def _extended(inner: st.SearchStrategy[DateExpression]) -> st.SearchStrategy[DateExpression]:
    directions, units = st.sampled_from(list(Direction)), st.sampled_from(list(Unit))
    return st.one_of(
        st.builds(WeekOf, inner),
        st.builds(CalendarWeek, inner, NUMBERS),
        st.builds(CalendarMonth, inner, NUMBERS),
        st.builds(DayOf, inner, NUMBERS),
        st.builds(PartOf, st.sampled_from(list(Part)), inner),
        st.builds(WeekdayIn, inner, WEEKDAYS, st.integers(-6, 60)),
        st.builds(WeekdayNear, inner, WEEKDAYS, directions, NUMBERS),
        st.builds(ClassNear, inner, directions, NUMBERS, MAYBE_WEEKDAY, KINDS),
        st.builds(RotationDay, st.sampled_from(["A", "1"]), NUMBERS, inner),
        st.builds(Offset, inner, NUMBERS, units),
        st.builds(Span, inner, inner),
    )


EXPRESSIONS = st.recursive(LEAVES, _extended, max_leaves=4)
RULES = st.builds(
    Every,
    st.sampled_from(list(Frequency)),
    st.integers(1, 60),
    st.lists(WEEKDAYS, max_size=3).map(tuple),
    st.sampled_from([(), (1,), (-1,), (1, -1)]),
    st.sampled_from([(), (1,), (15, 30), (-1,)]),
    st.sampled_from([(), (2,), (9, 10)]),
    st.one_of(st.none(), EXPRESSIONS),
    st.one_of(st.none(), EXPRESSIONS),
    st.one_of(st.none(), st.integers(0, 1000)),
    st.lists(EXPRESSIONS, max_size=1).map(tuple),
    st.integers(-3, 3),
    st.booleans(),
)
PLACES = st.one_of(st.none(), st.sampled_from(list(CALENDARS.values())))
CONTEXTS = st.builds(
    ReadingContext,
    st.sampled_from([None, "mdy", "dmy"]),
    st.one_of(st.none(), DAYS),
    st.sampled_from([{}, {"Midterm": (date(2026, 10, 6), date(2026, 10, 6))}]),
    st.sampled_from([(), (2026,), (2027, 2026)]),
    st.sampled_from([None, "US-OH", "GB-ENG"]),
)
QUICK = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@QUICK
@given(EXPRESSIONS, PLACES, CONTEXTS)
def test_every_expression_gets_an_answer_with_what_it_needs(
    expression: DateExpression, calendar: TermCalendar | None, context: ReadingContext
) -> None:
    found = evaluate(expression, calendar, context)
    match found:
        case Resolved():
            assert found.end_date is None or found.end_date > found.date
            if calendar is not None and not calendar.holds(found.date, found.end_date):
                assert any("outside the term" in reason for reason in found.reasons), f"{found} goes unmarked"
        case Ambiguous():
            assert len(found.candidates) >= 2 and found.question
            for candidate in found.candidates:
                if calendar is not None and not calendar.holds(candidate.date, candidate.end_date):
                    assert "outside the term" in candidate.reason, f"{candidate} goes unmarked"
        case Unresolved():
            assert found.reason and found.settle


@QUICK
@given(EXPRESSIONS, PLACES, CONTEXTS)
def test_what_evaluation_gives_back_means_the_same_day(
    expression: DateExpression, calendar: TermCalendar | None, context: ReadingContext
) -> None:
    found = evaluate(expression, calendar, context)
    if isinstance(found, Resolved):
        again = evaluate(found.expression, calendar, ReadingContext(anchors=context.anchors, region=context.region))
        assert isinstance(again, Resolved), f"{found.expression} is {again}"
        assert (again.date, again.end_date) == (found.date, found.end_date)


@QUICK
@given(EXPRESSIONS)
def test_a_formula_is_written_or_declined(expression: DateExpression) -> None:
    for formula in (write_formula(expression, NAMES), write_end_formula(expression, NAMES)):
        assert formula is None or (formula.startswith("IFERROR(") and formula.count("(") == formula.count(")"))


@settings(QUICK, max_examples=80)
@given(RULES, PLACES, CONTEXTS)
def test_every_rule_gives_days_in_order(rule: Every, calendar: TermCalendar | None, context: ReadingContext) -> None:
    days = expand(rule, calendar, context)
    assert list(days) == sorted(set(days))
    assert rule.count is None or len(days) <= rule.count
