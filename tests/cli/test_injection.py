"""From a hostile outline, term file and hand to workbook, calendar, CSV and JSON: words stay words everywhere.

What could run in a spreadsheet program: formulas (in cells, checks, colours and names), links, and parts of a package
that lead elsewhere (ECMA-376 part 1, chapters 12 and 18). In a calendar: properties and components (RFC 5545, 3.1).
"""

from __future__ import annotations

import csv
import functools
import io
import json
import re
import tempfile
import unicodedata
import zipfile
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

import openpyxl
from icalendar import Calendar
from lxml import etree

from syllabus_io.cli.main import main
from syllabus_io.export.csv_out import plan_to_csv
from syllabus_io.export.icalendar_out import plan_to_icalendar
from syllabus_io.export.plan_json import plan_to_json
from syllabus_io.revise.standing import standing_plan
from syllabus_io.revise.update import update_workbook
from syllabus_io.workbook.printed_places import is_file_link
from tests.extract.word_files import cell, paragraph, row, table, write_word
from tests.revise.hand import heading_column, row_of

TODAY = date(2026, 9, 1)
FORMULAS = (
    '=HYPERLINK("http://evil.invalid/","Essay 1")',
    "=Essay 2 cmd|'/C evil'!A0",
    "+Essay 3+evil",
    "-Essay 4-evil",
    "@SUM(evil) Essay 5",
    "Essay 6 javascript:evil()",
    "Essay 7 \\\\evil.invalid\\share",
    "Essay 8 {=evil()}",
    "Essay 9 _x003D_evil",
    'Essay 10 ";evil()&"',
    "Essay 11 ]]><f>evil()</f>",
)
LINES = "Essay 12\nEND:VEVENT\nBEGIN:VALARM\nACTION:PROCEDURE\nATTACH:http://evil.invalid/x"
STEERING = "Essay 13 \u202eevil\u2066 \u200f\x9b31m"
TYPED = ("=evil(1)", "typed _xD800_ evil", "typed_x000D__x000A_ATTACH:evil", "typed \u202e\u2067evil", "+typed evil")
_SPREADSHEET = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_FORMULAS = tuple(f"{_SPREADSHEET}{name}" for name in ("f", "formula", "formula1", "formula2", "definedName"))
_PARTS_THAT_LEAD_ELSEWHERE = re.compile(
    r"externalLink|vbaProject|oleObject|activeX|connections|queryTable|customXml|webExtension|ctrlProp|embeddings",
    re.IGNORECASE,
)


def write_hostile_outline(path: Path) -> Path:
    """An outline in which every piece of work, the course and the people are named to do harm."""
    works = [row(f"October {day}", escape(title)) for day, title in enumerate(FORMULAS, start=1)]
    prose = [
        paragraph(escape(f"{title} is due on November {day}, 2026.")) for day, title in enumerate(FORMULAS, start=1)
    ]
    cells = "".join(paragraph(line) for line in LINES.splitlines())
    rows = [row("Date", "Due"), *works, row("October 14", cell(cells)), row("October 15", escape(STEERING))]
    return write_word(
        path,
        paragraph("KIT 120 =cmd|evil Kites and Wind, Autumn 2026")
        + paragraph("Instructor: =evil() Vane")
        + paragraph("Tuesday and Thursday 10:00 - 11:15, Room =evil()")
        + paragraph("Grading: =evil() Essays 60%, Exam 40%")
        + "".join(prose)
        + table(*rows, grid=(2000, 4000)),
    )


@functools.cache
def built() -> bytes:
    """The workbook of that outline, a hostile term file and a hostile name, made by the command line."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_hostile_outline(folder / "=evil() javascript%3Aevil.docx")
        (folder / "term.toml").write_text(
            '[term]\nname = "=evil() \\u202e term"\nfirst_day = 2026-08-31\nlast_day = 2026-12-11\n'
            'timezone = "America/New_York"\n[[no_class]]\nname = "=evil() off\\nATTACH:evil"\n'
            "first_day = 2026-10-20\nlast_day = 2026-10-20\n",
            encoding="utf-8",
        )
        plan = folder / "plan.xlsx"
        outline, term = str(folder / "=evil() javascript%3Aevil.docx"), str(folder / "term.toml")
        arguments = ["build", outline, "--term", term, "-o", str(plan), "--student", '=evil("x")', "--no-cache", "-q"]
        assert main(arguments) == 0
        return plan.read_bytes()


def check_package(content: bytes) -> None:
    """Nothing in any part of a workbook runs, links to anything but files beside it, or leads elsewhere."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    assert not [name for name in parts if _PARTS_THAT_LEAD_ELSEWHERE.search(name) or name.startswith(("/", ".."))]
    assert any(b"evil" in part for part in parts.values()), "the words themselves must not be lost"
    for name, part in parts.items():
        if not name.endswith((".xml", ".rels", ".vml")):
            continue
        for element in etree.fromstring(part).iter():
            if element.tag in _FORMULAS:
                text = str(element.text or "")
                assert "evil" not in text, f"{name} computes what somebody wrote: {text[:200]}"
            if element.get("TargetMode") == "External":
                assert is_file_link(element.get("Target")), f"{name} links to {element.get('Target')}"
            location = element.get("location") or ""
            assert "evil" not in location and ":" not in location, f"{name} leads to {location}"


