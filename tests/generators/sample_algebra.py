"""Algebra II: a secondary-school course with marking periods, week numbers and points."""

from __future__ import annotations

from pathlib import Path

from tests.generators.outline_word import add_text, add_title, new_word, save_word, word_table

__all__ = ["write_algebra"]

FIRST_PERIOD = (
    ("When", "What", "Points"),
    ("Week 2 Thursday", "Quiz 1: linear equations", "20"),
    ("Week 3 Friday", "Unit 1 test", "100"),
    ("Week 5 Friday", "Quiz 2: systems of equations", "20"),
    ("Week 6 Friday", "Unit 2 test", "100"),
    ("Week 7 Wednesday", "Notebook check 1", "25"),
    ("Week 8 Thursday", "Quiz 3: factoring", "20"),
)

SECOND_PERIOD = (
    ("When", "What", "Points"),
    ("Week 9 Friday", "Bridge project: topic and partner", "10"),
    ("Week 11 Tuesday", "Quiz 4: parabolas", "20"),
    ("Week 11 Friday", "Unit 3 test", "100"),
    ("Week 13 Tuesday", "Bridge project: model and report", "90"),
    ("Week 14 Friday", "Unit 4 test", "100"),
    ("Week 15 Wednesday", "Notebook check 2", "25"),
    ("Week 15 Thursday", "Semester exam", "160"),
)

POINTS = (
    ("Category", "Points"),
    ("Unit tests (4)", "400"),
    ("Quizzes (4)", "80"),
    ("Homework (14)", "210"),
    ("Notebook checks (2)", "50"),
    ("Bridge project", "100"),
    ("Semester exam", "160"),
    ("Total", "1000"),
)


def write_algebra(path: Path) -> None:
    """Write the outline of Algebra II."""
    document = new_word("Arial", 10.5, "1F3864")
    add_title(document, ("Algebra II", "Tarnbrook Upper School – First Semester, Autumn 2026"), 18)

    def say(text: str, style: str | None = None) -> None:
        add_text(document.add_paragraph(style=style), text)

    say("**Teacher:** Mr. Jonas Abernathy-Lowe   **Room:** 118   **E-mail:** j.abernathylowe@tarnbrook.example")
    say("**Class:** Period 3, Monday to Friday, 10:05–10:50 a.m.")
    say("**Extra help:** Tuesdays and Thursdays, 3:10–3:50 p.m., no appointment needed")
    say("**School office:** 555-0133")
    document.add_heading("Dear students and families", 1)
    say(
        "This year we go from straight lines to curves. Please read these pages together, sign the last line, and "
        "return it by the end of the first week. Open house is on Thursday, September 24, at 7 p.m.; I would be glad "
        "to meet you there."
    )
    document.add_heading("Marking periods", 1)
    say("Marking period 1: weeks 1 to 8 (August 31 to October 23). Report cards go home on October 30.", "List Bullet")
    say("Marking period 2: weeks 9 to 15 (October 26 to December 11).", "List Bullet")
    say(
        "No school: September 7 (Labor Day), October 15–16 (autumn break), November 25–27 (Thanksgiving).",
        "List Bullet",
    )
    document.add_heading("How points are earned", 1)
    word_table(document, POINTS, (2.6, 1.0))
    document.add_paragraph()
    say("A: 900 points and up. B: 800–899. C: 700–799. D: 600–699. Below 600 is an F.")
    say(
        "**Homework** is collected every Tuesday from week 2 to week 15; each set is worth 15 points. Sets are done in "
        "pencil with all steps shown."
    )
    say(
        "**Late and missing work.** Homework may come one day late for half its points. A missed test is made up "
        "within five school days; arrange it on the day you are back."
    )
    say("**What to bring:** notebook, pencils, ruler, a calculator without graphing. The book is lent by the school.")
    document.add_heading("Marking period 1: what is due", 1)
    word_table(document, FIRST_PERIOD, (1.7, 3.4, 0.8))
    document.add_heading("Marking period 2: what is due", 1)
    word_table(document, SECOND_PERIOD, (1.7, 3.4, 0.8))
    document.add_paragraph()
    say("The retake of the Unit 2 test, for those who want one, is held two weeks after the test, before school.")
    say("Student: ______________________   Parent or guardian: ______________________")
    save_word(document, path, "Algebra II")
