"""The walls between the stages, and other rules of the house, read from the code itself."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "syllabus_io"
MODULES = sorted(PACKAGE.rglob("*.py"))

# A stage may import the stages named here, itself, and the shared records.
SHARED = {"errors", "provenance"}
MAY_IMPORT = {
    "extract": set(),
    "outline": {"extract", "resolve"},  # of resolve only the half without a calendar, see below
    "resolve": {"outline"},  # the records of what an outline says, see below
    "plan": {"outline", "resolve"},
    "workbook": {"outline", "resolve", "plan"},
    "export": {"outline", "resolve", "plan"},
    "revise": {"outline", "resolve", "plan", "workbook", "pipeline"},
    "term_file": {"resolve"},
    "record_json": {"outline", "resolve"},
    "cache": set(),
    "isolation": {"extract", "outline", "record_json", "cache"},
    "pipeline": {"extract", "outline", "resolve", "plan", "workbook", "export", "term_file", "isolation", "cache"},
    "batch": {
        *("extract", "outline", "resolve", "plan", "workbook", "export"),
        *("isolation", "pipeline", "revise", "record_json", "cache"),
    },
    "cli": {
        *("extract", "outline", "resolve", "plan", "workbook", "export"),
        *("term_file", "pipeline", "revise", "cache", "batch"),
    },
}
WITHOUT_A_CALENDAR = re.compile(
    r"syllabus_io\.resolve\.(expression|expression_parts|term|parse|running_text|words|rules\w*)$"
)
OUTLINE_FACTS = re.compile(r"syllabus_io\.outline\.(records|vocabulary)$")
DOCUMENT_RECORDS = "syllabus_io.extract.document"
NOT_AT_START = {"pdfplumber", "docx", "dateparser", "openpyxl", "holidays", "ironcalc", "rapidfuzz", "lxml", "rich"}


def imports_of(path: Path) -> list[tuple[int, str]]:
    """Every imported module name in a file, also inside functions, with its line."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            package = ROOT.joinpath(*node.module.split("."))
            names = [f"{node.module}.{alias.name}" for alias in node.names] if package.is_dir() else [node.module]
            found += [(node.lineno, name) for name in names]
            assert node.level == 0, f"{path.name}:{node.lineno}: write imports in full"
    return found


def stage_of(path: Path) -> str:
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    return parts[0]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_stage_imports_only_what_stands_before_it(path: Path) -> None:
    stage = stage_of(path)
    if stage in {"__init__", "__main__", *SHARED}:
        return
    allowed = MAY_IMPORT[stage] | SHARED | {stage}
    for line, module in imports_of(path):
        if not module.startswith("syllabus_io."):
            continue
        target = module.split(".")[1]
        if target == "__version__":
            continue
        assert target in allowed, f"{path.name}:{line}: {stage} must not import {module}"
        if stage == "outline" and target == "resolve":
            assert WITHOUT_A_CALENDAR.match(module), f"{path.name}:{line}: outline must not know a calendar ({module})"
        if stage == "resolve" and target == "outline":
            assert OUTLINE_FACTS.match(module), f"{path.name}:{line}: resolve needs an outline's facts only ({module})"
        if stage == "outline" and target == "extract":
            assert module == DOCUMENT_RECORDS, f"{path.name}:{line}: outline must not know files ({module})"


@pytest.mark.parametrize(
    "path", [p for p in MODULES if stage_of(p) in {"resolve", "plan", "outline"}], ids=lambda path: path.stem
)
def test_no_stage_asks_the_machine_for_the_time(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Attribute) and node.attr in {"today", "now", "utcnow"}:
            raise AssertionError(f"{path.name}:{node.lineno}: asks for {node.attr}; take the day as an argument")


def test_help_starts_without_heavy_libraries() -> None:
    """The command line answers --help at once because it loads nothing heavy before it must."""
    code = (
        "import sys\nfrom syllabus_io.cli.main import make_parser\nmake_parser().format_help()\n"
        "print(' '.join(name for name in sys.modules if '.' not in name))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    loaded = set(done.stdout.split())
    assert not loaded & NOT_AT_START, f"loaded at start: {sorted(loaded & NOT_AT_START)}"


def project_texts() -> list[Path]:
    endings = {".py", ".md", ".toml", ".txt", ".json", ""}
    skipped = {".git", ".venv", "build", "dist", "__pycache__", ".mypy_cache", ".ruff_cache", ".hypothesis"}
    found = []
    for folder, folders, names in os.walk(ROOT):
        folders[:] = [name for name in folders if name not in skipped and not name.endswith(".egg-info")]
        found += [Path(folder, name) for name in names if Path(name).suffix in endings]
    return found


def test_the_project_holds_no_path_of_somebodys_machine() -> None:
    mark = re.compile(r"(?<![\w.])/(?:home|root|Users)/\w")
    for path in project_texts():
        if path == Path(__file__):
            continue
        hit = mark.search(path.read_text(encoding="utf-8", errors="replace"))
        assert hit is None, f"{path.relative_to(ROOT)} names a path of one machine: {hit.group() if hit else ''}"


def test_every_module_says_what_it_is_for() -> None:
    silent = [path.name for path in MODULES if not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))]
    assert not silent, f"modules without a docstring: {silent}"


def test_the_top_level_stays_as_agreed() -> None:
    tracked = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if tracked.returncode:
        pytest.skip("not a git checkout, so what belongs to the project cannot be told from what was built")
    top = {line.split("/")[0] for line in tracked.stdout.splitlines()}
    agreed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "syllabus_io", "tests", "samples", "docs"}
    extra = {name for name in top if not name.startswith(".")} - agreed
    assert not extra, f"the top level holds {sorted(extra)}"
