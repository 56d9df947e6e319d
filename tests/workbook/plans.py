"""Plans built from records, so that sheets can be tested without reading a file. Everything in them is invented."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, time, timedelta

from syllabus_io.outline.records import (
    Category,
    CourseFacts,
    GradeStep,
    GradingScheme,
    Item,
    Kind,
    Mention,
    Outline,
    UndatedWork,
    Weight,
)
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import (
    ClockTime,
    DateExpression,
    FullDate,
    MeetingNumber,
    Offset,
    Phrase,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
)
from syllabus_io.resolve.records import (
    Ambiguous,
    Candidate,
    Certainty,
    Resolution,
    Resolved,
    ResolvedCourse,
    ResolvedItem,
    ResolvedTerm,
    Unresolved,
)
from syllabus_io.resolve.term import DayOff, Meeting, Term

MO, TU, WE, TH, FR = Weekday.MO, Weekday.TU, Weekday.WE, Weekday.TH, Weekday.FR

TERM = Term(
    name="Autumn 2026",
    first_day=date(2026, 8, 31),
    last_day=date(2026, 12, 11),
    finals=(date(2026, 12, 14), date(2026, 12, 18)),
    break_weeks_count=False,
    no_class=(
        DayOff("Harbour Day", date(2026, 9, 7), date(2026, 9, 7)),
        DayOff("Autumn break", date(2026, 10, 15), date(2026, 10, 16)),
        DayOff("Storm week", date(2026, 11, 23), date(2026, 11, 27)),
    ),
)


def make_item(
    course: str,
    kind: Kind,
    title: str,
    when: date | Resolution,
    *,
    expression: DateExpression | None = None,
    words: str = "",
    context: str = "",
    clock: ClockTime | None = None,
    end: date | None = None,
    weight: Weight | None = None,
    category: str | None = None,
    covers: str | None = None,
    reasons: tuple[str, ...] = (),
    page: int | None = 3,
) -> ResolvedItem:
    """An item with its date: a plain day, or the day an expression gives, or any resolution."""
    tree = expression
    if isinstance(when, date):
        tree = expression or FullDate(when)
        certainty = Certainty.DERIVED if expression else Certainty.STATED
        resolution: Resolution = Resolved(when, end, certainty, tree, "", reasons)
        words = words or f"{when:%a %b} {when.day}"
    else:
        resolution = when
    mention = Mention(
        Phrase(words, 0, len(words), tree), Place("outline.pdf", page), words, context or f"{words}: {title}"
    )
    item = Item(kind, title, (mention,), category=category, weight=weight, covers=covers)
    return ResolvedItem(
        f"{course}/{kind.value}/{title}".lower(), kind, title, resolution, mention, item, clock, "", weight
    )


def make_course(
    facts: CourseFacts,
    items: Sequence[ResolvedItem] = (),
    *,
    key: str | None = None,
    grading: GradingScheme = GradingScheme(),  # noqa: B008  # a frozen record
    undated: tuple[UndatedWork, ...] = (),
    no_class: tuple[DayOff, ...] = (),
) -> ResolvedCourse:
    """A course whose outline holds the items given."""
    outline = Outline(f"{facts.code}.pdf", "0" * 64, 6, facts, tuple(one.item for one in items), (), grading, undated)
    return ResolvedCourse(key or facts.code or "Course", outline, tuple(items), no_class, undated)


SCALE = tuple(
    GradeStep(letter, minimum)
    for letter, minimum in (
        ("A", 93),
        ("A-", 90),
        ("B+", 87),
        ("B", 83),
        ("B-", 80),
        ("C+", 77),
        ("C", 73),
        ("C-", 70),
        ("D", 60),
        ("F", 0),
    )
)


def biology() -> ResolvedCourse:
    """Weighted categories, a dropped quiz, relative and open dates, a window in the examination period."""
    key = "BIO 110"
    end_of_day = ClockTime(23, 59)
    quizzes = [
        make_item(
            key,
            Kind.QUIZ,
            f"Quiz {number}",
            date(2026, 9, 8) + timedelta(weeks=number - 1),
            expression=WeekdayIn(Week(number + 1), TU),
            words=f"Tuesday of week {number + 1}",
            clock=ClockTime(10),
            category="Quizzes",
        )
        for number in range(1, 6)
    ]
    labs = [
        make_item(
            key,
            Kind.ASSIGNMENT,
            f"Lab report {number}: what lives between the tide marks",
            day,
            clock=end_of_day,
            category="Lab reports",
        )
        for number, day in enumerate((date(2026, 9, 18), date(2026, 10, 2), date(2026, 10, 30), date(2026, 11, 20)), 1)
    ]
    either = Ambiguous(
        (
            Candidate(date(2026, 10, 9), None, "month first"),
            Candidate(date(2026, 9, 10), None, "day first"),
        ),
        "“10/9” can be 9 October or 10 September: which order of day and month does the outline use?",
        FullDate(date(2026, 10, 9)),
    )
    exams = [
        make_item(
            key,
            Kind.EXAM,
            "Midterm exam",
            date(2026, 10, 6),
            clock=ClockTime(10),
            weight=Weight(percent=20),
            category="Exams",
            covers="Units 1 to 4",
        ),
        make_item(
            key,
            Kind.EXAM,
            "Final exam",
            date(2026, 12, 14),
            end=date(2026, 12, 18),
            expression=TermPoint(TermEdge.FINALS),
            words="during the examination period",
            weight=Weight(percent=25),
            category="Exams",
            covers="Everything",
            reasons=("The outline gives the examination period, not the day.",),
        ),
    ]
    others = [
        make_item(key, Kind.PRESENTATION, "Field notes talk", either, words="10/9", context="Field notes talk: 10/9"),
        make_item(
            key,
            Kind.PROJECT,
            "Shore survey",
            date(2026, 11, 30),
            expression=WeekdayIn(Week(13), MO),
            words="Monday of week 13",
            weight=Weight(percent=15),
        ),
        make_item(
            key,
            Kind.READING,
            "Chapter 7, The strandline",
            date(2026, 10, 1),
            expression=MeetingNumber(10, "lecture"),
            words="before lecture 10",
        ),
    ]
    grading = GradingScheme(
        categories=(
            Category("Exams", 45),
            Category("Quizzes", 15, count=6, drop=1),
            Category("Lab reports", 20, count=4),
            Category("Shore survey", 15),
            Category("Participation", 5),
        ),
        scale=SCALE,
        late_policy="A late report loses 10 % a day.",
        rules=("You must pass the final exam to pass the course.",),
    )
    facts = CourseFacts(
        code="BIO 110",
        title="Life of the Tidal Shore",
        instructor="Dr. Maren Holloway",
        email="holloway@alderbay.example",
        office="Kelp House 12",
        office_hours="Wednesday 1 to 2 pm",
        room="Kelp House 101",
        credits=4,
        meetings=(
            Meeting((TU, TH), time(10), time(11, 15), "Kelp House 101"),
            Meeting((WE,), time(14), time(16, 50), "Wet Lab 2", "lab"),
        ),
    )
    undated = (
        UndatedWork(
            Kind.ASSIGNMENT,
            "Reflection on the field trip",
            "The outline names it without a date.",
            Place("BIO 110.pdf", 5),
            "A one-page reflection on the field trip counts toward participation.",
            category="Participation",
        ),
    )
    return make_course(facts, [*quizzes, *labs, *exams, *others], grading=grading, undated=undated)


def history() -> ResolvedCourse:
    """Percent for each item, no categories; dates by week; a paper counted from another day."""
    key = "HIS 204"
    items = [
        make_item(
            key,
            Kind.ASSIGNMENT,
            "Essay 1",
            date(2026, 10, 2),
            expression=WeekdayIn(Week(5), FR),
            words="Friday of week 5",
            clock=ClockTime(17),
            weight=Weight(percent=20),
        ),
        make_item(
            key,
            Kind.ASSIGNMENT,
            "Essay 2",
            date(2026, 11, 6),
            expression=WeekdayIn(Week(10), FR),
            words="Friday of week 10",
            clock=ClockTime(17),
            weight=Weight(percent=30),
        ),
        make_item(key, Kind.EXAM, "Midterm", date(2026, 10, 6), weight=Weight(percent=20), covers="Weeks 1 to 5"),
        make_item(
            key,
            Kind.EXAM,
            "Map test",
            date(2026, 10, 15),
            reasons=("It falls on a day off (Autumn break).",),
            weight=Weight(percent=5),
        ),
        make_item(
            key,
            Kind.ASSIGNMENT,
            "Archive paper",
            date(2026, 12, 4),
            expression=Offset(TermPoint(TermEdge.LAST_DAY), -1, Unit.WEEK),
            words="one week before the last day of classes",
            weight=Weight(percent=25),
        ),
        make_item(
            key,
            Kind.READING,
            "Letters of a harbour pilot",
            Unresolved("“when we reach it” names no day.", "ask the instructor"),
            words="when we reach it",
        ),
    ]
    facts = CourseFacts(
        code="HIS 204",
        title="Harbours and Hinterlands: Trade on a Cold Coast, 1400 to 1900",
        instructor="Prof. Idris Vane",
        email="vane@alderbay.example",
        credits=3,
        meetings=(Meeting((MO, WE, FR), time(9), time(9, 50), "Chart Room"),),
    )
    return make_course(facts, items, grading=GradingScheme(scale=SCALE[::3]))


def mathematics() -> ResolvedCourse:
    """Points, many quizzes, a recitation that overlaps another course's class."""
    key = "MAT 131"
    homework = [
        make_item(
            key,
            Kind.ASSIGNMENT,
            f"Problem set {number}",
            date(2026, 9, 4) + timedelta(weeks=number - 1),
            weight=Weight(points=20),
            category="Problem sets",
        )
        for number in range(1, 8)
    ]
    exams = [
        make_item(key, Kind.EXAM, "Test 1", date(2026, 9, 30), weight=Weight(points=100), category="Tests"),
        make_item(key, Kind.EXAM, "Test 2", date(2026, 11, 4), weight=Weight(points=100), category="Tests"),
        make_item(key, Kind.EXAM, "Final exam", date(2026, 12, 15), clock=ClockTime(8), weight=Weight(points=160)),
    ]
    grading = GradingScheme(
        categories=(
            Category("Problem sets", points=140, count=7, drop=1),
            Category("Tests", points=200, count=2),
            Category("Final exam", points=160),
            Category("Puzzle corner", points=10, extra_credit=True),
        ),
        scale=SCALE,
        total_points=500,
    )
    facts = CourseFacts(
        code="MAT 131",
        title="Calculus I",
        instructor="Dr. Petra Lindqvist",
        credits=4,
        meetings=(
            Meeting((MO, WE, FR), time(10), time(10, 50), "Slate 4"),
            Meeting((TU,), time(10, 30), time(11, 20), "Slate 2", "recitation"),
        ),
    )
    return make_course(facts, [*homework, *exams], grading=grading)


def drawing() -> ResolvedCourse:
    """An outline that says next to nothing."""
    key = "Drawing Studio"
    item = make_item(key, Kind.PROJECT, "Portfolio", date(2026, 12, 9), page=None)
    return make_course(CourseFacts(title="Drawing Studio"), [item], key=key)


def usual_plan(*, term: Term = TERM) -> Plan:
    """Four courses of one term."""
    return make_plan(ResolvedTerm(term, (biology(), history(), mathematics(), drawing())))


def small_plan() -> Plan:
    """One course without anything to check."""
    return make_plan(ResolvedTerm(TERM, (drawing(),)))
