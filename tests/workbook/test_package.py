"""Faults that make a program repair or refuse a file, each looked for by name (ECMA-376 part 1)."""

from __future__ import annotations

import io
import re
import zipfile
from datetime import date
from itertools import combinations

import pytest
from lxml import etree
from openpyxl.utils.cell import range_boundaries

from syllabus_io.workbook.write import WorkbookOptions
from tests.workbook.plans import small_plan, usual_plan
from tests.workbook.sheets import made, opened

NS = {"m": "http://schemas.openxmlformats.org/spreadsheetml/2006/main"}
# Functions that the format stores with a prefix; programs show #NAME? without it.
NEW_FUNCTIONS = frozenset(
    """AGGREGATE IFNA ISOWEEKNUM RANK.EQ TEXTJOIN CONCAT IFS SWITCH MAXIFS MINIFS DAYS XLOOKUP FILTER SORT UNIQUE
    SEQUENCE LET LAMBDA""".split()  # noqa: SIM905  # a list of words reads better
)
ALLOWED = frozenset(
    """ABS AND CHAR COLUMN COUNT COUNTA COUNTIF COUNTIFS DATE DAY EDATE EOMONTH HOUR IF IFERROR INDEX INT
    ISNUMBER LEFT LEN MATCH MAX MID MIN MINUTE MOD MONTH N NA NOT OR RIGHT ROUND ROUNDUP ROW ROWS SMALL SUBSTITUTE SUM
    SUMIF SUMIFS SUMPRODUCT TODAY TRIM UPPER WEEKDAY YEAR""".split()  # noqa: SIM905
)


@pytest.fixture(scope="module", params=["usual", "small"])
def content(request: pytest.FixtureRequest) -> bytes:
    plan = usual_plan() if request.param == "usual" else small_plan()
    return made(plan, WorkbookOptions(today=date(2026, 9, 28)))


