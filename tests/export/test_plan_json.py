"""The plan as JSON: the form docs/json.md describes."""

from __future__ import annotations

import json
from datetime import date, time

from syllabus_io.export.plan_json import plan_to_json
from tests.export.standing import standing, work


def test_dates_times_and_days_are_written_as_standards_have_them() -> None:
    item = work("e", date(2026, 11, 3), "Essay 1", time=time(17), flag="check", why="First.\nSecond.")
    content = json.loads(plan_to_json(standing(item, work("u", None, "Open"))))
    assert (content["format"], content["version"]) == ("syllabus-io/plan", 1)
    first, second = content["items"]
    assert (first["date"], first["time"], first["needs_review"]) == ("2026-11-03", "17:00", True)
    assert first["reasons"] == ["First.", "Second."]
    assert second["date"] is None and second["reasons"] == []
    assert content["classes"][0]["days"] == ["MO", "WE", "FR"]
    assert content["no_class"][2]["course"] == "HIS 204"
