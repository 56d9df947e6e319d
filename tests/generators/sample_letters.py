"""ENGL 214: prose in two columns, dates inside sentences, one relative to another, a take-home window."""

from __future__ import annotations

from pathlib import Path

from reportlab.platypus import Paragraph

from tests.generators.outline_pdf import PdfStyles, draw_pages

__all__ = ["write_letters"]

SECTIONS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "The course",
        (
            "People have always written to those who are not there. In this course we read letters and diaries that "
            "were never meant for us, and ask what they keep, what they leave out and whom they were really for. We "
            "meet on Mondays, Wednesdays and Fridays from 9:00 to 9:50 a.m. in Lantern House 3.",
            "I am Odalys Brandt. My office is Lantern House 22, my telephone 555-0117, and my address "
            "o.brandt@tarnbrook.example. Office hours are Tuesdays from 2 to 4 p.m. and whenever my door is open.",
        ),
    ),
    (
        "Books",
        (
            "Please buy these editions, for we will quote by page: Thessaly Morrow, <i>A Winter of Letters</i> "
            "(Harbour Lane Press, 2018); <i>The Diary of a Lock Keeper, 1871&ndash;1874</i>, edited by R. Abiodun "
            "(Inkwell, 2009). Short texts are handed out. On method we use Sele, P., &ldquo;Reading over a "
            "shoulder&rdquo;, <i>Journal of Small Prose</i> 12(3), March 2016, pp. 41&ndash;58.",
        ),
    ),
    (
        "Reading",
        (
            "For Friday, September 4, read Morrow, pp. 1&ndash;40. For Monday, September 14, read Morrow, pp. "
            "41&ndash;118. For Monday, September 28, read the rest of Morrow. For Monday, October 5, read the article "
            "by Sele. We begin the Lock Keeper on Monday, October 19; for that day read pp. 1&ndash;62.",
        ),
    ),
    (
        "Written work",
        (
            "You will write two papers and keep a journal. Paper 1 (1,200 words, 20 percent of the grade) is due on "
            "Friday, September 25, at 5 p.m. A proposal for Paper 2 is due in class on Monday, October 26, and Paper 2 "
            "itself (2,000 words, 25 percent) on Friday, November 20, at 5 p.m. The journal (15 percent) is collected "
            "twice, on Friday, October 9, and on Friday, December 4.",
            "Papers are written in 12-point type and sent as a file; name it with your family name and the number of "
            "the paper. Quote letters by date, as in &ldquo;(letter of 3 February 1872)&rdquo;.",
        ),
    ),
    (
        "Examinations",
        (
            "A midterm (15 percent) is held in class on Wednesday, October 14. One week after the midterm you hand in "
            "a one-page response to your own examination; it is read but carries no grade of its own.",
            "The take-home final (25 percent) may be written at any time from Monday, December 14, to Wednesday, "
            "December 16. Nobody needs more than four hours for it.",
        ),
    ),
    (
        "Days without class",
        (
            "We do not meet on Labor Day, September 7; during autumn break, October 15 and 16; and at Thanksgiving, "
            "November 25 to 27. The last class is on Friday, December 11.",
        ),
    ),
    (
        "Grades",
        (
            "A is 90 and above, B is 80 to 89, C is 70 to 79, D is 60 to 69, and anything below 60 is an F. The two "
            "papers make 45 percent, the journal 15, the midterm 15 and the final 25.",
            "A paper loses a third of a letter for each weekday that it is late. If it was due on a Friday and reaches "
            "me on the Tuesday after, that is two steps. Ask before the day, and I will nearly always say yes.",
        ),
    ),
    (
        "Some rules of the house",
        (
            "Come to class; after the third absence each further one costs a point. Telephones stay in bags. The "
            "writing room in Lantern House is open until 9 p.m. from Sunday to Thursday (555-0163).",
            "The college asks us to tell you that a course may be dropped until September 11 and that October 30 is "
            "the last day to withdraw. Students who need special arrangements for the examinations should speak with "
            "me and with the Access Office by September 18.",
        ),
    ),
)


def write_letters(path: Path) -> None:
    """Write the outline of ENGL 214."""
    styles = PdfStyles("Times", 10.5)
    styles.body.alignment = 4
    styles.body.spaceAfter = 6
    story = []
    for heading, paragraphs in SECTIONS:
        story.append(Paragraph(heading, styles.heading))
        story += [Paragraph(text, styles.body) for text in paragraphs]
    head = (
        Paragraph("ENGL 214: Letters and Diaries", styles.title),
        Paragraph("Tarnbrook College, Autumn 2026, three credits", styles.subtitle),
    )
    draw_pages(path, "ENGL 214: Letters and Diaries", story, columns=2, foot="Letters and Diaries", heading=head)
