"""Tables in PDF files as read: drawn, half drawn and only aligned, merged cells, tables over page breaks."""

from __future__ import annotations

from pathlib import Path

import pytest

from syllabus_io.extract.pdf import read_pdf
from tests.extract.pdf_files import Sheet, notes, only_table, tables, texts

SCHEDULE = [
    ["Week", "Date", "Topic", "Due"],
    ["1", "Sept. 8", "Opening walk", ""],
    ["2", "Sept. 15", "Depth and speed", "Map 1"],
    ["3", "Sept. 22", "Gravel", ""],
    ["4", "Sept. 29", "Floods", "Essay on floods"],
]
LEFTS = (72, 130, 220, 380)


@pytest.fixture
def sheet(tmp_path: Path) -> Sheet:
    return Sheet(tmp_path / "outline.pdf")


class TestDrawn:
    def test_a_drawn_table_is_read_cell_by_cell(self, sheet: Sheet) -> None:
        sheet.text(72, 80, "Schedule", size=14)
        sheet.grid((*LEFTS, 520), [100 + 16 * k for k in range(6)], SCHEDULE)
        sheet.text(72, 220, "Dates may move; watch the board.")
        document = read_pdf(sheet.save())
        assert tables(document) == [SCHEDULE]
        assert only_table(document).ruled
        assert texts(document) == ["Schedule", "Dates may move; watch the board."]

    def test_cells_know_their_place(self, sheet: Sheet) -> None:
        sheet.grid((*LEFTS, 520), [100 + 16 * k for k in range(6)], SCHEDULE)
        table = only_table(read_pdf(sheet.save()))
        (cell,) = [cell for cell in table.cells if cell.text == "Map 1"]
        assert (cell.row, cell.column, cell.place.row, cell.place.column) == (3, 4, 3, 4)
        assert cell.place.box == pytest.approx((380, 132, 520, 148), abs=1)

    def test_wrapped_lines_in_a_cell_are_joined_and_entries_are_not(self, sheet: Sheet) -> None:
        rows = [
            ["Date", "Due"],
            ["Sept. 8", "The report on the walk\nalong the lower river"],
            ["Sept. 15", "Map 1\nQuiz 2"],
        ]
        sheet.grid((72, 160, 282), [100, 120, 150, 180], rows)
        found = tables(read_pdf(sheet.save()))
        assert found == [
            [
                ["Date", "Due"],
                ["Sept. 8", "The report on the walk along the lower river"],
                ["Sept. 15", "Map 1\nQuiz 2"],
            ]
        ]

    def test_merged_cells_stand_once_with_their_spans(self, sheet: Sheet) -> None:
        # rows: a title over all columns, then a month beside two dates
        for top in (100, 120):
            sheet.across(top, 72, 400)
        sheet.across(140, 150, 400)
        sheet.across(160, 72, 400)
        for at, top in ((72, 100), (150, 120), (250, 120), (400, 100)):
            sheet.down(at, top, 160)
        sheet.text(80, 114, "Dates to keep")
        sheet.text(80, 134, "October")
        sheet.text(156, 134, "Oct. 6")
        sheet.text(256, 134, "Map 1 is due")
        sheet.text(156, 154, "Oct. 20")
        sheet.text(256, 154, "No class")
        table = only_table(read_pdf(sheet.save()))
        spans = {cell.text: (cell.row, cell.column, cell.row_span, cell.column_span) for cell in table.cells}
        assert spans == {
            "Dates to keep": (1, 1, 1, 3),
            "October": (2, 1, 2, 1),
            "Oct. 6": (2, 2, 1, 1),
            "Map 1 is due": (2, 3, 1, 1),
            "Oct. 20": (3, 2, 1, 1),
            "No class": (3, 3, 1, 1),
        }

    def test_a_box_round_text_is_no_table(self, sheet: Sheet) -> None:
        sheet.box(60, 90, 540, 140)
        sheet.lines(72, 106, ["Note", "Bring boots to every class that goes outside."])
        document = read_pdf(sheet.save())
        assert not tables(document) and texts(document) == ["Note", "Bring boots to every class that goes outside."]

    def test_a_frame_round_the_page_is_no_table(self, sheet: Sheet) -> None:
        sheet.box(20, 20, 590, 770)
        sheet.lines(72, 106, ["Rivers and Maps", "Bring boots."])
        assert not tables(read_pdf(sheet.save()))

    def test_words_in_touching_cells_are_not_glued(self, sheet: Sheet) -> None:
        sheet.grid((72, 100, 128, 156), [100, 116, 132], [["M", "T", "W"], ["4", "5", "6"]])
        sheet.text(98, 160, " ")
        assert tables(read_pdf(sheet.save())) == [[["M", "T", "W"], ["4", "5", "6"]]]

    def test_rows_without_rules_between_them_are_parted(self, sheet: Sheet) -> None:
        # rules under the header and between the columns only
        sheet.across(116, 72, 400)
        for at in (130, 260):
            sheet.down(at, 100, 180)
        rows = [
            ["Quiz", "Topic", "Date"],
            ["1", "Stones", "Feb. 10"],
            ["2", "Water", "Feb. 24"],
            ["3", "Ice", "March 9"],
        ]
        sheet.columns((80, 140, 270), 112, rows, leading=18)
        assert tables(read_pdf(sheet.save())) == [rows]


