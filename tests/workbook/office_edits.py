"""An office suite that edits a workbook as a person would: rows inserted, deleted and sorted, cells typed over."""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path
from xml.sax.saxutils import escape

from tests.workbook.term_workbook import soffice

__all__ = ["prepare_profile", "run_basic", "write_library"]

_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_LIBRARY = 'xmlns:library="http://openoffice.org/2000/library"'
_SCRIPT = 'xmlns:script="http://openoffice.org/2000/script"'
_LINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


def run_basic(content: bytes, body: str, further: str = "", timeout: float = 180) -> list[str]:
    """Runs statements of the office suite's Basic on a workbook, opened as ``book``, computed anew as it is loaded.

    ``Note(text)`` in the statements adds a line to what is returned; ``SortDown(cells, column)`` sorts by a column,
    counted from 0. ``further`` are functions that the statements use.
    """
    program = soffice()
    assert program
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        (home / "book.xlsx").write_bytes(content)
        start = prepare_profile(program, home)
        write_library(home / "profile" / "user" / "basic", _program(home, body) + further)
        subprocess.run([*start, "macro:///Standard.Edits.Main"], check=True, capture_output=True, timeout=timeout)
        notes = home / "notes.txt"
        noted = notes.read_text(encoding="utf-8").splitlines() if notes.exists() else []
        faults = [line for line in noted if line.startswith("fault: ")]
        assert not faults, faults
        return noted


def prepare_profile(program: str, home: Path) -> list[str]:
    """The start of a command that runs the office suite with a profile of its own, which is made."""
    profile = f"-env:UserInstallation={(home / 'profile').as_uri()}"
    start = [program, profile, "--headless", "--norestore"]
    # a first start makes the profile; a macro is found only once the profile stands
    subprocess.run([*start, "--terminate_after_init"], check=True, capture_output=True, timeout=120)
    return start


def _program(home: Path, body: str) -> str:
    return f"""
Sub Note(text As String)
  number = FreeFile
  Open "{home / "notes.txt"}" For Append As number
  Print #number, text
  Close number
End Sub

Sub SortDown(cells, column)
  Dim field(0) As New com.sun.star.table.TableSortField
  field(0).Field = column
  field(0).IsAscending = False
  Dim sorting(1) As New com.sun.star.beans.PropertyValue
  sorting(0).Name = "SortFields"
  sorting(0).Value = field()
  sorting(1).Name = "ContainsHeader"
  sorting(1).Value = False
  cells.sort(sorting())
End Sub

Sub Main
  On Error GoTo Fault
  Dim options(0) As New com.sun.star.beans.PropertyValue
  options(0).Name = "Hidden"
  options(0).Value = True
  book = StarDesktop.loadComponentFromURL("{(home / "book.xlsx").as_uri()}", "_blank", 0, options())
  book.calculateAll()
{body}
  book.close(True)
  Exit Sub
Fault:
  Note("fault: " & Error$ & " in line " & Erl)
  StarDesktop.terminate()
End Sub
"""


def write_library(basic: Path, code: str) -> None:
    """Puts a program into a profile, as the library ``Standard.Edits``."""
    folder = basic / "Standard"
    folder.mkdir(parents=True, exist_ok=True)
    element = '<library:element library:name="Edits"/>'
    about = f'{_LIBRARY} library:name="Standard" library:readonly="false" library:passwordprotected="false"'
    (folder / "script.xlb").write_text(f"{_HEAD}<library:library {about}>{element}</library:library>")
    (folder / "dialog.xlb").write_text(f"{_HEAD}<library:library {about}/>")
    for kind in ("script", "dialog"):
        link = f'xlink:href="$(USER)/basic/Standard/{kind}.xlb/" xlink:type="simple" library:link="false"'
        entry = f'<library:library library:name="Standard" {link}/>'
        text = f"{_HEAD}<library:libraries {_LIBRARY} {_LINK}>{entry}</library:libraries>"
        (basic / f"{kind}.xlc").write_text(text)
    module = f'<script:module {_SCRIPT} script:name="Edits" script:language="StarBasic">{escape(code)}</script:module>'
    (folder / "Edits.xba").write_text(_HEAD + module, encoding="utf-8")
