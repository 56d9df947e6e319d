"""BIOL 120: a bullet a class, day before month, a quiz every Friday with exceptions, one struck date."""

from __future__ import annotations

from pathlib import Path

from tests.generators.outline_word import add_text, add_title, new_word, save_word

__all__ = ["write_biology"]

CLASSES = (
    "Tue 1 Sep: Why plants? A walk around the greenhouse",
    "Thu 3 Sep: The plant cell (read chapter 1)",
    "Tue 8 Sep: Roots and shoots (read chapter 2)",
    "Thu 10 Sep: Light into sugar (read chapter 3)",
    "Tue 15 Sep: Water uphill. Herbarium sheet 1 is handed out",
    "Thu 17 Sep: Leaves and their trades (read chapter 4)",
    "Tue 22 Sep: Flowers",
    "Thu 24 Sep: Pollinators (read chapter 5)",
    "Tue 29 Sep: Review. **Herbarium sheet 1 due**",
    "Thu 1 Oct: **Exam 1** (chapters 1–5)",
    "Tue 6 Oct: Seeds and how they travel (read chapter 6)",
    "Thu 8 Oct: From grass to grain",
    "Tue 13 Oct: The potato, a case study. Herbarium sheet 2 is handed out",
    "Thu 15 Oct: No class (autumn break)",
    "Tue 20 Oct: Spices and ships (read chapter 7). **Garden plan: proposal due**",
    "Thu 22 Oct: Sugar, cotton and labor",
    "Tue 27 Oct: Review. **Herbarium sheet 2 due**",
    "Thu 29 Oct: **Exam 2** (chapters 6–7)",
    "Tue 3 Nov: Plants that heal (read chapter 8)",
    "Thu 5 Nov: Plants that harm",
    "Tue 10 Nov: Wood. **Garden plan: draft due** by 11:59 pm",
    "Thu 12 Nov: Drafts are discussed in pairs",
    "Tue 17 Nov: Weeds (read chapter 9)",
    "Thu 19 Nov: Breeding and its gardens",
    "Tue 24 Nov: **Garden plan due** by 11:59 pm",
    "Thu 26 Nov: No class (Thanksgiving)",
    "Tue 1 Dec: What a warmer valley will grow (read chapter 10)",
    "Thu 3 Dec: **Group presentations**",
    "Tue 8 Dec: The seed bank",
    "Thu 10 Dec: **Exam 3** (chapters 8–10)",
)

SCALE = "A: 90–100   B: 80–89   C: 70–79   D: 60–69   F: below 60"


def write_biology(path: Path) -> None:
    """Write the outline of BIOL 120."""
    document = new_word("Calibri", 11, "2E5E3E")
    add_title(document, ("BIOL 120 Plants and People", "Tarnbrook College | Autumn 2026 | 3 credits"), 18)

    def say(text: str, style: str | None = None) -> None:
        add_text(document.add_paragraph(style=style), text)

    say("**Instructor:** Dr. Wen Halloway, Glasshouse 5, w.halloway@tarnbrook.example, tel. 555-0128")
    say("**Office hours:** Tue and Thu 12:30–1:30 pm")
    say("**Lecture:** Tue and Thu 11:00 am–12:15 pm, Glasshouse 1")
    say("**Discussion:** Fri 2:00–2:50 pm, Glasshouse 4")
    document.add_heading("Course description", 1)
    say(
        "Everything on your plate, and most of what you wear, was once alive in a field. This course looks at how "
        "plants work and at what people have made of them: bread, rope, medicine, empires. Text: Osei and Lindqvist, "
        "Plants and Their People (Fenwick & Daughters, 2023). An older printing (August 2017) will do; its page "
        "numbers differ."
    )
    document.add_heading("By the end of the course you will be able to", 1)
    for text in (
        "name the parts of a plant and say what each is for",
        "explain how a wild plant becomes a crop",
        "keep a herbarium sheet to the standard of a collection",
        "plan a garden for a given soil and climate and defend the plan",
    ):
        say(text, "List Number")
    document.add_heading("Grading", 1)
    for text in (
        "Exams 1, 2 and 3: 15% each",
        "Friday quizzes: 10% (the two lowest are dropped)",
        "Herbarium sheets (2): 10%",
        "Garden plan: 20%",
        "Group presentation: 5%",
        "Final exam: 10%",
    ):
        say(text, "List Bullet")
    say(SCALE)
    say(
        "There is a quiz every Friday in discussion, beginning on 11 September, except on 16 October and 27 November. "
        "Quizzes take ten minutes and cover that week’s reading."
    )
    say("The final exam is cumulative. Its date is set by the registrar and will be posted when it is known.")
    document.add_heading("Policies", 1)
    say(
        "**Late work.** Herbarium sheets lose 5 points a day. Garden plans are accepted until the second day after the "
        "date below and lose 10 points."
    )
    say(
        "**Illness.** Write to me on the day. If you miss an exam, bring a note within one week; make-up exams are "
        "held on the Monday mornings after."
    )
    say(
        "**Dates of the college.** Drop without record: until 11 Sep. Withdraw: until 30 Oct. Evaluations open on "
        "30 Nov and close on 11 Dec."
    )
    document.add_heading("Schedule", 1)
    say("Herbarium sheet 1 is now due ~~Thu 24 Sep~~ Tue 29 Sep; the list below has the new date.")
    for text in CLASSES:
        paragraph = document.add_paragraph(style="List Bullet")
        paragraph.paragraph_format.space_after = 0
        add_text(paragraph, text)
    save_word(document, path, "BIOL 120 Plants and People")