@pytest.fixture(scope="module")
def parts(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def sheets_of(parts: dict[str, bytes]) -> dict[str, etree._Element]:
    return {name: etree.fromstring(data) for name, data in parts.items() if name.startswith("xl/worksheets/sheet")}


def formulas_of(parts: dict[str, bytes]) -> list[str]:
    return [f.text or "" for root in sheets_of(parts).values() for f in root.iterfind(".//m:f", NS)]


def test_sheet_names_are_allowed_and_differ(content: bytes) -> None:
    names = opened(content).sheetnames
    assert len({name.casefold() for name in names}) == len(names)
    for name in names:
        assert 0 < len(name) <= 31 and not re.search(r"[\[\]:*?/\\]", name), name


def test_cells_stand_in_order_and_once(parts: dict[str, bytes]) -> None:
    for part, root in sheets_of(parts).items():
        seen = [range_boundaries(cell.get("r", ""))[1::-1] for cell in root.iterfind(".//m:c", NS)]
        assert seen == sorted(set(seen)), f"{part}: cells out of order or twice"


def test_every_style_and_difference_exists(parts: dict[str, bytes]) -> None:
    styles = etree.fromstring(parts["xl/styles.xml"])
    formats, differences = (len(styles.findall(path, NS)) for path in ("m:cellXfs/m:xf", "m:dxfs/m:dxf"))
    for part, root in sheets_of(parts).items():
        used = {int(cell.get("s", "0")) for cell in root.iterfind(".//m:c", NS)}
        assert max(used) < formats, part
        for rule in root.iterfind(".//m:cfRule", NS):
            assert int(rule.get("dxfId", "0")) < differences, part


def test_formulas_use_only_functions_that_every_program_has(parts: dict[str, bytes]) -> None:
    for formula in formulas_of(parts):
        assert len(formula) <= 8192, "a formula holds 8,192 characters"
        texts = re.findall(r'"((?:[^"]|"")*)"', formula)
        assert all(len(text) <= 255 for text in texts), f"a text in a formula holds 255 characters: {formula}"
        assert "@" not in re.sub(r'"[^"]*"', "", formula), formula
        plain = re.sub(r'"[^"]*"|\'[^\']*\'', "", formula)
        used = set(re.findall(r"([A-Z][A-Z0-9.]*)\(", plain))
        assert not used & NEW_FUNCTIONS, f"{used & NEW_FUNCTIONS} in {formula}"
        assert used <= ALLOWED, f"{used - ALLOWED} is not among the functions that all programs share: {formula}"
        assert plain.count("(") == plain.count(")"), formula
        assert not re.search(r"\{|:INDEX\(|INDEX\([^)]*\):", plain), f"programs disagree on this: {formula}"


def test_names_and_references_lead_somewhere(content: bytes, parts: dict[str, bytes]) -> None:
    book = opened(content)
    for name, defined in book.defined_names.items():
        sheet, cells = defined.attr_text.rsplit("!", 1)
        assert sheet.strip("'").replace("''", "'") in book.sheetnames, f"{name} leads to a missing sheet"
        range_boundaries(cells.replace("$", ""))
        assert not re.fullmatch(r"[A-Za-z]{1,3}[0-9]+|[RrCc]", name), f"{name} reads like a cell"
    known = set(book.defined_names) | {"TRUE", "FALSE"}
    for formula in formulas_of(parts):
        for sheet in re.findall(r"'((?:[^']|'')+)'!", formula):
            assert sheet.replace("''", "'") in book.sheetnames, formula
        plain = re.sub(r"\"[^\"]*\"|'[^']*'!", "", formula)
        words = re.findall(r"(?<![A-Za-z0-9_.$])([A-Z][A-Za-z][A-Za-z0-9_]*)(?![A-Za-z0-9_(.])", plain)
        for word in words:
            assert word in known or re.fullmatch(r"[A-Z]{1,3}[0-9]+", word), f"{word} is no name: {formula}"
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.hyperlink and cell.hyperlink.location:
                    target = cell.hyperlink.location.rsplit("!", 1)[0].strip("'").replace("''", "'")
                    assert target in book.sheetnames, f"{sheet.title}!{cell.coordinate} leads nowhere"


def test_lists_are_short_enough_or_refer_to_cells(parts: dict[str, bytes]) -> None:
    for part, root in sheets_of(parts).items():
        for rule in root.iterfind(".//m:dataValidation", NS):
            formula = rule.findtext("m:formula1", namespaces=NS) or ""
            assert len(formula) <= 255, f"{part}: a list in a rule holds 255 characters"
            assert rule.get("sqref"), part


def test_merged_cells_do_not_overlap(content: bytes) -> None:
    for sheet in opened(content):
        for one, other in combinations(sheet.merged_cells.ranges, 2):
            assert one.isdisjoint(other), f"{sheet.title}: {one} and {other}"


def test_table_headings_equal_their_cells(content: bytes) -> None:
    found = 0
    for sheet in opened(content):
        for table in sheet.tables.values():
            found += 1
            left, top, right, bottom = (int(bound or 0) for bound in range_boundaries(table.ref))
            cells = [sheet.cell(top, column).value for column in range(left, right + 1)]
            assert cells == [column.name for column in table.tableColumns]
            assert len({str(cell).casefold() for cell in cells}) == len(cells)
            assert bottom > top
    assert found, "Review is a table"


def test_cell_types_fit_their_values(parts: dict[str, bytes]) -> None:
    for part, root in sheets_of(parts).items():
        for cell in root.iterfind(".//m:c", NS):
            kind, value = cell.get("t"), cell.findtext("m:v", namespaces=NS)
            if kind == "b":
                assert value in {"0", "1"}, part
            elif kind in {None, "n"} and value is not None:
                float(value)
            elif kind == "n":
                raise AssertionError(f"{part}: {cell.get('r')} is a number without a value")
            assert kind in {None, "n", "b", "e", "str", "inlineStr", "s"}, part


def test_the_file_holds_no_macro_no_link_to_outside_and_no_note(parts: dict[str, bytes]) -> None:
    assert not [name for name in parts if re.search(r"vba|externalLink|comments|media|embeddings", name)]
    for name, data in parts.items():
        if name.endswith(".rels"):
            assert b'TargetMode="External"' not in data, name
    assert b'fullCalcOnLoad="1"' in parts["xl/workbook.xml"]
