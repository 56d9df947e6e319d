"""LibreOffice as a printer: finds it, and has it turn files into PDF within a time limit, with a profile of its own."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

from syllabus_io.errors import BadSetting

__all__ = ["find_office", "to_pdf"]

_COMMANDS = ("soffice", "libreoffice")
_USUAL_PLACES = (
    "/Applications/LibreOffice.app/Contents/MacOS/soffice",
    r"C:\Program Files\LibreOffice\program\soffice.exe",
    r"C:\Program Files (x86)\LibreOffice\program\soffice.exe",
)
_TIME_LIMIT = 300.0  # seconds


def find_office() -> str | None:
    """The program to start, None where LibreOffice is not installed."""
    found = (shutil.which(command) for command in _COMMANDS)
    places = (place for place in _USUAL_PLACES if os.access(place, os.X_OK))
    return next((one for one in (*found, *places) if one), None)


def to_pdf(files: Sequence[Path], folder: Path, time_limit: float = _TIME_LIMIT) -> tuple[Path, ...]:
    """A PDF in ``folder`` for each file, made in one run. Raises BadSetting when the program is missing, takes longer
    than ``time_limit`` seconds or makes none."""
    program = find_office()
    if program is None:
        raise BadSetting(
            "print",
            "needs LibreOffice, which was not found on this computer",
            "install it, or print the workbook from the program you open it with",
        )
    made = tuple(folder / f"{file.stem}.pdf" for file in files)
    with tempfile.TemporaryDirectory(prefix="syllabus-io-", ignore_cleanup_errors=True) as profile:
        command = [program, f"-env:UserInstallation={Path(profile).as_uri()}", "--headless", "--norestore"]
        command += ["--convert-to", "pdf", "--outdir", str(folder), *map(str, files)]
        try:
            subprocess.run(command, capture_output=True, timeout=time_limit, check=False, stdin=subprocess.DEVNULL)
        except subprocess.TimeoutExpired:
            raise BadSetting(
                "print", f"LibreOffice did not finish within {time_limit:.0f} seconds", "print fewer sheets (--sheets)"
            ) from None
        except OSError as error:
            raise BadSetting(
                "print", f"LibreOffice cannot be started ({error.strerror})", "install it anew, or print by hand"
            ) from None
    if not all(pdf.is_file() for pdf in made):
        raise BadSetting("print", "LibreOffice made no PDF of the workbook", "open the workbook in it and save it once")
    return made
