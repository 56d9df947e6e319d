"""Update keeps everything a person typed, and a second update changes nothing more."""

from __future__ import annotations

import functools
import io
import random
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from syllabus_io.errors import WorkbookMismatch
from syllabus_io.plan.build import make_plan
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.revise.update import Updated, update_workbook
from syllabus_io.workbook.cell_values import content_of, shown
from syllabus_io.workbook.layout_store import KEPT, STORE
from syllabus_io.workbook.write import WorkbookOptions, make_workbook
from tests.revise.hand import Hand, every_constant, heading_column, row_of
from tests.workbook.plans import TERM, history

TODAY = date(2026, 9, 28)
PATH = Path("plan.xlsx")


@functools.cache
def first_made() -> bytes:
    plan = make_plan(ResolvedTerm(TERM, (history(),)))
    return make_workbook(plan, WorkbookOptions(today=TODAY, student="Ines Quill"))


def updated(content: bytes) -> Updated:
    return update_workbook(PATH, content, today=TODAY)


def check_kept(hand: Hand, result: Updated) -> None:
    """Everything typed is where it was typed, or word for word on the sheet for what has no place."""
    found: dict[tuple[str, object], set[tuple[str, str]]] = {}
    assert set(hand.removed) <= set(result.edits.deleted_items), "a removed row came back"
    kept: set[str] = set()
    for sheet, row_id, heading, value in every_constant(result.content):
        found.setdefault((sheet, value), set()).add((row_id, heading))
        if sheet == KEPT:
            kept.add(str(value))
    for typed in hand.typed:
        value = typed.value
        places = found.get((typed.sheet, value))
        if places is None:
            words = value.isoformat() if isinstance(value, date) else shown(content_of(value))
            assert words in kept, f"lost: {value!r} typed on {typed.sheet}"
        elif typed.row_id:
            assert (typed.row_id, typed.heading) in places, f"{value!r} strayed from row {typed.row_id} to {places}"


def test_a_workbook_nobody_touched_comes_back_byte_for_byte() -> None:
    result = updated(first_made())
    assert result.content == first_made()
    assert not result.edits.rows and not result.left and not result.notes


def play(seed: int) -> None:
    hand = Hand(first_made(), random.Random(seed))
    hand.fill_cells(25)
    acts = [
        hand.add_row,
        hand.remove_row,
        hand.add_column,
        hand.add_words_beside,
        hand.add_sheet,
        hand.sort_review,
        hand.insert_row_elsewhere,
        hand.insert_column,
        hand.clear_cells,
    ]
    hand.dice.shuffle(acts)
    for act in acts:
        if hand.dice.random() < 0.6:
            act()
    result = updated(hand.saved())
    check_kept(hand, result)
    again = updated(result.content)
    assert again.content == result.content, "a second update changed something more"


@pytest.mark.parametrize("seed", [0])
def test_everything_typed_survives_and_a_second_update_changes_nothing(seed: int) -> None:
    play(seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(100, 140))
def test_everything_typed_survives_many_hands(seed: int) -> None:
    play(seed)


def test_a_removed_row_stays_out_and_the_others_stay() -> None:
    book = openpyxl.load_workbook(io.BytesIO(first_made()))
    sheet = book["Review"]
    at = row_of(sheet, "Essay 1")
    own = sheet.cell(at, 1).value
    sheet.delete_rows(at)
    packed = io.BytesIO()
    book.save(packed)
    result = updated(packed.getvalue())
    titles = {value for sheet, _, heading, value in every_constant(result.content) if heading == "What"}
    assert "Essay 1" not in titles and "Essay 2" in titles
    assert result.edits.deleted_items == (own,)


def test_a_date_typed_over_a_computed_one_is_its_correction_and_words_are_kept() -> None:
    hand = Hand(first_made(), random.Random(1))
    sheet = hand.book["Review"]
    at = row_of(sheet, "Essay 2")
    sheet.cell(at, heading_column(sheet, "Date as read")).value = date(2026, 11, 9)
    own = str(sheet.cell(at, 1).value)
    sheet.cell(7, heading_column(sheet, "Date used")).value = "ask in class"
    hand.book["Deadlines"]["D9"].value = "see my notes"
    result = updated(hand.saved())
    constants = set(every_constant(result.content))
    assert ("Review", own, "Corrected date", date(2026, 11, 9)) in constants
    assert {"ask in class", "see my notes"} <= {value for name, _, _, value in constants if name == KEPT}


