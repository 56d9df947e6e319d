"""Keeps what was read from an outline, so that a file that has not changed is not read again.

A folder of small files, each JSON text behind its own checksum: a damaged one is passed over and removed, the whole
folder may be deleted at any time, and the oldest entries go when it grows. An entry is found by the content and name
of the outline, the program's own files, the libraries it reads with, and the limits.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import stat
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Cache", "open_cache", "program_mark", "user_cache_folder"]

_SUFFIX = ".entry"
_LIBRARIES = ("pdfminer.six", "pdfplumber", "lxml", "dateparser", "openpyxl", "ironcalc")


@dataclass(frozen=True, slots=True)
class Cache:
    """Entries of text or bytes by key, in a folder. Whatever goes wrong with the folder costs time, never a result."""

    folder: Path
    mark: str
    most_bytes: int = 100_000_000
    most_entries: int = 5_000
    largest_entry_bytes: int = 20_000_000

    def key(self, *parts: str | bytes) -> str:
        """The name under which something made from these parts, by this program, is kept."""
        digest = hashlib.sha256(self.mark.encode())
        for part in parts:
            content = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
            digest.update(len(content).to_bytes(8, "big") + content)
        return digest.hexdigest()

    def find(self, key: str) -> bytes | None:
        """What is kept under the key; None when there is nothing whole."""
        path = self._path(key)
        try:
            status = path.lstat()
            if not stat.S_ISREG(status.st_mode) or status.st_size > self.largest_entry_bytes:
                return None
            checksum, _, content = path.read_bytes().partition(b"\n")
        except OSError:
            return None
        if checksum != _checksum(content):
            with contextlib.suppress(OSError):
                path.unlink()
            return None
        with contextlib.suppress(OSError):
            os.utime(path)  # what is used stays longest
        return content

    def keep(self, key: str, content: bytes) -> None:
        """Keeps the content under the key. A folder that cannot be written keeps nothing."""
        if len(content) > self.largest_entry_bytes - 100:
            return
        with contextlib.suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            handle, name = tempfile.mkstemp(prefix=".", suffix=".part", dir=self.folder)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(_checksum(content) + b"\n" + content)
                Path(name).replace(self._path(key))
            except BaseException:
                Path(name).unlink(missing_ok=True)
                raise

    def trim(self) -> None:
        """Removes the entries used longest ago until the folder is within its bounds."""
        with contextlib.suppress(OSError), os.scandir(self.folder) as found:
            entries = [
                (status.st_mtime, status.st_size, Path(entry.path))
                for entry in found
                if entry.name.endswith((_SUFFIX, ".part")) and (status := entry.stat(follow_symlinks=False))
            ]
            entries.sort(reverse=True)
            total = 0
            for number, (_, size, path) in enumerate(entries, start=1):
                total += size
                if number > self.most_entries or total > self.most_bytes:
                    path.unlink(missing_ok=True)

    def _path(self, key: str) -> Path:
        return self.folder / f"{key}{_SUFFIX}"


def open_cache() -> Cache:
    """The cache of the person who runs the program."""
    return Cache(user_cache_folder() / "syllabus-io", program_mark())


def user_cache_folder() -> Path:
    """Where this system keeps what may be deleted: XDG_CACHE_HOME where it is set, else the system's own place."""
    given = os.environ.get("XDG_CACHE_HOME", "")
    if given and Path(given).is_absolute():
        return Path(given)
    if sys.platform == "win32":
        local = os.environ.get("LOCALAPPDATA", "")
        return Path(local) if local else Path.home() / "AppData" / "Local"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path.home() / ".cache"


def program_mark() -> str:
    """What tells this very program from any other: the state of its files, its libraries and its interpreter."""
    from importlib.metadata import PackageNotFoundError, version

    package = Path(__file__).parent
    marks = [sys.version]
    for folder, folders, names in os.walk(package):
        folders.sort()
        for name in sorted(names):
            if name.endswith(".py"):
                path = Path(folder, name)
                status = path.stat()
                marks.append(f"{path.relative_to(package)} {status.st_size} {status.st_mtime_ns}")
    for library in _LIBRARIES:
        with contextlib.suppress(PackageNotFoundError):
            marks.append(f"{library} {version(library)}")
    return hashlib.sha256("\n".join(marks).encode()).hexdigest()


def _checksum(content: bytes) -> bytes:
    return hashlib.sha256(content).hexdigest().encode()