def test_no_part_of_the_workbook_does_what_an_outline_says() -> None:
    check_package(built())
    titles = [str(cell.value) for cell in openpyxl.load_workbook(io.BytesIO(built()))["Review"]["D"]]
    found = sum("evil" in title for title in titles)
    assert found >= 5, f"most of the hostile titles are to be in the plan, else this shows nothing: {titles}"


@functools.cache
def typed() -> tuple[bytes, Any]:
    """The workbook with hostile words typed over titles, written anew, and the plan as it then stands."""
    book = openpyxl.load_workbook(io.BytesIO(built()))
    sheet = book["Review"]
    column = heading_column(sheet, "What")
    first = row_of(sheet, next(value for value in (cell.value for cell in sheet["D"]) if "Essay 3" in str(value)))
    for at, text in enumerate(TYPED, start=first):
        changed = sheet.cell(at, column)
        changed.value = text
        changed.data_type = "s"
    packed = io.BytesIO()
    book.save(packed)
    path = Path("plan.xlsx")
    updated = update_workbook(path, packed.getvalue(), (), TODAY)
    return updated.content, standing_plan(path, updated)


def test_no_part_of_the_workbook_does_what_somebody_typed() -> None:
    content, plan = typed()
    check_package(content)
    titles = [item.title for item in plan.items]
    assert [text for text in TYPED if text in titles or "_x" in text], titles


def steering(text: str) -> set[str]:
    """The signs of a text that could steer what shows it: controls, turns of direction, tags, halves of pairs."""
    allowed = {"\n", "\t", "\r", "\u200c", "\u200d"}
    return {f"U+{ord(sign):04X}" for sign in text if unicodedata.category(sign) in ("Cc", "Cf", "Cs")} - {
        f"U+{ord(sign):04X}" for sign in allowed
    }


def test_a_calendar_holds_only_the_properties_of_this_program() -> None:
    content = plan_to_icalendar(typed()[1], datetime(2026, 9, 1, tzinfo=UTC))
    lines = content.decode("utf-8").replace("\r\n ", "").split("\r\n")
    names = {re.split("[:;]", line, maxsplit=1)[0] for line in lines if line}
    known = "BEGIN END VERSION PRODID CALSCALE X-WR-CALNAME UID SUMMARY SEQUENCE DTSTAMP DTSTART DTEND DURATION RRULE "
    known += "EXDATE CATEGORIES DESCRIPTION LOCATION TRANSP ACTION TRIGGER TZID TZNAME TZOFFSETFROM TZOFFSETTO RDATE"
    assert names <= set(known.split()), f"a property from outside: {names - set(known.split())}"
    assert {line for line in lines if line.startswith("ACTION")} <= {"ACTION:DISPLAY"}
    assert not steering("".join(lines))
    events = Calendar.from_ical(content).walk("VEVENT")
    assert any("evil" in str(event["summary"]) for event in events)
    assert not [event for event in events if event.errors or "attach" in event or "url" in event]


def test_csv_and_json_hold_only_words() -> None:
    plan = typed()[1]
    text = plan_to_csv(plan)
    cells = [cell for line in csv.reader(io.StringIO(text, newline="")) for cell in line]
    assert any("evil" in cell for cell in cells)
    assert not [cell for cell in cells if cell.lstrip().startswith(("=", "+", "-", "@"))]
    as_json = plan_to_json(plan)
    assert json.loads(as_json)["items"]
    assert not steering(text) and not steering(as_json)
    as_json.encode("utf-8")
