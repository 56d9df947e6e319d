"""``import``: days off from a school's calendar, into Term dates."""

from __future__ import annotations

from syllabus_io.cli.clock import local_day, moment
from syllabus_io.cli.report import count, plain, written_day
from syllabus_io.cli.workbook_options import ImportOptions
from syllabus_io.errors import BadSetting
from syllabus_io.plan.standing import StandingOff
from syllabus_io.revise.files import open_workbook_file, replace_file
from syllabus_io.revise.standing import standing_plan
from syllabus_io.revise.take_days_off import read_days_off, with_days_off
from syllabus_io.revise.update import update_workbook

__all__ = ["take"]


def take(options: ImportOptions) -> int:
    """Adds days off that are new and lie in the term. Returns 0, or 1 when some were left out."""
    file = open_workbook_file(options.workbook)
    plan = standing_plan(options.workbook, update_workbook(options.workbook, file.content, (), local_day()))
    if options.course and options.course not in plan.courses:
        known = ", ".join(plan.courses)
        raise BadSetting(f"course {options.course!r}", "is not in the plan", f"choose one of {known}")
    known_days = {(off.first_day, off.last_day, off.course) for off in plan.days_off}
    taken: list[tuple[str, StandingOff]] = []
    timed = outside = 0
    for path in options.files:
        found = read_days_off(path, options.course)
        timed += found.timed
        for off in found.days:
            if off.last_day < plan.first_day or off.first_day > plan.last_day:
                outside += 1
            elif (key := (off.first_day, off.last_day, off.course)) not in known_days:
                known_days.add(key)
                taken.append((path.name, off))
    if taken:
        updated = update_workbook(
            options.workbook, file.content, (), local_day(), moment(), also=lambda edits: with_days_off(edits, taken)
        )
        replace_file(file, updated.content)
    if not options.quiet:
        for _, off in taken:
            until = f" to {written_day(off.last_day)}" if off.last_day != off.first_day else ""
            print(f"  {written_day(off.first_day)}{until}  {plain(off.name)}")
        print(f"{count(len(taken), 'day')} off added to Term dates.")
        if timed or outside:
            print(f"Left out: {timed} with a time of day, {outside} outside the term.")
    return 1 if timed else 0
