"""GEOL 110: a ruled schedule table, a row a week, weekdays in brackets beside what is due."""

from __future__ import annotations

from pathlib import Path

from reportlab.platypus import Paragraph

from tests.generators.outline_pdf import PdfStyles, blank, draw_pages, ruled_table

__all__ = ["write_geology"]

SCHEDULE = (
    ("Week", "Class days", "Topics", "Reading", "Due"),
    ("1", "Sept 1, 3", "What a mineral is; crystal form", "ch. 1", "&ndash;"),
    ("2", "Sept 8, 10", "Telling minerals apart in the hand", "ch. 2", "Lab report 1 (Wed)"),
    ("3", "Sept 15, 17", "Igneous rocks", "ch. 3", "Lab report 2 (Wed)<br/>Reading quiz 1 (Thu)"),
    ("4", "Sept 22, 24", "Volcanoes and their products", "ch. 4", "Lab report 3 (Wed)"),
    ("5", "Sept 29, Oct 1", "Review on Tuesday<br/><b>Midterm 1 (Thu, in class)</b>", "&ndash;", "Lab report 4 (Wed)"),
    ("6", "Oct 6, 8", "Weathering", "ch. 5", "Lab report 5 (Wed)<br/>Reading quiz 2 (Thu)"),
    ("7", "Oct 13", "Soils<br/><i>No class Oct 15: autumn break</i>", "ch. 6", "Field guide proposal (Tue)"),
    ("8", "Oct 20, 22", "Sand, mud and the rocks they make", "ch. 7", "Lab report 6 (Wed)"),
    ("9", "Oct 27, 29", "Reading a cliff face", "ch. 8", "Lab report 7 (Wed)<br/>Reading quiz 3 (Thu)"),
    ("10", "Nov 3, 5", "Folds and faults<br/><b>Midterm 2 (Thu, in class)</b>", "&ndash;", "&ndash;"),
    ("11", "Nov 10, 12", "Rocks remade by heat and pressure", "ch. 9", "Lab report 8 (Wed)"),
    ("12", "Nov 17, 19", "How old is it?", "ch. 10", "Lab report 9 (Wed)<br/>Reading quiz 4 (Thu)"),
    ("13", "Nov 24", "Field day at the quarry<br/><i>No class Nov 26: Thanksgiving</i>", "&ndash;", "&ndash;"),
    ("14", "Dec 1, 3", "Water underground", "ch. 11", "Lab report 10 (Wed)<br/>Reading quiz 5 (Thu)"),
    ("15", "Dec 8, 10", "What we take from the earth; review", "ch. 12", "Field guide (Thu, 5 p.m.)"),
)

GRADING = (
    ("Part of the grade", "Weight"),
    ("Lab reports (10, the lowest is dropped)", "30%"),
    ("Reading quizzes (5)", "10%"),
    ("Midterm 1", "15%"),
    ("Midterm 2", "15%"),
    ("Field guide", "10%"),
    ("Final exam", "20%"),
)

POLICIES = (
    ("Final exam.", "The final exam is scheduled by the registrar; day, time and room are announced in November."),
    (
        "Late work.",
        "A lab report loses 10% of its mark for each day it is late, up to three days; after that it is not read. "
        "A report that was due on a Wednesday and comes in on the Friday loses 20%.",
    ),
    (
        "Dropping and withdrawing.",
        "The college sets these dates, not the instructor: the last day to drop a course without a record is "
        "September 11, and the last day to withdraw from one is October 30.",
    ),
    (
        "Make-up exams.",
        "Write to me before the exam, or within 24 hours of it if you were ill. There is no make-up for quizzes.",
    ),
    (
        "Honest work.",
        "Measure your own samples. The college&rsquo;s code of conduct (revised May 4, 2025) applies to all work.",
    ),
)


def write_geology(path: Path) -> None:
    """Write the outline of GEOL 110."""
    styles = PdfStyles("Helvetica", 9.5)

    def say(text: str) -> Paragraph:
        return Paragraph(text, styles.body)

    def head(text: str) -> Paragraph:
        return Paragraph(text, styles.heading)

    story = [
        Paragraph("GEOL 110: Earth Materials", styles.title),
        Paragraph("Section 2 &middot; Tarnbrook College &middot; Autumn 2026 &middot; 4 credits", styles.subtitle),
        say("<b>Instructor:</b> Dr. Ines Falkenrath, Quarry Hall 214, 555-0142, i.falkenrath@tarnbrook.example"),
        say("<b>Office hours:</b> Mondays 1:00&ndash;2:30 p.m. and by appointment"),
        say("<b>Lectures:</b> Tuesdays and Thursdays, 10:00&ndash;11:15 a.m., Quarry Hall 101"),
        say("<b>Lab:</b> Wednesdays, 2:00&ndash;4:50 p.m., Quarry Hall B12; the first lab is in week 1"),
        head("What this course is about"),
        say(
            "The ground under a town decides where its wells are, what its walls are made of and which of its slopes "
            "give way. We learn to tell minerals and rocks apart by looking, scratching and weighing, and to read from "
            "them what happened where they formed. You will leave with a field guide of your own making."
        ),
        say(
            "<b>Book:</b> J. Merrow and T. Oduya, <i>Reading the Rocks</i>, 3rd ed. (Harbour Lane Press, 2021), "
            "ISBN 978-0-00-000110-6. Bring a hand lens (10&times;) to every lab from week 2 on."
        ),
        head("Grading"),
        ruled_table(GRADING, (230, 60), styles),
        blank(6),
        say(
            "A 93, A&ndash; 90, B+ 87, B 83, B&ndash; 80, C+ 77, C 73, C&ndash; 70, D 60; below 60 is an F. These are "
            "the lowest percentages that earn each letter."
        ),
        say(
            "<b>Field guide.</b> Twelve rocks of the county, drawn and described. A one-page proposal is due in week "
            "7, the guide itself on the last day of class."
        ),
        head("Policies"),
        *[say(f"<b>{label}</b> {text}") for label, text in POLICIES],
        head("Schedule"),
        say(
            "Lab reports are handed in at the start of lab. Readings are to be done before the first class of the "
            "week. The college is closed on Labor Day (September 7)."
        ),
        ruled_table(SCHEDULE, (34, 72, 178, 48, 148), styles),
        blank(6),
        say("<i>Changes to this schedule are announced in class.</i>"),
    ]
    draw_pages(path, "GEOL 110: Earth Materials", story, foot="GEOL 110 Earth Materials, Autumn 2026")
