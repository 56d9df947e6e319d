"""Word files as read, held against ECMA-376 part 1 (sections named beside each test) and against python-docx."""

from __future__ import annotations

from pathlib import Path

import docx
import pytest

from syllabus_io.extract.document import Document, Line, Table
from syllabus_io.extract.word import read_word
from tests.extract.word_files import (
    NAMES,
    cell,
    level,
    listed,
    numbering,
    paragraph,
    row,
    run,
    table,
    write_word,
)


def texts(document: Document) -> list[str]:
    """The text of every line outside tables."""
    return [block.text for block in document.blocks if isinstance(block, Line)]


def only_table(document: Document) -> Table:
    """The one table of a document."""
    (found,) = [block for block in document.blocks if isinstance(block, Table)]
    return found


def read(tmp_path: Path, body: str, parts: dict[str, str] | None = None, section: str = "") -> Document:
    """The document read from a Word file with this body."""
    return read_word(write_word(tmp_path / "outline.docx", body, parts, section))


# --- order -----------------------------------------------------------------------------------------------


def test_what_python_docx_writes_is_read_in_the_same_order(tmp_path: Path) -> None:
    # source: python-docx, which wrote the file, names its paragraphs and cells
    made = docx.Document()
    made.add_heading("Soil Science", 1)
    made.add_paragraph("Before the table")
    grid = made.add_table(2, 2)
    for number, part in enumerate(grid.rows):
        for column, part_cell in enumerate(part.cells):
            part_cell.text = f"r{number}c{column}"
    made.add_paragraph("After the table", style="List Bullet")
    path = tmp_path / "made.docx"
    made.save(str(path))
    document = read_word(path)
    first, second, third, fourth = document.blocks
    assert isinstance(first, Line) and isinstance(second, Line) and isinstance(fourth, Line)
    assert (first.text, first.level) == ("Soil Science", 1)
    assert (second.text, second.level) == ("Before the table", 0)
    assert isinstance(third, Table)
    assert [found.text for found in third.cells] == ["r0c0", "r0c1", "r1c0", "r1c1"]
    assert (fourth.text, fourth.marker, fourth.depth) == ("After the table", "•", 1)
    assert [block.place.block for block in document.blocks] == [1, 2, 3, 4]


