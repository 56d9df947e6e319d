"""What opening a zip archive, or unpacking from it, may raise when it is damaged or made by something unknown."""

from __future__ import annotations

import struct
import zipfile
import zlib

__all__ = ["BROKEN_ARCHIVE"]

BROKEN_ARCHIVE = (zipfile.BadZipFile, RuntimeError, EOFError, ValueError, struct.error, zlib.error, OSError)
"""RuntimeError is for members under a password, and NotImplementedError, a kind of it, for unknown versions."""
