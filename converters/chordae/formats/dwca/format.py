"""Darwin Core Archives, written and read."""

from __future__ import annotations

from chordae.formats.dwca.reading import read_files
from chordae.formats.dwca.writing import write_files

__all__ = ["read_files", "write_files"]
