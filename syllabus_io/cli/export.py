"""``export``: the plan as it stands in a workbook, for other programs."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from syllabus_io.cli.clock import local_day, moment
from syllabus_io.cli.output import write_text
from syllabus_io.cli.workbook_options import ExportOptions
from syllabus_io.errors import BadSetting
from syllabus_io.plan.standing import StandingPlan

__all__ = ["export"]


def export(options: ExportOptions) -> int:
    """Writes the file. The workbook is left as it is. Returns 0; a fault is raised as a SyllabusError."""
    from syllabus_io.revise.files import open_workbook_file
    from syllabus_io.revise.standing import standing_plan
    from syllabus_io.revise.update import update_workbook

    file = open_workbook_file(options.workbook, to_change=False)
    updated = update_workbook(options.workbook, file.content, (), local_day(), moment())
    plan = standing_plan(options.workbook, updated)
    plan = _chosen(plan, options)
    output = options.output or Path("-")
    match options.to:
        case "ics":
            from syllabus_io.export.icalendar_out import plan_to_icalendar

            write_text(output, plan_to_icalendar(plan, datetime.now(UTC).replace(microsecond=0)).decode("utf-8"))
        case "csv":
            from syllabus_io.export.csv_out import plan_to_csv

            write_text(output, plan_to_csv(plan))
        case _:
            from syllabus_io.export.plan_json import plan_to_json

            write_text(output, plan_to_json(plan))
    return 0


def _chosen(plan: StandingPlan, options: ExportOptions) -> StandingPlan:
    """The plan with the courses and kinds asked for. Days off of the whole school stay with any course."""
    if options.course:
        names = {name.casefold(): name for name in plan.courses}
        unknown = [name for name in options.course if name.casefold() not in names]
        if unknown:
            known = ", ".join(plan.courses)
            raise BadSetting(f"course {unknown[0]!r}", "is not in the plan", f"choose one of {known}")
        wanted = {names[name.casefold()] for name in options.course}
        plan = replace(
            plan,
            courses=tuple(name for name in plan.courses if name in wanted),
            items=tuple(item for item in plan.items if item.course in wanted),
            classes=tuple(weekly for weekly in plan.classes if weekly.course in wanted),
            days_off=tuple(off for off in plan.days_off if not off.course or off.course in wanted),
        )
    if options.kind:
        kinds = set(options.kind)
        items = tuple(item for item in plan.items if item.kind and item.kind.value in kinds)
        plan = replace(plan, items=items, classes=(), days_off=())
    return plan
