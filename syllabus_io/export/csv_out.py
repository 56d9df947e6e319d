"""A plan as CSV (RFC 4180): a row for each item, safe to open in a spreadsheet program."""

from __future__ import annotations

import csv
import io

from syllabus_io.export.plain_text import csv_field
from syllabus_io.plan.standing import StandingItem, StandingPlan

__all__ = ["COLUMNS", "plan_to_csv"]

COLUMNS = ("course", "kind", "title", "date", "until", "time", "weight", "start by", "done", "check", "id")


def plan_to_csv(plan: StandingPlan) -> str:
    """The items in date order, those without a date last; skipped ones are left out. Dates are ISO 8601.

    Lines end in CR LF, and a field with a comma, a quote or a line end stands in quotes (RFC 4180, section 2). A text
    that a spreadsheet program would take for a formula has an apostrophe before it (common practice, no source).
    """
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    items = [item for item in plan.items if not item.is_skipped]
    items.sort(key=lambda item: (item.day is None, item.day or plan.last_day, str(item.time or ""), item.course))
    writer.writerows([csv_field(text) for text in _row(item)] for item in items)
    return written.getvalue()


def _row(item: StandingItem) -> tuple[str, ...]:
    return (
        item.course,
        item.kind.value if item.kind else "",
        item.title,
        item.day.isoformat() if item.day else "",
        item.until.isoformat() if item.until else "",
        f"{item.time:%H:%M}" if item.time else "",
        f"{item.weight:.6g}" if item.weight is not None else "",
        item.start.isoformat() if item.start else "",
        "yes" if item.is_done else "",
        item.why if item.flag in ("check", "not a date", "no date") else "",
        item.id,
    )
