"""HIST 233: a table with merged cells, several items in a cell, "assigned" beside "due", and one wrong weekday."""

from __future__ import annotations

from pathlib import Path

from tests.generators.outline_word import add_text, add_title, new_word, save_word, shade, word_table

__all__ = ["write_history"]

HEAD = ("Unit", "Week of", "In class", "Assigned", "Due")

ROWS = (
    ("Harbors", "Aug 31", "Mon: Introduction\nWed: Reading a chart", "Source note 1", ""),
    ("", "Sept 7", "Mon: Labor Day, no class\nWed: Mud, tide and stone", "", "Source note 1 (Wed)"),
    ("", "Sept 14", "Mon: Who owns the shore?\nWed: Harbor courts", "Essay 1", "Map quiz (Mon)"),
    ("", "Sept 21", "Mon: Pilots\nWed: Lighthouses", "Source note 2", ""),
    ("Ships", "Sept 28", "Mon: The shipyard\nWed: Sail to steam", "", "Source note 2 (Wed)"),
    ("", "Oct 5", "Mon: Writing workshop\nWed: Crews and their songs", "", "Essay 1 (Monday, October 6)"),
    ("", "Oct 12", "Mon: Cargo\nWed: Insurance", "", "Reading response (Wed)"),
    ("BREAK", "Autumn break: no class on Thursday and Friday, October 15 and 16", "", "", ""),
    (
        "Cities",
        "Oct 19",
        "Mon: Warehouses\nWed: The waterfront vote",
        "Take-home midterm (Wed)\nEssay 2",
        "Annotated map (Mon)",
    ),
    ("", "Oct 26", "Mon: Fever and quarantine\nWed: Sailors ashore", "", "Take-home midterm (Mon, 11:59 p.m.)"),
    ("", "Nov 2", "Mon: Strikes\nWed: Archive visit", "Source note 3", ""),
    ("", "Nov 9", "Mon: Radio and radar\nWed: The container", "", "Source note 3 (Mon)\nEssay 2 outline (Wed)"),
    ("After the ships", "Nov 16", "Mon: Empty quays\nWed: Who pays for the museum?", "", "Essay 2 (Mon)"),
    ("", "Nov 23", "Mon: Film\nWed: no class, Thanksgiving break (Nov 25–27)", "", ""),
    ("", "Nov 30", "Mon: Presentations A–K\nWed: Presentations L–Z", "", "Presentation slides (Mon, 9 a.m.)"),
    ("", "Dec 7", "Mon: The harbor today\nWed: Review", "", "Portfolio (Wed)"),
)

WEIGHTS = (
    ("Component", "Percent of grade"),
    ("Source notes (3)", "15"),
    ("Map quiz", "5"),
    ("Annotated map", "5"),
    ("Essay 1", "15"),
    ("Essay 2", "20"),
    ("Take-home midterm", "15"),
    ("Presentation", "5"),
    ("Portfolio", "5"),
    ("Final examination", "15"),
)

SCALE = (
    ("A", "A-", "B+", "B", "B-", "C+", "C", "D", "F"),
    ("94–100", "90–93", "87–89", "84–86", "80–83", "77–79", "70–76", "60–69", "0–59"),
)


def write_history(path: Path) -> None:
    """Write the outline of HIST 233."""
    document = new_word("Cambria", 11)
    add_title(document, ("HIST 233: Ports and Harbors", "Department of History, Tarnbrook College", "Autumn 2026"), 17)
    facts = document.add_table(3, 2)
    for row, (left, right) in zip(
        facts.rows,
        (
            ("**Instructor:** Prof. Mirela Stanhope", "**Class:** MW 3:30–4:45 p.m., Old Customs House 12"),
            ("**Office:** Old Customs House 31, 555-0151", "**Office hours:** Mon 2:00–3:00, Thu 10:00–11:30 a.m."),
            ("**E-mail:** m.stanhope@tarnbrook.example", "**Credits:** 3"),
        ),
        strict=True,
    ):
        for cell, text in zip(row.cells, (left, right), strict=True):
            add_text(cell.paragraphs[0], text).paragraph_format.space_after = 0

    def say(text: str) -> None:
        add_text(document.add_paragraph(), text)

    document.add_heading("Description", 1)
    say(
        "A harbor is where a country meets what it did not make. We follow ports from the age of sail to the "
        "container, through charts, court rolls, songs and photographs. The reader for the "
        "course is K. Dunmore (ed.), Ropes and Ledgers: Sources on Harbor Towns (Fenwick & Daughters, 2020)."
    )
    document.add_heading("Grading", 1)
    word_table(document, WEIGHTS, (3.0, 1.6))
    document.add_paragraph()
    word_table(document, SCALE, (0.7,) * 9, head=False, size=9)
    document.add_paragraph()
    say(
        "**Final examination:** Wednesday, December 16, 2:00–4:00 p.m., in our usual room. "
        "**Peer reply:** one week after Essay 2 is due, send a classmate a one-page answer to that essay."
    )
    say(
        "**Late essays** lose three points a day, weekends included; an essay due on the 5th that arrives on the 8th "
        "has lost nine. Nothing is accepted after December 11."
    )
    say(
        "**Citations** follow the department’s sheet of January 2024, for example: Harbor Board, minutes of 12 May "
        "1889, fol. 3. Cite a web page with the day you saw it."
    )
    document.add_heading("Schedule", 1)
    say("Work under “Assigned” is handed out in that week; work under “Due” is due at the start of class.")
    _add_schedule(document)
    document.add_paragraph()
    say("The last day to withdraw is October 30. Questions about registration: registrar’s desk, 555-0190.")
    save_word(document, path, "HIST 233: Ports and Harbors")


def _add_schedule(document: object) -> None:
    """The schedule, its unit cells merged downwards and the break merged across."""
    rows = [HEAD, *[row if row[0] != "BREAK" else ("", "", "", "", "") for row in ROWS]]
    table = word_table(document, rows, (0.8, 0.7, 2.3, 1.3, 1.5), size=9)
    starts = [number for number, row in enumerate(ROWS) if row[0]]
    for start, end in zip(starts, [*starts[1:], len(ROWS)], strict=True):
        first, last = start + 1, end
        if ROWS[start][0] == "BREAK":
            merged = table.cell(first, 0).merge(table.cell(first, 4))
            for extra in merged.paragraphs[1:]:
                extra._p.getparent().remove(extra._p)
            add_text(merged.paragraphs[0], f"**{ROWS[start][1]}**")
            shade(merged, "F2F2F2")
        elif last > first:
            merged = table.cell(first, 0).merge(table.cell(last, 0))
            for extra in merged.paragraphs[1:]:
                extra._p.getparent().remove(extra._p)
