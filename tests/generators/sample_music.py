"""MUSC 150: day numbers under month headings, as on a wall calendar written out as a list."""

from __future__ import annotations

from pathlib import Path

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph

from tests.generators.outline_pdf import PdfStyles, blank, draw_pages, ruled_table

__all__ = ["write_music"]

CALENDAR: tuple[tuple[str, tuple[tuple[int, str], ...]], ...] = (
    (
        "September",
        (
            (1, "Welcome. What do we hear when we listen?"),
            (3, "Pulse and meter. Read ch. 1."),
            (8, "Melody. Read ch. 2."),
            (10, "Listening quiz 1. Harmony, first steps."),
            (15, "More than one line at a time. Read ch. 3."),
            (17, "Song forms"),
            (22, "Voices in stone rooms. Read ch. 4."),
            (24, "Listening quiz 2. Dances of the court and of the barn."),
            (29, "<b>Concert report 1 due</b> at the start of class. The keyboard and its rooms."),
        ),
    ),
    (
        "October",
        (
            (1, "The orchestra grows. Read ch. 5."),
            (6, "Review: bring your questions and your listening list"),
            (8, "<b>MIDTERM EXAM</b>, in class; listening and short answers"),
            (13, "Music for the stage. Read ch. 6."),
            (15, "No class: autumn break"),
            (20, "Program music: storms, trains and birds"),
            (22, "Listening quiz 3. Music for the parlor."),
            (27, "Recording changes everything. Read ch. 7."),
            (29, "<b>Project topic due.</b> How to write about a piece."),
        ),
    ),
    (
        "November",
        (
            (3, "Blues and its children. Read ch. 8."),
            (5, "Bands, big and small"),
            (10, "Listening quiz 4. Broken rules: the new sounds of the last century."),
            (12, "Machines that play"),
            (17, "Film: watch a scene without its sound. Read ch. 9."),
            (19, "<b>Concert report 2 due</b> at the start of class. Music and place."),
            (24, "Work on projects in class"),
            (26, "No class: Thanksgiving"),
        ),
    ),
    (
        "December",
        (
            (1, "<b>Project presentations, groups 1 to 4</b>"),
            (3, "<b>Project presentations, groups 5 to 8</b>"),
            (8, "What we did not get to"),
            (10, "Review. <b>Project paper due</b> by 11:59 p.m."),
        ),
    ),
)

GRADING = (
    ("Work", "Share"),
    ("Listening quizzes (4, best 3 count)", "15%"),
    ("Concert reports (2)", "20%"),
    ("Midterm exam", "20%"),
    ("Project presentation", "10%"),
    ("Project paper", "15%"),
    ("Final exam", "20%"),
)


def write_music(path: Path) -> None:
    """Write the outline of MUSC 150."""
    styles = PdfStyles("Times", 11)
    month = ParagraphStyle("month", styles.heading, fontSize=12, spaceBefore=8)
    day = ParagraphStyle("day", styles.body, leftIndent=28, bulletIndent=4, spaceAfter=1.5)

    def say(text: str) -> Paragraph:
        return Paragraph(text, styles.body)

    story = [
        Paragraph("Listening to Music", styles.title),
        Paragraph("MUSC 150, Tarnbrook College, Autumn 2026", styles.subtitle),
        say("Tuesdays and Thursdays, 1:30&ndash;2:45 p.m., Bellwright Recital Room"),
        say(
            "Instructor: Tobias Quillon (t.quillon@tarnbrook.example, 555-0175). Office hours: Wednesdays "
            "10&ndash;11:30 a.m., Bellwright 9"
        ),
        say(
            "No one needs to read music for this course. The room we meet in was opened on 14 October 1931 with a "
            "concert that lasted five hours; we will do with less. The book is <i>An Ear Opened</i> by Lucan "
            "Harrowgate (Inkwell, 2nd ed., 2022). Listening examples are on the course page."
        ),
        Paragraph("How the grade is made", styles.heading),
        ruled_table(GRADING, (220, 60), styles),
        blank(6),
        say("A: 92&ndash;100. B: 82&ndash;91. C: 72&ndash;81. D: 62&ndash;71. F: 61 and below."),
        say(
            "The final exam is on Tuesday, December 15, 10:30 a.m. to 12:30 p.m., in the room we meet in. A concert "
            "report is two pages about a concert you went to; the ticket or program must be attached. Reports are not "
            "taken late. Project papers lose five points for each day after December 10."
        ),
        say(
            "You may miss two classes without giving a reason. Quizzes cannot be made up: that is why only the best "
            "three count. The last day to withdraw from a course is October 30."
        ),
        Paragraph("Calendar", styles.heading),
    ]
    for name, days in CALENDAR:
        story.append(Paragraph(name.upper(), month))
        story += [Paragraph(text, day, bulletText=str(number)) for number, text in days]
    draw_pages(path, "Listening to Music", story, foot="MUSC 150")