class TestRulesAcross:
    def test_columns_come_from_gutters_and_rows_from_rules(self, sheet: Sheet) -> None:
        for top in (100, 118, 148, 178):
            sheet.across(top, 72, 500)
        sheet.columns((76, 180, 330), 112, [["Date", "Topic", "Due"]])
        sheet.columns((76, 180, 330), 130, [["Sept. 8", "Opening walk", "Map 1 and"], ["", "and safety", "field book"]])
        sheet.columns((76, 180, 330), 160, [["Sept. 15", "Depth and", "Essay"], ["", "speed", ""]])
        assert tables(read_pdf(sheet.save())) == [
            [
                ["Date", "Topic", "Due"],
                ["Sept. 8", "Opening walk and safety", "Map 1 and field book"],
                ["Sept. 15", "Depth and speed", "Essay"],
            ]
        ]

    def test_rows_between_two_rules_are_parted_by_their_first_column(self, sheet: Sheet) -> None:
        for top in (100, 118, 192):
            sheet.across(top, 72, 500)
        rows = [
            ["Date", "Topic", "Due"],
            ["Sept. 8", "Opening walk", ""],
            ["Sept. 15", "Depth", "Map 1"],
            ["Sept. 22", "Gravel", "Essay"],
        ]
        sheet.columns((76, 180, 330), 112, rows, leading=18)
        assert tables(read_pdf(sheet.save())) == [rows]

    def test_labels_that_repeat_part_a_day_into_rows(self, sheet: Sheet) -> None:
        days = ["May 4", "May 11", "May 18"]
        for number, day in enumerate(days):
            top = 100 + 60 * number
            sheet.across(top, 72, 500)
            rows = [["Class", day], ["Due", f"Map {number + 1}"], ["Read", f"Chapter {number + 5}"]]
            sheet.columns((76, 160), top + 14, rows, leading=18)
        sheet.across(280, 72, 500)
        (found,) = tables(read_pdf(sheet.save()))
        assert found[:3] == [["Class", "May 4"], ["Due", "Map 1"], ["Read", "Chapter 5"]] and len(found) == 9


