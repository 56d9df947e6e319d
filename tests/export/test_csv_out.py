"""CSV as RFC 4180 has it, read by Python's csv module."""

from __future__ import annotations

import csv
import io
from datetime import date, time

import pytest

from syllabus_io.export.csv_out import COLUMNS, plan_to_csv
from tests.export.standing import standing, work


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_fields_with_commas_quotes_and_lines_come_back_as_they_were() -> None:
    title = 'Essay 1, "the harbour"\nsecond line'
    text = plan_to_csv(standing(work("e", date(2026, 11, 3), title, time=time(17), weight=0.2)))
    (row,) = rows(text)
    assert row["title"] == title
    assert (row["date"], row["time"], row["weight"]) == ("2026-11-03", "17:00", "0.2")
    assert text.startswith(",".join(COLUMNS) + "\r\n") and text.endswith("\r\n")


@pytest.mark.parametrize("title", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\n=1", "＝1", " =1"])
def test_no_text_begins_like_a_formula(title: str) -> None:
    (row,) = rows(plan_to_csv(standing(work("e", date(2026, 11, 3), title))))
    assert row["title"] == "'" + title


def test_items_stand_in_date_order_undated_last_skipped_not_at_all() -> None:
    items = [
        work("a", None, "open"),
        work("b", date(2026, 11, 3), "second"),
        work("c", date(2026, 9, 3), "first"),
        work("d", date(2026, 9, 3), "skipped", is_skipped=True),
    ]
    assert [row["title"] for row in rows(plan_to_csv(standing(*items)))] == ["first", "second", "open"]


def test_signs_that_steer_are_blanks_and_letters_of_every_script_stay() -> None:
    title = "Essay\x1b[31m\u202e 1\ud800\x00 – Übung 数学 \u200d"
    (row,) = rows(plan_to_csv(standing(work("e", date(2026, 11, 3), title))))
    assert row["title"] == "Essay [31m  1   – Übung 数学 \u200d"
