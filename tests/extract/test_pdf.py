"""PDF text as read: words, paragraphs, columns, running heads, notes. The tests draw the pages and know what they say.

Page boxes are held against ISO 32000-1, 8.3.2.3: one unit of default user space is 1/72 inch.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from syllabus_io.extract.document import Document, Line, Table
from syllabus_io.extract.limits import ReadingLimits
from syllabus_io.extract.pdf import read_pdf
from tests.extract.pdf_files import WIDTH, Sheet, notes, tables, texts

PROSE = (
    "Rivers carry sand and gravel down from the hills, and every stone in the bed tells how far",
    "it has come. In this course we walk along three of them, measure how quickly they flow and",
    "draw what we see. Bring boots that may get wet.",
)


@pytest.fixture
def sheet(tmp_path: Path) -> Sheet:
    return Sheet(tmp_path / "outline.pdf")


class TestWords:
    @pytest.mark.parametrize("size", [6, 9, 10, 12, 18])
    def test_words_set_without_blanks_are_parted(self, sheet: Sheet, size: float) -> None:
        sheet.glued(72, 100, "The second essay is due on Friday", gap=0.25 * size, size=size)
        assert texts(read_pdf(sheet.save())) == ["The second essay is due on Friday"]

    def test_a_tightly_set_line_is_parted(self, sheet: Sheet) -> None:
        sheet.glued(72, 100, "measure the width of every stream that crosses the path", gap=1.1)
        assert texts(read_pdf(sheet.save())) == ["measure the width of every stream that crosses the path"]

    @pytest.mark.parametrize("spacing", [0.8, 1.5, 3.0])
    def test_a_letterspaced_heading_stays_whole(self, sheet: Sheet, spacing: float) -> None:
        sheet.glued(72, 100, "FIELD WORK", gap=3.5 + spacing, spacing=spacing)
        assert texts(read_pdf(sheet.save())) == ["FIELD WORK"]

    def test_raised_ordinals_are_read_in_line(self, sheet: Sheet) -> None:
        end = sheet.text(72, 100, "The map is due on May 12")
        end = sheet.text(end, 96, "th", size=6)
        sheet.text(end, 100, " in the lab.")
        assert texts(read_pdf(sheet.save())) == ["The map is due on May 12th in the lab."]

    def test_the_mark_of_a_note_does_not_change_a_date(self, sheet: Sheet) -> None:
        end = sheet.text(72, 100, "The map is due on October 3")
        sheet.text(end, 96, "1", size=6)
        assert texts(read_pdf(sheet.save())) == ["The map is due on October 3¹"]

    def test_overprinted_letters_count_once(self, sheet: Sheet) -> None:
        for shift in (0, 0.3):
            sheet.text(72 + shift, 100, "Quiz on Tuesday")
        assert texts(read_pdf(sheet.save())) == ["Quiz on Tuesday"]

    def test_a_text_laid_over_another_is_read_apart(self, sheet: Sheet) -> None:
        sheet.text(72, 100, "Topics for the class")
        sheet.text(90, 100, "Draft only, not yet agreed")
        assert sorted(texts(read_pdf(sheet.save()))) == ["Draft only, not yet agreed", "Topics for the class"]

    def test_a_drawn_underscore_is_one(self, sheet: Sheet) -> None:
        end = sheet.text(72, 100, "ada")
        sheet.across(101, end, end + 4)
        sheet.text(end + 4, 100, "brook@fernhill.example")
        assert texts(read_pdf(sheet.save())) == ["ada_brook@fernhill.example"]


class TestParagraphs:
    def test_wrapped_lines_are_joined_and_their_places_kept(self, sheet: Sheet) -> None:
        sheet.lines(72, 100, PROSE)
        document = read_pdf(sheet.save())
        assert texts(document) == [" ".join(PROSE)]
        (line,) = document.lines()
        start = line.text.index("three of them")
        place = line.place_of(start, start + len("three of them"))
        assert place.page == 1 and place.box is not None
        assert place.box.top < 112 < place.box.bottom, f"the words stand on the second printed line, not at {place.box}"
        assert place.box.bottom - place.box.top < 15, "the place holds one printed line"

    def test_a_hyphenated_word_is_made_whole(self, sheet: Sheet) -> None:
        sheet.lines(
            72,
            100,
            ["Rivers carry sand and gravel down from the hills, and every stone tells how mea-", "sured it is."],
        )
        assert texts(read_pdf(sheet.save())) == [
            "Rivers carry sand and gravel down from the hills, and every stone tells how measured it is."
        ]

    def test_list_entries_stay_apart_and_nest(self, sheet: Sheet) -> None:
        sheet.lines(72, 100, ["1. Read the map", "2. Draw the river"])
        sheet.lines(100, 124, ["(a) from the north", "(b) from the south"])
        sheet.lines(72, 148, ["3. Hand it in"])
        lines = [line for line in read_pdf(sheet.save()).blocks if isinstance(line, Line)]
        assert [(line.marker, line.depth, line.text) for line in lines] == [
            ("1.", 1, "Read the map"),
            ("2.", 1, "Draw the river"),
            ("(a)", 2, "from the north"),
            ("(b)", 2, "from the south"),
            ("3.", 1, "Hand it in"),
        ]

    def test_lines_that_begin_with_dates_stay_apart(self, sheet: Sheet) -> None:
        entries = [
            "Sept. 8 Opening walk along the lower river, how to read a map, how to keep a field book clean",
            "Sept. 15 Measuring depth and speed, first look at the gravel, boots and coats for everybody needed",
            "Sept. 22 Drawing what was measured, the first map is due at the beginning of the class that day",
        ]
        sheet.lines(72, 100, entries)
        assert texts(read_pdf(sheet.save())) == entries

    def test_entries_with_leading_dots_stay_apart(self, sheet: Sheet) -> None:
        entries = [f"Map {number} {'.' * 40} Friday, May {number}, in the drawing room" for number in range(1, 5)]
        sheet.lines(72, 100, entries)
        assert texts(read_pdf(sheet.save())) == entries

    def test_short_lines_stay_apart(self, sheet: Sheet) -> None:
        sheet.lines(72, 100, PROSE)
        sheet.lines(72, 160, ["Ada Brook", "Room 14, Mill House", "Tuesdays 2 to 4"])
        assert texts(read_pdf(sheet.save()))[1:] == ["Ada Brook", "Room 14, Mill House", "Tuesdays 2 to 4"]

    def test_a_paragraph_goes_on_over_the_page(self, sheet: Sheet) -> None:
        sheet.lines(72, 712, PROSE[:1])
        sheet.next_page()
        sheet.lines(72, 72, PROSE[1:])
        sheet.lines(72, 110, PROSE)
        assert texts(read_pdf(sheet.save()))[0] == " ".join(PROSE)

    def test_headings_rank_by_size_then_weight(self, sheet: Sheet) -> None:
        sheet.text(72, 72, "Rivers and Maps", size=20)
        sheet.text(72, 110, "Work to hand in", size=14)
        sheet.lines(72, 140, PROSE)
        sheet.text(72, 200, "Late work", font="Helvetica-Bold")
        sheet.lines(72, 214, PROSE)
        levels = {line.text: line.level for line in read_pdf(sheet.save()).blocks if isinstance(line, Line)}
        assert levels == {"Rivers and Maps": 1, "Work to hand in": 2, " ".join(PROSE): 0, "Late work": 3}

    def test_a_bold_run_that_opens_a_line_is_its_lead(self, sheet: Sheet) -> None:
        end = sheet.text(72, 100, "Due: ", font="Helvetica-Bold")
        sheet.text(end, 100, "the second map, on paper")
        (line,) = read_pdf(sheet.save()).lines()
        assert (line.text, line.lead, line.bold) == ("Due: the second map, on paper", "Due:", False)

    def test_labels_with_a_colon_are_text_and_no_table(self, sheet: Sheet) -> None:
        rows = [("Instructor:", "Ada Brook"), ("Room:", "Mill House 14"), ("E-mail:", "ada@fernhill.example")]
        sheet.columns((72, 180), 100, rows)
        document = read_pdf(sheet.save())
        assert texts(document) == [" ".join(row) for row in rows] and not tables(document)

    def test_a_date_that_ends_a_dated_entry_stays_in_it(self, sheet: Sheet) -> None:
        entries = [
            ("Week 6 (Oct. 3): Rivers.", ""),
            (
                "Week 7 (Oct. 10): Floods, levees, dams and those who live behind them; the report on gravel is due",
                "Friday.",
            ),
            ("Week 8 (Oct. 17): Deltas.", ""),
        ]
        base = 100
        for first, second in entries:
            sheet.text(76, base, "\u2022")
            sheet.text(88, base, first)
            if second:
                base += 12
                sheet.text(88, base, second)
            base += 12
        sheet.text(72, base + 12, "Bring boots. " * 7)
        found = texts(read_pdf(sheet.save()))
        assert f"\u2022 {entries[1][0]} Friday." in found


class TestReadingOrder:
    def test_two_columns_are_read_one_after_the_other(self, sheet: Sheet) -> None:
        left = [
            "Rivers carry sand and gravel down",
            "from the hills, and every stone in",
            "the bed tells how far it has come.",
        ] * 4
        right = [
            "In this course we walk along three",
            "of them, measure how quickly they",
            "flow and draw what we see there.",
        ] * 4
        sheet.text(200, 60, "Rivers and Maps, a course in the open air", size=14)
        sheet.lines(72, 100, left)
        sheet.lines(320, 100, right)
        sheet.lines(72, 270, PROSE)
        found = " ".join(texts(read_pdf(sheet.save())))
        places = [
            found.index(part)
            for part in ("a course in the open air", "Rivers carry sand", "In this course we walk", "Bring boots")
        ]
        assert places == sorted(places)
        assert found.index("In this course we walk") > found.rindex("it has come. Rivers carry sand and gravel down")

    def test_a_side_bar_is_not_mixed_into_the_text(self, sheet: Sheet) -> None:
        side = ["Ada Brook", "Mill House 14", "Tuesdays 2 to 4", "Fridays 9 to 10", "Fern Hill", "ada@fernhill.example"]
        sheet.lines(40, 101, side, leading=17)
        body = [" ".join(PROSE).split()[k : k + 11] for k in range(0, 55, 11)]
        sheet.lines(190, 96, [" ".join(words) for words in body * 2], leading=13)
        found = texts(read_pdf(sheet.save()))
        assert found[:6] == side


class TestLeftOut:
    def test_running_heads_and_page_numbers_become_notes(self, sheet: Sheet) -> None:
        for number in range(1, 5):
            sheet.text(72, 40, "Fern Hill College")
            sheet.text(480, 40, f"Rivers, page {number}")
            sheet.lines(72, 100, [f"Part {number * 'I'}", *PROSE])
            sheet.text(300, 760, str(number))
            sheet.next_page()
        document = read_pdf(sheet.save())
        assert not [text for text in texts(document) if "Fern Hill" in text or text.isdigit()]
        assert notes(document, "running").count("Fern Hill College Rivers, page 3") == 1
        assert len(notes(document, "running")) == 8

    def test_a_table_header_at_the_head_of_every_page_is_no_running_head(self, sheet: Sheet) -> None:
        for number in range(3):
            rows = [["Date", "Topic"], *([f"Sept. {5 + k + 8 * number}", f"Stones of the bed {k}"] for k in range(6))]
            sheet.grid((72, 160, 400), [60 + 16 * k for k in range(8)], rows)
            sheet.next_page()
        document = read_pdf(sheet.save())
        assert tables(document)[0][0] == ["Date", "Topic"]
        assert not notes(document, "running")

    def test_struck_text_is_left_out_and_noted(self, sheet: Sheet) -> None:
        end = sheet.text(72, 100, "May 4")
        sheet.across(97, 72, end)
        sheet.text(end + 6, 100, "May 11 map is due")
        document = read_pdf(sheet.save())
        assert texts(document) == ["May 11 map is due"]
        assert notes(document, "struck") == ["May 4"]

    def test_underlined_text_stays(self, sheet: Sheet) -> None:
        end = sheet.text(72, 100, "May 4")
        sheet.across(101.5, 72, end)
        document = read_pdf(sheet.save())
        assert texts(document) == ["May 4"] and not notes(document, "struck")

    def test_turned_text_is_left_out_and_noted(self, sheet: Sheet) -> None:
        sheet.lines(72, 100, PROSE)
        sheet.canvas.rotate(90)
        sheet.canvas.drawString(300, -40, "DRAFT COPY")
        document = read_pdf(sheet.save())
        assert texts(document) == [" ".join(PROSE)]
        assert "DRAFT COPY" in " ".join(notes(document, "unread"))

    def test_pages_beyond_the_limit_are_noted(self, sheet: Sheet) -> None:
        for number in range(4):
            sheet.text(72, 100, f"This is sheet number {number + 1} of the outline")
            sheet.next_page()
        document = read_pdf(sheet.save(), ReadingLimits(pages=2))
        assert len(texts(document)) == 2 and document.pages == 4
        assert notes(document, "unread") == ["only the first 2 of 4 pages were read"]


def test_places_are_in_points_from_the_top_left(sheet: Sheet) -> None:
    sheet.text(WIDTH / 2, 144, "halfway across, two inches down")
    (line,) = read_pdf(sheet.save()).lines()
    box = line.place.box
    assert box is not None and box.left == pytest.approx(306, abs=0.5)
    assert box.top < 144 < box.bottom and box.bottom - box.top == pytest.approx(10, abs=2)


def _letters(document: Document) -> Counter[str]:
    found = [f"{line.marker}{line.text}" for line in document.lines()] + [note.text for note in document.notes]
    return Counter(re.sub(r"\s", "", "".join(found)))


WORDS = st.lists(st.from_regex(r"[A-Za-z0-9]{1,9}[.,;:]?", fullmatch=True), min_size=1, max_size=5)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture], derandomize=True)
@given(
    rows=st.lists(
        st.tuples(WORDS, st.sampled_from([60, 72, 90, 200, 330]), st.booleans(), st.booleans()), min_size=1, max_size=30
    ),
    boxed=st.booleans(),
)
def test_every_letter_is_read_once(tmp_path: Path, rows: list[tuple[list[str], int, bool, bool]], boxed: bool) -> None:
    sheet = Sheet(tmp_path / "any.pdf")
    printed: Counter[str] = Counter()
    for number, (words, left, second, bold) in enumerate(rows):
        base = 60 + 22 * number
        font = "Helvetica-Bold" if bold else "Helvetica"
        end = sheet.text(left, base, " ".join(words), size=7, font=font)
        printed.update("".join(words))
        if second:
            sheet.text(end + 30, base, "and more", size=7)
            printed.update("andmore")
        if boxed and number % 3 == 0:
            sheet.across(base + 6, 50, 560)
    if boxed:
        sheet.down(50, 66, 700)
        sheet.down(300, 66, 700)
    document = read_pdf(sheet.save())
    assert _letters(document) == printed
    assert all(block.place.page == 1 for block in document.blocks if isinstance(block, (Line, Table)))


def test_lines_with_a_day_before_a_gap_are_entries_even_where_they_end_alike(sheet: Sheet) -> None:
    rows = (
        ("22", "Reading a map closely. Homework 3 is due by noon"),
        ("29", "A guest from the harbour. Lab report 4 is due"),
    )
    for number, (day, words) in enumerate(rows):
        sheet.text(72, 100 + 14 * number, day)
        sheet.text(140, 100 + 14 * number, words)
    sheet.text(72, 160, "Bring the chart and a ruler to each class; a compass helps, and somebody has one to lend you.")
    assert texts(read_pdf(sheet.save()))[:2] == [" ".join(row) for row in rows]
