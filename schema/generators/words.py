"""Labels and synonyms of the vocabulary as a table from plain words to terms, and its abbreviations apart.

An abbreviation (TA, IVC) stands for several things more often than not; it is listed with all of them.
"""

from __future__ import annotations

import re
from typing import Any

__all__ = ["make_words"]


def make_words(themes: list[dict[str, Any]]) -> dict[str, Any]:
    """Return slugs, and plain words and abbreviations with the slugs of their terms, from ``schema/vocabulary``."""
    words: dict[str, set[str]] = {}
    short: dict[str, set[str]] = {}
    slugs: list[str] = []
    for theme in themes:
        for slug, term in (theme.get("terms") or {}).items():
            slugs.append(slug)
            for label in (term.get("european"), term.get("north_american"), *term.get("synonyms", ())):
                if label and not (str(label).isupper() and len(str(label)) < 6):
                    words.setdefault(_plain(label), set()).add(slug)
            for school in (term.get("abbreviations") or {}).values():
                for abbreviation in school:
                    short.setdefault(_plain(abbreviation), set()).add(slug)
    return {"slugs": sorted(slugs), "words": _rows(words), "abbreviations": _rows(short)}


def _rows(found: dict[str, set[str]]) -> dict[str, list[str]]:
    return {word: sorted(slugs) for word, slugs in sorted(found.items()) if word}


def _plain(words: object) -> str:
    return "_".join(re.findall(r"[^\W_]+", str(words).casefold()))
