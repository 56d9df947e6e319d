"""``check``: what is open or odd in a workbook, or in each of a folder."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

from syllabus_io.cli.clock import local_day
from syllabus_io.cli.output import write_text
from syllabus_io.cli.report import count, plain
from syllabus_io.cli.workbook_options import CheckOptions
from syllabus_io.cli.workbooks import find_workbooks
from syllabus_io.errors import SyllabusError
from syllabus_io.revise.check import Finding, check_workbook
from syllabus_io.revise.files import open_workbook_file
from syllabus_io.revise.update import update_workbook

__all__ = ["FORMAT", "VERSION", "check"]

FORMAT = "syllabus-io/check"
VERSION = 1
_MOST_LINES = 15  # of one sort


def check(options: CheckOptions) -> int:
    """Lists what is open or odd. Returns 0 when nothing is, else 1, or 2 when a workbook of a folder cannot be read."""
    paths = find_workbooks(options.workbook)
    found: dict[Path, tuple[Finding, ...]] = {}
    faults: dict[Path, SyllabusError] = {}
    for path in paths:
        try:
            found[path] = _check_one(path)
        except SyllabusError as fault:
            if len(paths) == 1:
                raise
            faults[path] = fault
    if options.json:
        write_text(options.json, _as_json(found, faults))
    elif len(paths) == 1:
        print("\n".join(_lines(found[paths[0]])))
    else:
        print("\n".join(_table(paths, found, faults)))
    return 2 if faults else int(any(found.values()))


def _check_one(path: Path) -> tuple[Finding, ...]:
    file = open_workbook_file(path, to_change=False)
    today = local_day()
    return check_workbook(path, update_workbook(path, file.content, (), today), today)


def _lines(findings: tuple[Finding, ...]) -> list[str]:
    if not findings:
        return ["Nothing is open."]
    lines = []
    for what in dict.fromkeys(finding.what for finding in findings):
        some = [finding for finding in findings if finding.what == what]
        lines.append(f"{what[:1].upper()}{what[1:]} ({len(some)}):")
        lines += [f"  {plain(f'{one.course}: {one.text}' if one.course else one.text)}" for one in some[:_MOST_LINES]]
        if len(some) > _MOST_LINES:
            lines.append(f"  … and {len(some) - _MOST_LINES} more; --json FILE lists them all")
    lines.append(f"{count(len(findings), 'thing')} to look at.")
    return lines


def _table(
    paths: tuple[Path, ...], found: dict[Path, tuple[Finding, ...]], faults: dict[Path, SyllabusError]
) -> list[str]:
    sorts = list(dict.fromkeys(finding.what for findings in found.values() for finding in findings))
    width = max(len(path.name) for path in paths)
    lines = [f"{'Workbook':<{width}}  " + "  ".join(sorts) if sorts else "Nothing is open."]
    for path in paths:
        if path in faults:
            lines.append(f"{path.name:<{width}}  cannot be read: {plain(faults[path].fault)}")
            continue
        counts = Counter(finding.what for finding in found[path])
        lines.append(f"{path.name:<{width}}  " + "  ".join(f"{counts[sort]:>{len(sort)}}" for sort in sorts))
    return lines


def _as_json(found: dict[Path, tuple[Finding, ...]], faults: dict[Path, SyllabusError]) -> str:
    workbooks = [
        {
            "workbook": str(path),
            "fault": None,
            "open": [{"what": one.what, "course": one.course or None, "text": one.text} for one in findings],
        }
        for path, findings in found.items()
    ]
    workbooks += [{"workbook": str(path), "fault": str(fault), "open": []} for path, fault in faults.items()]
    content = {"format": FORMAT, "version": VERSION, "workbooks": workbooks}
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"
