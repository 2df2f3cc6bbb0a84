"""From a sentence in one school's words back to the conclusions, by the same phrases that wrote it.

::

    "This heart has usual atrial arrangement, concordant atrioventricular connections, ..."
        |  longest phrases first, each read once
        v
    Reading(said {"atrial_arrangement": "usual", ...}, inferred {"topology"}, unread "")

Only what stands in a phrase is read: words between phrases are given back as ``unread``. With
:func:`chordae.derive.sentence.say` a statement of one school is written in the words of the other; what the words of a
school do not hold is missing from ``said``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from chordae.derive.sentence import MAIN, Phrase, clauses, main_phrases
from chordae.knowledge import table

__all__ = ["Statement", "read_statement"]


@dataclass(frozen=True, slots=True)
class Statement:
    """What a sentence says: facts by name, names of those it marks as inferred, words that were not read."""

    said: Mapping[str, Any]
    inferred: frozenset[str]
    unread: str


def read_statement(text: str, school: str) -> Statement:
    """Read a sentence that was written with the phrases of one school.

    Parameters
    ----------
    text
        The sentence.
    school
        ``european`` or ``north_american``.
    """
    said: dict[str, Any] = {}
    inferred: set[str] = set()
    mark = table("phrases")["inferred"].strip()
    rest = text
    for words, place, phrase in _phrases(school):
        pattern = rf"(?<![\w-]){re.escape(words)}(?![\w-])(?P<mark>\s*{re.escape(mark)})?"
        match = re.search(pattern, rest)
        if match is None or (place and place in said):
            continue
        said.update(_means(phrase))
        if place:
            said.setdefault(place, None)
            if match["mark"]:
                inferred.add(place)
        rest = rest[: match.start()] + "\n" + rest[match.end() :]
    return Statement(
        {name: value for name, value in said.items() if value is not None}, frozenset(inferred), _left(rest)
    )


@cache
def _phrases(school: str) -> tuple[tuple[str, str, Phrase], ...]:
    found = [(phrase.words[school], name, phrase) for name in MAIN for phrase in main_phrases(name)]
    found += [(phrase.words[school], "", phrase) for phrase in clauses() if not phrase.lists]
    return tuple(sorted((one for one in found if one[0]), key=lambda one: (-len(one[0]), one[0])))


def _means(phrase: Phrase) -> dict[str, Any]:
    """Return the facts of a phrase that name one value; a choice between values says none."""
    return {name: next(iter(values)) for name, operator, values in phrase.when if operator == "is" and len(values) == 1}


def _left(text: str) -> str:
    pieces = (piece.strip(" ,;.:") for piece in text.split("\n"))
    return " ".join(piece for piece in pieces if piece and piece not in ("and", "This heart has", "this heart has"))