def test_a_copy_without_styles_names_and_results_says_the_same() -> None:
    """Values and formulas alone, as a program may leave them that rewrites everything else."""
    hand = Hand(first_made(), random.Random(7))
    hand.fill_cells(20)
    bare = openpyxl.Workbook()
    bare.remove(bare.worksheets[0])
    for sheet in hand.book.worksheets:
        copy = bare.create_sheet(sheet.title)
        copy.sheet_state = sheet.sheet_state
        for line in sheet.iter_rows():
            for cell in line:
                if cell.value is not None:
                    twin = copy.cell(cell.row, cell.column)
                    twin.value = cell.value
                    twin.number_format = "General"
                    if cell.data_type == "s":
                        twin.data_type = "s"
    packed = io.BytesIO()
    bare.save(packed)
    from_bare, from_whole = updated(packed.getvalue()), updated(hand.saved())
    assert from_bare.content == from_whole.content


def test_words_below_a_list_move_down_as_the_list_grows() -> None:
    """Rows typed on Review lengthen Deadlines, whose formulas then reach the rows where the words stood."""
    hand = Hand(first_made(), random.Random(1))
    review, deadlines = hand.book["Review"], hand.book["Deadlines"]
    free = [at for at in range(7, review.max_row) if str(review.cell(at, 1).value).startswith("own-")]
    for number, at in enumerate(free):
        review.cell(at, heading_column(review, "What")).value = f"added work {number}"
    below = deadlines.max_row + 2
    deadlines.cell(below, 2).value = "ask about the map test"
    result = updated(hand.saved())
    sheet = openpyxl.load_workbook(io.BytesIO(result.content))["Deadlines"]
    held = [at for at in range(1, sheet.max_row + 1) if sheet.cell(at, 2).value == "ask about the map test"]
    assert len(held) == 1 and held[0] > below and not result.left
    assert updated(result.content).content == result.content


def test_a_column_put_before_formulas_loses_nothing_of_its_own() -> None:
    """The formulas beside the table move with their columns: they are not gone, and what is new is not theirs."""
    hand = Hand(first_made(), random.Random(1))
    sheet = hand.book["Commitments"]
    for area in list(sheet.merged_cells.ranges):
        sheet.unmerge_cells(str(area))
    sheet.insert_cols(2)
    sheet["B6"], sheet["B8"] = "With whom", "the rowing club"
    result = updated(hand.saved())
    held = {value for name, _, _, value in every_constant(result.content) if name == "Commitments"}
    assert {"With whom", "the rowing club"} <= held and not result.notes


def test_a_sheet_left_without_formulas_keeps_the_words_beside_them() -> None:
    values = openpyxl.load_workbook(io.BytesIO(first_made()), data_only=True)
    book = openpyxl.load_workbook(io.BytesIO(first_made()))
    sheet = book["Deadlines"]
    for line in sheet.iter_rows():
        for cell in line:
            if cell.data_type == "f":
                cell.value = values["Deadlines"][cell.coordinate].value
    sheet.cell(sheet.max_row + 2, 2).value = "ask about the map test"
    packed = io.BytesIO()
    book.save(packed)
    result = updated(packed.getvalue())
    assert ("Deadlines", "", "", "ask about the map test") in set(every_constant(result.content))
    assert result.notes == ("The formulas of the sheet Deadlines were gone; they have been put back.",)
    assert not result.edits.kept and len(result.edits.loose) == 1


def test_a_file_of_another_kind_is_refused_in_one_line() -> None:
    book = openpyxl.Workbook()
    packed = io.BytesIO()
    book.save(packed)
    with pytest.raises(WorkbookMismatch, match=r"plan\.xlsx: was not made by this program"):
        updated(packed.getvalue())
    with pytest.raises(WorkbookMismatch, match="no workbook"):
        updated(b"words")


@pytest.mark.parametrize(
    ("cell", "value", "words"),
    [("B1", 99, "newer version"), ("B1", 1, "earlier version"), ("C3", "{}", "damaged"), ("A1", "other", "damaged")],
)
def test_a_store_that_is_not_ours_is_refused(cell: str, value: str | int, words: str) -> None:
    book = openpyxl.load_workbook(io.BytesIO(first_made()))
    book[STORE][cell] = value
    packed = io.BytesIO()
    book.save(packed)
    with pytest.raises(WorkbookMismatch, match=words):
        updated(packed.getvalue())
