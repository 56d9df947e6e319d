"""The day to begin and the study sessions: the workbook computes what Python computes, under any settings."""

from __future__ import annotations

from dataclasses import replace

import pytest

from syllabus_io.outline.records import Kind
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import KindSetting, Plan, PlanSettings
from syllabus_io.plan.start_dates import DEFAULT_SETTINGS, MOST_SESSIONS
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import ENGINES, Sheets, day, deadlines, exams
from tests.workbook.test_live import Compute


def with_settings(settings: PlanSettings) -> Plan:
    return make_plan(usual_plan().resolved, settings)


OTHER = replace(
    DEFAULT_SETTINGS,
    kinds=tuple(
        KindSetting(kind, lead_days=lead, hours=hours, sessions=sessions)
        for kind, (lead, hours, sessions) in zip(
            Kind, ((1, 9, 0), (5, 1, 3), (21, 50, 4), (2, 0, 0), (7, 7, 0), (0, 0, 0)), strict=True
        )
    ),
    hours_per_day=1.5,
    heavy_percent=5.0,
    heavy_factor=2.25,
    session_spread=2.0,
)


@pytest.mark.parametrize("settings", [DEFAULT_SETTINGS, OTHER], ids=["usual", "other"])
@pytest.mark.parametrize("compute", ENGINES)
def test_starts_and_sessions_equal_those_of_the_plan(compute: Compute, settings: PlanSettings) -> None:
    plan = with_settings(settings)
    results = compute(Sheets.of(plan))
    entries = {(entry.course, entry.item.title): entry for entry in plan.entries}
    rows = deadlines(results)
    assert rows
    for row in rows:
        assert day(row.values["start"]) == entries[row.course, row.title].start, f"start of {row.title}"
    for row in exams(results):
        shown = [day(row.values[f"session_{number}"]) for number in range(1, MOST_SESSIONS + 1)]
        assert [one for one in shown if one] == list(entries[row.course, row.title].sessions), row.title
