"""Short names that an outline gives its books, cited in its schedule."""

from __future__ import annotations

from .documents import document, heading
from .reading import dated_work, readings


def test_books_cited_by_their_short_names() -> None:
    outline = document(
        heading("Books"),
        "Voices: A Reader, ed. Hale, 3rd ed. (“Voi.”)",
        "A packet of articles (P), on the course page",
        heading("Week 1 (9/7–9/11)"),
        "Wed: Voi. 3–14. Essay 1 draft",
        heading("Week 2 (9/14–9/18)"),
        "Mon: What counts? Voi 20-31; P ch. 2",
        "Fri: P. Hale visits at 3",
        heading("Week 3 (9/21–9/25)"),
        "Mon: Sound Read P 38–52 (Moss).",
    )
    first, second, third = ("weekday_in(week_of({}), {})",) * 3
    assert readings(outline) == {
        "Voi. 3–14": first.format("numeric_date(9, 7)", "WE"),
        "Voi 20-31": second.format("month_day(9, 14)", "MO"),
        "P ch. 2": second.format("month_day(9, 14)", "MO"),
        "P 38–52 (Moss)": third.format("month_day(9, 21)", "MO"),
    }
    assert list(dated_work(outline)) == ["assignment: Essay 1 draft"]


def test_authors_behind_a_sign_of_equality() -> None:
    outline = document(
        heading("Schedule"),
        "HCM = Hall, Cho & Moss, Soils of the World",
        [["Date", "Topic"], ["Sep 7", "Sand. HCM ch 4"], ["Sep 14", "Clay"], ["Sep 21", "Silt, HCM 80–95"]],
    )
    assert readings(outline) == {"HCM ch 4": "month_day(9, 7)", "HCM 80–95": "month_day(9, 21)"}
