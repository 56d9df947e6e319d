"""What opening a zip archive may raise when it is damaged or made by nothing this program knows."""

from __future__ import annotations

import struct
import zipfile

__all__ = ["BROKEN_ARCHIVE"]

BROKEN_ARCHIVE = (zipfile.BadZipFile, RuntimeError, EOFError, ValueError, struct.error, OSError)
"""RuntimeError is for members under a password, and NotImplementedError, a kind of it, for unknown versions."""