class TestAligned:
    def test_a_table_without_rules_is_found(self, sheet: Sheet) -> None:
        sheet.text(72, 80, "Schedule", size=14)
        sheet.columns(LEFTS, 110, SCHEDULE)
        document = read_pdf(sheet.save())
        assert tables(document) == [SCHEDULE]
        assert not only_table(document).ruled

    def test_a_row_with_a_struck_date_stays_a_row(self, sheet: Sheet) -> None:
        rows = [row[1:] for row in SCHEDULE]
        sheet.columns(LEFTS[1:], 110, rows)
        sheet.across(107 + 14 * 2, 129, 168)
        document = read_pdf(sheet.save())
        (found,) = tables(document)
        assert found[2] == ["", "Depth and speed", "Map 1"]
        assert found[1] == rows[1], "the work of the struck row must not move to the row before"
        assert notes(document, "struck") == ["Sept. 15"]

    def test_wrapped_entries_stay_in_their_row(self, sheet: Sheet) -> None:
        sheet.columns(
            (72, 160, 340),
            110,
            [
                ["Date", "Topic", "Due"],
                ["May 4", "Rivers that carry sand", "Map 1"],
                ["", "and gravel to the sea", ""],
                ["May 11", "Lakes", ""],
                ["May 18", "Springs", "Essay on"],
                ["", "", "springs"],
            ],
        )
        assert tables(read_pdf(sheet.save())) == [
            [
                ["Date", "Topic", "Due"],
                ["May 4", "Rivers that carry sand and gravel to the sea", "Map 1"],
                ["May 11", "Lakes", ""],
                ["May 18", "Springs", "Essay on springs"],
            ]
        ]

    @pytest.mark.parametrize("down", [11, 5.5], ids=["foot", "middle"])
    def test_dates_set_lower_than_the_top_of_their_rows(self, sheet: Sheet, down: float) -> None:
        sheet.text(72, 83, "Date")
        sheet.text(140, 83, "Topic")
        sheet.text(360, 83, "Due")
        rows = [("Sept. 8", ""), ("Sept. 15", "Pond map"), ("Sept. 22", ""), ("Sept. 29", "Gravel counts")]
        for number, (day, due) in enumerate(rows):
            base = 100 + 28 * number
            sheet.lines(140, base, ["A walk to the lower river and", "back along the old canal"], leading=11)
            sheet.text(72, base + down, day)
            if due:
                sheet.text(360, base + down, due)
        (found,) = tables(read_pdf(sheet.save()))
        walk = "A walk to the lower river and back along the old canal"
        assert found == [["Date", "Topic", "Due"], *([day, walk, due] for day, due in rows)]

    @pytest.mark.parametrize("share", [0.5, 1.0], ids=["middle", "foot"])
    def test_a_table_set_solid_with_dates_below_the_tops_of_its_rows(self, sheet: Sheet, share: float) -> None:
        sheet.columns((72, 140, 360), 100, [["Date", "Topic", "Due"]])
        rows = [
            ("Sept. 8", "A walk to the\nlower river", ""),
            ("Sept. 15", "Maps", "Pond map"),
            ("Sept. 22", "Gravel, sand, silt\nand what they tell\nof the river", "Plan"),
            ("Sept. 29", "Floods", ""),
            ("Oct. 6", "Deltas and the\npeople of deltas", "Gravel counts"),
        ]
        base = 112.0
        for day, topic, due in rows:
            lines = topic.split("\n")
            sheet.lines(140, base, lines)
            sheet.text(72, base + share * 12 * (len(lines) - 1), day)
            if due:
                sheet.text(360, base, due)
            base += 12 * len(lines)
        document = read_pdf(sheet.save())
        (found,) = tables(document)
        assert found[1:] == [[day, topic.replace("\n", " "), due] for day, topic, due in rows]
        assert notes(document, "loose") == [], "the places of the dates tell the rows apart"

    def test_a_day_that_wraps_below_its_month_stays_in_its_row(self, sheet: Sheet) -> None:
        sheet.columns((72, 190, 400), 100, [["Date", "Topic", "Due"]])
        base = 117.0
        for month, day, topic in (("January", "17", "Maps"), ("January", "24", "Scale"), ("February", "7", "Field")):
            sheet.columns((72, 190, 400), base, [[f"Wednesday, {month}", topic, "Essay"], [day, "", ""]], leading=12)
            base += 29
        sheet.columns((72, 190, 400), base, [["Wednesday, May 2", "Talks", ""], ["Wednesday, May 9", "Talks", ""]], 17)
        (found,) = tables(read_pdf(sheet.save()))
        assert [row[0] for row in found[1:]] == [
            "Wednesday, January 17",
            "Wednesday, January 24",
            "Wednesday, February 7",
            "Wednesday, May 2",
            "Wednesday, May 9",
        ]

    def test_rows_that_nothing_tells_apart_are_noted(self, sheet: Sheet) -> None:
        sheet.columns((72, 140, 360), 100, [["Date", "Topic", "Due"]])
        entries = ["One", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven"]
        sheet.lines(140, 112, [f"{entry} and more of it" for entry in entries])
        for number, day in ((1, "Sept. 8"), (3, "Sept. 15"), (4, "Sept. 22"), (8, "Sept. 29")):
            sheet.text(72, 112 + 12 * number, day)
        assert len(notes(read_pdf(sheet.save()), "loose")) == 1

    def test_text_below_a_table_is_not_part_of_it(self, sheet: Sheet) -> None:
        sheet.columns(LEFTS, 110, SCHEDULE)
        sheet.text(72, 186, "Late maps lose a mark a day, and no map is taken after a week has gone by since then.")
        document = read_pdf(sheet.save())
        assert tables(document) == [SCHEDULE] and len(texts(document)) == 1

    def test_running_text_with_wide_blanks_is_no_table(self, sheet: Sheet) -> None:
        for number in range(6):
            left = sheet.text(72, 100 + 12 * number, "One walk a week" + " and a talk" * (number % 3))
            sheet.text(left + 14, 100 + 12 * number, "with time to draw what was seen on the way back home")
        assert not tables(read_pdf(sheet.save()))


class TestOverPages:
    def test_a_drawn_table_goes_on_without_its_repeated_header(self, sheet: Sheet) -> None:
        sheet.grid((*LEFTS, 520), [660 + 16 * k for k in range(4)], SCHEDULE[:3])
        sheet.next_page()
        sheet.grid((*LEFTS, 520), [60 + 16 * k for k in range(4)], [SCHEDULE[0], *SCHEDULE[3:]])
        document = read_pdf(sheet.save())
        assert tables(document) == [SCHEDULE]
        assert {cell.place.page for cell in only_table(document).cells} == {1, 2}

    def test_an_aligned_table_goes_on_with_other_widths(self, sheet: Sheet) -> None:
        sheet.columns(LEFTS, 700, SCHEDULE[:3])
        sheet.next_page()
        sheet.columns(LEFTS, 60, [*SCHEDULE[3:], ["5", "Oct. 6", "Springs and wells in dry years", ""]])
        assert tables(read_pdf(sheet.save())) == [[*SCHEDULE, ["5", "Oct. 6", "Springs and wells in dry years", ""]]]

    def test_a_row_parted_by_the_page_break_is_one_row(self, sheet: Sheet) -> None:
        sheet.grid((*LEFTS, 520), [660 + 16 * k for k in range(4)], SCHEDULE[:3])
        sheet.next_page()
        rest = [["", "", "and width", ""], *SCHEDULE[3:]]
        sheet.grid((*LEFTS, 520), [60 + 16 * k for k in range(4)], rest)
        (found,) = tables(read_pdf(sheet.save()))
        assert found[2] == ["2", "Sept. 15", "Depth and speed\nand width", "Map 1"] and len(found) == len(SCHEDULE)

    def test_a_row_whose_date_is_parted_is_one_row(self, sheet: Sheet) -> None:
        days = [f"Monday, May {day}" for day in (4, 11, 18, 25)]
        sheet.grid(
            (72, 180, 400), [630 + 16 * k for k in range(5)], [["Date", "Due"], *([day, "Map"] for day in days[:3])]
        )
        sheet.grid((72, 180, 400), [694, 710], [["Monday,", "Essay on floods"]])
        sheet.next_page()
        rest = [["May 25", ""], ["Monday, June 1", "Map"], ["Monday, June 8", "Map"]]
        sheet.grid((72, 180, 400), [60 + 16 * k for k in range(4)], rest)
        (found,) = tables(read_pdf(sheet.save()))
        assert [row[0].replace("\n", " ") for row in found[1:]] == [*days, "Monday, June 1", "Monday, June 8"]
        assert found[4][1] == "Essay on floods"

    def test_a_row_with_its_own_date_is_not_taken_for_the_rest_of_another(self, sheet: Sheet) -> None:
        sheet.grid((*LEFTS, 520), [660 + 16 * k for k in range(5)], SCHEDULE[:4])
        sheet.next_page()
        rest = [SCHEDULE[4], ["5", "Oct. 6", "", ""], ["6", "Oct. 13", "Springs", ""]]
        sheet.grid((*LEFTS, 520), [60 + 16 * k for k in range(4)], rest)
        assert tables(read_pdf(sheet.save())) == [[*SCHEDULE[:4], *rest]]

    def test_a_number_that_counts_on_begins_a_row_below_an_open_phrase(self, sheet: Sheet) -> None:
        rows = [["3", "Bridges"], ["5", "What every town looks up to"], ["10", "Review and rest"], ["12", "Canals"]]
        sheet.columns((72, 110), 100, rows)
        assert tables(read_pdf(sheet.save())) == [rows]

    def test_two_different_tables_stay_two(self, sheet: Sheet) -> None:
        sheet.grid((*LEFTS, 520), [660 + 16 * k for k in range(6)], SCHEDULE)
        sheet.next_page()
        sheet.grid((72, 300, 520), [60, 76, 92], [["Work", "Weight"], ["Maps", "60%"]])
        assert len(tables(read_pdf(sheet.save()))) == 2

    def test_a_row_without_its_number_but_with_its_own_date_is_no_rest_of_another(self, sheet: Sheet) -> None:
        lefts = (72, 110, 200, 400)
        rows = [["#", "Date", "Topic"], *([str(n), f"Mon Sep {n}", "Maps"] for n in range(4, 9))]
        sheet.grid(lefts, [600 + 16 * k for k in range(7)], rows)
        sheet.next_page()
        sheet.grid(
            lefts, [72 + 16 * k for k in range(3)], [["", "Mon Oct 10", "Fall break"], ["9", "Wed Oct 12", "Dots"]]
        )
        (found,) = tables(read_pdf(sheet.save()))
        assert found[-2:] == [["", "Mon Oct 10", "Fall break"], ["9", "Wed Oct 12", "Dots"]]