def test_content_controls_are_entered_and_their_placeholders_left_out(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.5.2: block, run, row and cell content controls; 17.5.2.39 showingPlcHdr
    body = (
        f"<w:sdt><w:sdtContent>{paragraph('A block')}</w:sdtContent></w:sdt>"
        + paragraph("a ", f"<w:sdt><w:sdtContent>{run('run')}</w:sdtContent></w:sdt>", " inside")
        + f"<w:sdt><w:sdtPr><w:showingPlcHdr/></w:sdtPr><w:sdtContent>{paragraph('Tap here')}</w:sdtContent></w:sdt>"
        + table(f"<w:sdt><w:sdtContent>{row('one', 'two')}</w:sdtContent></w:sdt>")
    )
    document = read(tmp_path, body)
    assert texts(document) == ["A block", "a run inside"]
    assert [found.text for found in only_table(document).cells] == ["one", "two"]


def test_a_text_box_is_read_once_though_it_is_stored_twice(tmp_path: Path) -> None:
    # Markup compatibility, ECMA-376 part 3, 7.5: the fallback repeats the choice for older programs
    box = f"<w:txbxContent>{paragraph('Quiz every Monday')}</w:txbxContent>"
    shape = (
        "<mc:AlternateContent><mc:Choice Requires='wps'>"
        f"<w:drawing><wps:wsp><wps:txbx>{box}</wps:txbx></wps:wsp></w:drawing></mc:Choice>"
        f"<mc:Fallback><w:pict><v:shape><v:textbox>{box}</v:textbox></v:shape></w:pict></mc:Fallback>"
        "</mc:AlternateContent>"
    )
    document = read(tmp_path, paragraph("Above", f"<w:r>{shape}</w:r>") + paragraph("Below"))
    assert texts(document) == ["Above", "Quiz every Monday", "Below"]


def test_an_old_text_box_is_read(tmp_path: Path) -> None:
    box = f"<v:textbox><w:txbxContent>{paragraph('In a box')}</w:txbxContent></v:textbox>"
    pict = f"<w:pict><v:shape>{box}</v:shape></w:pict>"
    assert texts(read(tmp_path, paragraph("Above", f"<w:r>{pict}</w:r>"))) == ["Above", "In a box"]


# --- text ------------------------------------------------------------------------------------------------


def test_tracked_changes_are_read_as_accepted(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.13.5: ins is kept, del goes; moved text stands where it was moved to
    body = (
        paragraph(
            "Essay due ",
            "<w:del><w:r><w:delText>6</w:delText></w:r></w:del>",
            f"<w:ins>{run('9')}</w:ins>",
            " October",
        )
        + paragraph(f"<w:moveFrom>{run('Moved')}</w:moveFrom>")
        + paragraph(f"<w:moveTo>{run('Moved')}</w:moveTo>")
    )
    document = read(tmp_path, body)
    assert texts(document) == ["Essay due 9 October", "Moved"]
    assert [(note.kind, note.text) for note in document.notes] == [("deleted", "6")]


def test_a_deleted_paragraph_mark_joins_two_paragraphs(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.13.5.15: del among the properties of a paragraph's mark
    body = paragraph("Midterm on ", properties="<w:rPr><w:del/></w:rPr>") + paragraph("8 October")
    assert texts(read(tmp_path, body)) == ["Midterm on 8 October"]


def test_a_deleted_row_is_left_out(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.13.5.13
    body = table(row("1", "kept"), row("2", "gone", properties="<w:del/>"), row("3", "kept too"))
    document = read(tmp_path, body)
    assert [found.text for found in only_table(document).cells] == ["1", "kept", "3", "kept too"]
    assert [note.kind for note in document.notes] == ["deleted"]


@pytest.mark.parametrize("name", ["strike", "dstrike"])
def test_struck_text_is_left_out_and_noted(tmp_path: Path, name: str) -> None:
    # ECMA-376 part 1, 17.3.2.37 and 17.3.2.9
    document = read(tmp_path, paragraph("Due ", run("Monday", f"<w:{name}/>"), " Tuesday"))
    assert texts(document) == ["Due Tuesday"]
    assert [(note.kind, note.text) for note in document.notes] == [("struck", "Monday")]


def test_hidden_text_is_left_out(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.3.2.41; the value 0 turns it off, 17.17.4
    body = paragraph("seen", run(" hidden", "<w:vanish/>"), run(" shown", '<w:vanish w:val="0"/>'))
    assert texts(read(tmp_path, body)) == ["seen shown"]


def test_of_a_field_only_the_result_is_read_also_across_paragraphs(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.16.18: code up to "separate", result up to "end"; fields nest
    def mark(kind: str) -> str:
        return f'<w:r><w:fldChar w:fldCharType="{kind}"/></w:r>'

    code = "<w:r><w:instrText> DATE \\@ d </w:instrText></w:r>"
    inner = mark("begin") + code + mark("separate") + run("INNER CODE RESULT") + mark("end")
    body = (
        paragraph("Class meets ", mark("begin"), code, inner, mark("separate"), "Tuesdays")
        + paragraph("and Thursdays", mark("end"), " at ten")
        + paragraph("Room ", f'<w:fldSimple w:instr="REF room">{run("12")}</w:fldSimple>')
    )
    assert texts(read(tmp_path, body)) == ["Class meets Tuesdays", "and Thursdays at ten", "Room 12"]


def test_links_smart_tags_and_special_characters(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.16.22, 17.5.1.9, 17.3.3.18 (noBreakHyphen), 17.3.3.29 (softHyphen), 17.3.3.30 (sym);
    # the arrow and the tick are 0xE0 and 0xFC in Unicode's mapping table of the Wingdings face
    body = paragraph(
        f"<w:hyperlink>{run('a link')}</w:hyperlink>",
        f"<w:smartTag>{run(' to')}</w:smartTag>",
        run("\u00a0Chapter\u00a03 "),
        "<w:r><w:t>pp. 4</w:t><w:noBreakHyphen/><w:t>9, home</w:t><w:softHyphen/><w:t>work </w:t>"
        '<w:sym w:font="Wingdings" w:char="F0E0"/><w:t xml:space="preserve"> 5 </w:t>'
        '<w:sym w:font="Wingdings" w:char="F0FC"/></w:r>',
    )
    assert texts(read(tmp_path, body)) == ["a link to Chapter 3 pp. 4-9, homework → 5 ✓"]


def test_a_raised_note_number_does_not_grow_into_a_date(tmp_path: Path) -> None:
    body = paragraph("Essay due Oct 6", run("1", '<w:vertAlign w:val="superscript"/>'), ", later than last year")
    (line,) = texts(read(tmp_path, body))
    assert line == "Essay due Oct 6 ¹, later than last year", "a reader must never see Oct 61"


def test_line_breaks_part_lines_in_text_and_in_cells(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.3.3.1
    broken = "<w:r><w:t>HW 1 due</w:t><w:br/><w:t>Quiz 2</w:t></w:r>"
    document = read(tmp_path, paragraph(broken) + table(row(cell(paragraph(broken)), "x")))
    assert texts(document) == ["HW 1 due", "Quiz 2"]
    first = only_table(document).cells[0]
    assert first.text == "HW 1 due\nQuiz 2"
    assert [line.text for line in first.lines] == ["HW 1 due", "Quiz 2"]


# --- looks -----------------------------------------------------------------------------------------------

STYLES = (
    f"<w:styles {NAMES}><w:docDefaults><w:rPrDefault><w:rPr><w:sz w:val='22'/></w:rPr></w:rPrDefault></w:docDefaults>"
    "<w:style w:type='paragraph' w:default='1' w:styleId='Normal'><w:name w:val='Normal'/></w:style>"
    "<w:style w:type='paragraph' w:styleId='Part'><w:name w:val='Part'/><w:basedOn w:val='Normal'/>"
    "<w:pPr><w:outlineLvl w:val='1'/></w:pPr><w:rPr><w:b/><w:sz w:val='28'/></w:rPr></w:style>"
    "<w:style w:type='paragraph' w:styleId='SmallPart'><w:name w:val='Small part'/><w:basedOn w:val='Part'/></w:style>"
    "<w:style w:type='character' w:styleId='Strong'><w:name w:val='Strong'/><w:rPr><w:b/></w:rPr></w:style>"
    "</w:styles>"
)


def test_looks_come_down_through_styles(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.7.2 (basedOn), 17.3.1.20 (outlineLvl counts from 0)
    document = read(tmp_path, paragraph("Grading", properties='<w:pStyle w:val="SmallPart"/>'), {"styles": STYLES})
    line = document.blocks[0]
    assert isinstance(line, Line)
    assert (line.bold, line.size, line.level) == (True, 14.0, 2)


def test_a_toggle_set_twice_by_styles_is_off_and_direct_formatting_is_absolute(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.7.3
    strong = '<w:rStyle w:val="Strong"/>'
    twice = paragraph(run("plain", strong), properties='<w:pStyle w:val="Part"/>')
    direct = paragraph(run("bold", strong + "<w:b/>"), properties='<w:pStyle w:val="Part"/>')
    lines = list(read(tmp_path, twice + direct, {"styles": STYLES}).lines())
    assert [line.bold for line in lines] == [False, True]


def test_a_bold_opening_is_the_lead(tmp_path: Path) -> None:
    body = paragraph(run("Late", "<w:b/>"), run(" work:", "<w:b/>"), run(" two days at most, then no credit at all"))
    line = next(read(tmp_path, body).lines())
    assert (line.lead, line.bold, line.level) == ("Late work:", False, 0)


@pytest.mark.parametrize(
    ("markup", "is_heading"),
    [
        (paragraph(run("Course policies", "<w:b/>")), True),
        (paragraph(run("Course policies", '<w:u w:val="single"/>')), True),
        (paragraph(run("Course policies", '<w:sz w:val="32"/>')), True),
        (paragraph("COURSE POLICIES"), True),
        (paragraph(run("Unit 3: Rivers", "<w:b/>")), True),
        (paragraph(run("Office: Hall 12", "<w:b/>")), False),
        (paragraph(run("No late work is taken.", "<w:b/>")), False),
        (paragraph("Course policies"), False),
    ],
)
def test_short_lines_that_stand_out_are_headings(tmp_path: Path, markup: str, is_heading: bool) -> None:
    # common practice, no source
    filler = paragraph("Some longer text of the body, set in the size that most of the outline is set in, ends here.")
    line = next(read(tmp_path, markup + filler * 3, {"styles": STYLES}).lines())
    assert (line.level > 0) is is_heading, f"{line.text!r} has heading level {line.level}"


def test_a_sentence_in_the_style_of_a_heading_is_no_heading(tmp_path: Path) -> None:
    text = "Every report must name its sources, show its working and be handed in on paper before the class begins."
    line = next(read(tmp_path, paragraph(text, properties='<w:pStyle w:val="Part"/>'), {"styles": STYLES}).lines())
    assert line.level == 0


# --- lists -----------------------------------------------------------------------------------------------


def test_bullets_and_numbers_become_markers_with_depth(tmp_path: Path) -> None:
    levels = level(0, "decimal", "%1.") + level(1, "lowerLetter", "(%2)") + level(2, "bullet", "\uf0b7")
    body = listed("one") + listed("a", 1) + listed("b", 1) + listed("dot", 2) + listed("two") + listed("again a", 1)
    lines = list(read(tmp_path, body, {"numbering": numbering(levels)}).lines())
    assert [(line.marker, line.depth) for line in lines] == [
        ("1.", 1),
        ("(a)", 2),
        ("(b)", 2),
        ("•", 3),
        ("2.", 1),
        ("(a)", 2),
    ]
    assert lines[0].indent == 36.0, "the list level's own indent, 720 twentieths of a point"


def test_a_number_with_a_word_stays_in_the_text(tmp_path: Path) -> None:
    parts = {"numbering": numbering(level(0, "decimal", "Week %1:", start=3))}
    assert texts(read(tmp_path, listed("Rivers") + listed("Lakes"), parts)) == ["Week 3: Rivers", "Week 4: Lakes"]


def test_an_empty_numbered_cell_shows_its_number(tmp_path: Path) -> None:
    rows = [row(cell(listed("")), topic) for topic in ("Rivers", "Lakes")]
    document = read(tmp_path, table(*rows), {"numbering": numbering(level(0, "decimal", "%1."))})
    assert [found.text for found in only_table(document).cells] == ["1", "Rivers", "2", "Lakes"]


@pytest.mark.parametrize(
    ("typed", "marker", "text"),
    [
        ("•\tBring a ruler", "•", "Bring a ruler"),
        ("- Bring a ruler", "•", "Bring a ruler"),
        ("2.\tBring a ruler", "2.", "Bring a ruler"),
        ("– 5 points", "•", "5 points"),
        ("10.5 points", "", "10.5 points"),
    ],
)
def test_typed_bullets_are_markers_too(tmp_path: Path, typed: str, marker: str, text: str) -> None:
    markup = f'<w:r><w:t xml:space="preserve">{typed}</w:t></w:r>'.replace("\t", "</w:t><w:tab/><w:t>")
    line = next(read(tmp_path, paragraph(markup)).lines())
    assert (line.marker, line.text) == (marker, text)


# --- tables ----------------------------------------------------------------------------------------------


def test_merged_cells_agree_with_python_docx(tmp_path: Path) -> None:
    # source: python-docx, whose grid names the same cell in every position that a merged one covers
    made = docx.Document()
    grid = made.add_table(4, 4)
    for number in range(4):
        for column in range(4):
            grid.cell(number, column).text = f"{number}{column}"
    grid.cell(0, 0).merge(grid.cell(0, 2))
    grid.cell(1, 0).merge(grid.cell(3, 0))
    grid.cell(2, 2).merge(grid.cell(3, 3))
    path = tmp_path / "merged.docx"
    made.save(str(path))
    ours = only_table(read_word(path)).grid()
    for number in range(4):
        for column in range(4):
            theirs = grid.cell(number, column)
            found = ours[number][column]
            assert found is not None and found.text == theirs.text, f"row {number + 1}, column {column + 1}"
            for other_row in range(4):
                for other_column in range(4):
                    same = ours[other_row][other_column] is found
                    assert same == (grid.cell(other_row, other_column)._tc is theirs._tc)


def test_grid_before_and_after_leave_holes(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.4.15 and 17.4.14
    body = table(
        row("a", "b", "c"),
        row("d", properties='<w:gridBefore w:val="1"/><w:gridAfter w:val="1"/>'),
    )
    grid = only_table(read(tmp_path, body)).grid()
    assert [[found.text if found else None for found in part] for part in grid] == [["a", "b", "c"], [None, "d", None]]


def test_column_edges_a_hair_apart_are_one(tmp_path: Path) -> None:
    body = table(
        row("Week", cell("Topic", '<w:gridSpan w:val="2"/>'), "Due"),
        row(cell("1", '<w:gridSpan w:val="2"/>'), "Rivers", "Lab 1"),
        grid=(1000, 60, 3000, 2000),
    )
    found = only_table(read(tmp_path, body))
    assert found.column_count == 3
    assert [(part.column, part.column_span) for part in found.cells] == [(1, 1), (2, 1), (3, 1)] * 2


def test_a_nested_table_stays_in_its_cell(tmp_path: Path) -> None:
    inner = table(row("A", "93"), row("B", "85"))
    document = read(tmp_path, table(row(cell(paragraph("Scale") + inner + paragraph("")), "right")))
    outer = only_table(document)
    assert outer.cells[0].text == "Scale"
    assert [found.text for found in outer.cells[0].tables[0].cells] == ["A", "93", "B", "85"]


def test_a_frame_of_one_cell_is_no_table(tmp_path: Path) -> None:
    assert texts(read(tmp_path, table(row(cell(paragraph("Note") + paragraph("Bring it")))))) == ["Note", "Bring it"]


def test_a_table_cut_in_two_is_joined_and_its_repeated_head_left_out(tmp_path: Path) -> None:
    head = ("Date", "Topic", "Due")
    first = table(row(cell("Plan", '<w:gridSpan w:val="3"/>')), row(*head), row("Sep 8", "Rivers", "Lab 1"))
    second = table(row(*head), row("Sep 15", "Lakes", "Lab 2"))
    found = only_table(read(tmp_path, first + paragraph("") + second))
    assert [part.text for part in found.cells if part.column == 3] == ["Due", "Lab 1", "Lab 2"]
    assert [part.place.row for part in found.cells if part.text.startswith("Lab")] == [3, 4]
    apart = read(tmp_path, first + paragraph("After the break") + second)
    assert sum(isinstance(block, Table) for block in apart.blocks) == 2


def test_a_table_that_goes_on_over_the_page_without_a_head_is_joined(tmp_path: Path) -> None:
    turned = "<w:r><w:lastRenderedPageBreak/><w:t>Sep 15</w:t></w:r>"
    first = table(row("Date", "Topic", "Due"), row("Sep 8", "Rivers", "Lab 1"))
    second = table(row(cell(paragraph(turned)), "Lakes", "Lab 2"), row("Sep 22", "Seas", "Lab 3"))
    assert only_table(read(tmp_path, first + paragraph("") + second)).row_count == 4
    same_page = read(tmp_path, first + paragraph("") + table(row("Room", "12", "Hall"), row("Phone", "555", "0100")))
    assert sum(isinstance(block, Table) for block in same_page.blocks) == 2, "two tables on one page stay two"


def test_lines_in_columns_of_tabs_are_a_table_without_rules(tmp_path: Path) -> None:
    def tabbed(*parts: str) -> str:
        return paragraph("<w:r>" + "<w:tab/>".join(f"<w:t>{part}</w:t>" for part in parts) + "</w:r>")

    body = tabbed("Date", "Topic", "Due") + tabbed("Sep 8", "Rivers", "Lab 1") + tabbed("Sep 15", "Lakes", "Lab 2")
    found = only_table(read(tmp_path, body + tabbed("Phone:", "555 0100")))
    assert (found.ruled, found.row_count, found.column_count) == (False, 3, 3)
    assert [part.text for part in found.cells if part.row == 2] == ["Sep 8", "Rivers", "Lab 1"]


def test_dated_lines_in_columns_of_tabs_may_leave_cells_out(tmp_path: Path) -> None:
    def tabbed(text: str) -> str:
        parts = "<w:tab/>".join(f"<w:t>{part}</w:t>" for part in text.split("|"))
        return paragraph(f"<w:r>{parts}</w:r>")

    rows = ["Date|Topic|Due", "Sep 8|Rivers|", "Sep 10||Lab 1", "Sep 15|Lakes|", "Sep 17|Ice|Lab 2", "Sep 22|Dew|"]
    found = only_table(read(tmp_path, "".join(map(tabbed, rows))))
    assert [part.text for part in found.cells if part.column == 3] == ["Due", "", "Lab 1", "", "Lab 2", ""]
    labels = ["Teacher:|Ada Quill", "Room:|Hall 2|Mill 3", "Hours:|Mon 2-4", "Phone:|555 0100", "Fax:|none|none"]
    assert not any(isinstance(block, Table) for block in read(tmp_path, "".join(map(tabbed, labels))).blocks)


# --- notes, running heads, pages -------------------------------------------------------------------------


def test_a_footnote_stands_after_its_paragraph(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.11; separators are notes of another type
    notes = (
        f'<w:footnotes {NAMES}><w:footnote w:id="0" w:type="separator">{paragraph("sep")}</w:footnote>'
        f'<w:footnote w:id="2">{paragraph("Not on the 5th.")}</w:footnote></w:footnotes>'
    )
    body = paragraph("Quizzes on Fridays", '<w:r><w:footnoteReference w:id="2"/></w:r>') + paragraph("Labs")
    lines = list(read(tmp_path, body, {"footnotes": notes}).lines())
    assert [(line.text, line.marker) for line in lines] == [
        ("Quizzes on Fridays", ""),
        ("Not on the 5th.", "1"),
        ("Labs", ""),
    ]


def test_the_first_head_is_read_once_and_feet_are_noted(tmp_path: Path) -> None:
    page = f'<w:fldSimple w:instr=" PAGE ">{run("3")}</w:fldSimple>'
    parts = {
        "header1": f"<w:hdr {NAMES}>{paragraph('GEO 101 Rivers and Lakes')}</w:hdr>",
        "footer1": f"<w:ftr {NAMES}>{paragraph('Page ', page)}{paragraph('Revised in August')}</w:ftr>",
    }
    section = '<w:headerReference r:id="header1" w:type="default"/><w:footerReference r:id="footer1"/>'
    document = read(tmp_path, paragraph("Welcome"), parts, section)
    assert texts(document) == ["GEO 101 Rivers and Lakes", "Welcome"]
    assert [(note.kind, note.text) for note in document.notes] == [("running", "Revised in August")]


def test_pages_come_from_recorded_breaks_and_a_row_moves_as_a_whole(tmp_path: Path) -> None:
    # ECMA-376 part 1, 17.3.3.13
    turned = "<w:r><w:lastRenderedPageBreak/><w:t>2</w:t></w:r>"
    body = paragraph("Start") + table(row("1", "Rivers"), row(cell(paragraph(turned)), "Lakes"), row("3", "Seas"))
    document = read(tmp_path, body)
    assert document.blocks[0].place.page == 1
    assert [part.place.page for part in only_table(document).cells] == [1, 1, 2, 2, 2, 2]


def test_a_paragraph_over_two_pages_knows_both(tmp_path: Path) -> None:
    body = paragraph("first half ", "<w:r><w:lastRenderedPageBreak/><w:t>second half</w:t></w:r>")
    line = next(read(tmp_path, body).lines())
    assert line.place_of(0, 5).page == 1
    assert line.place_of(line.text.index("second"), len(line.text)).page == 2


def test_without_records_no_page_is_claimed(tmp_path: Path) -> None:
    # a template's properties say one page whatever the text holds; the count of words beside it gives that away
    app = "<Properties><Pages>1</Pages><Words>0</Words></Properties>"
    document = read(tmp_path, paragraph("some words " * 400), {"app": app})
    assert document.pages == 0
    assert document.blocks[0].place.page is None
