"""Whether a workbook is one of our own templates, by the keyword in its properties."""

from __future__ import annotations

import zipfile
from pathlib import Path

__all__ = ["KEYWORD", "is_template"]

KEYWORD = "chordae-template"
"""Stands among the keywords of each workbook that is written here."""


def is_template(path: str) -> bool:
    """Say whether a file is a workbook written from our template; ``False`` for anything that cannot be looked at."""
    if not path.lower().endswith(".xlsx") or not Path(path).is_file():
        return False
    from chordae.intake.package import BROKEN_ZIP

    try:
        with zipfile.ZipFile(path) as package, package.open("docProps/core.xml") as stream:
            return KEYWORD.encode() in stream.read(65_536)
    except (*BROKEN_ZIP, OSError, KeyError):
        return False
