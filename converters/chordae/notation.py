"""Segmental notation: from the text ``PREFIX {1,2,3}`` to its symbols, with an issue for each dialect and fault.

::

    "TGA {S,D,L}"  -- parse -->  Notation(S, D, L, prefix TGA)  -- read_conclusions -->  Meaning
        ^                                                             said:    usual, right_hand, left, discordant
        +---------- format ----------- Notation <-- from_conclusions  implied: av_connection concordant

Letter 1: atrial arrangement. Letter 2: ventricular topology. Letter 3: where the aortic valve lies. The prefix says
how the trunks connect. Symbols, dialects and losses are data: ``schema/notation.yaml``; what the symbols mean, and how
they are written, is :mod:`chordae.segments`, whose names are offered here as well.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any, TypeAlias

from chordae.issues import Issue, Location, issue, shown
from chordae.knowledge import table
from chordae.segments import (
    CONCLUSIONS,
    PLACES,
    Loss,
    Meaning,
    Notation,
    Written,
    format,
    from_conclusions,
    read_conclusions,
)

__all__ = [
    "CONCLUSIONS",
    "Loss",
    "Meaning",
    "Notation",
    "Written",
    "format",
    "from_conclusions",
    "parse",
    "read",
    "read_conclusions",
]

_SHAPE = re.compile(
    r"^\s*(?P<prefix>[A-Za-z][A-Za-z-]*)?\s*[,:]?\s*(?P<qualifier>\([^(){},]{1,20}\))?\s*"
    r"(?P<open>[{\[(<]?)\s*(?P<letters>[A-Za-z?]\s*(?:\([A-Za-z]\))?(?:\s*[,;]?\s*[A-Za-z?]){2})\s*[}\])>]?"
    r"(?P<rest>[^{}]{0,400})$"
)
_LETTERS = re.compile(r"[A-Za-z?](?:\([A-Za-z]\))?")


def parse(
    text: str, *, record: str | None = None, location: Location | None = None
) -> tuple[Notation | None, list[Issue]]:
    """Read a notation as published.

    Parameters
    ----------
    text
        For example ``TGA {S,D,D}``; other brackets, missing commas, small letters and a prefix behind the letters are
        read with an issue.
    record, location
        Only carried into the issues.

    Returns
    -------
    tuple
        The symbols, or ``None`` if the text is no notation; and the issues.

    Examples
    --------
    >>> parse("DORV {S,D,L}")[0]
    Notation(arrangement='S', topology='D', relation='L', prefix='DORV', qualifier='')
    >>> format(parse("(S,D,D) DOLV")[0])
    'DOLV {S,D,D}'
    """
    notation, faults = _read(text)
    place, value = "/stated/notation", shown(text)
    issues = [
        issue(rule, location=location, record=record, path=place, value=value, **dict(fields))
        for rule, fields in faults
    ]
    return notation, issues


def read(text: str) -> Notation | None:
    """Read a notation without its issues; ``None`` if the text is no notation."""
    return _read(text)[0]


_Fault: TypeAlias = tuple[str, tuple[tuple[str, Any], ...]]


@lru_cache(maxsize=4096)
def _read(text: str) -> tuple[Notation | None, tuple[_Fault, ...]]:
    """Return the symbols and, for each fault, the rule with the fields of its sentence."""
    match = _SHAPE.match(text.replace("\u2019", "'"))
    letters = _LETTERS.findall(match["letters"]) if match else []
    if match is None or (not match["open"] and "," not in match["letters"]) or len(letters) != len(PLACES):
        return None, (("I-NOT-01", ()),)
    symbols = table("notation")
    known: list[str] = []
    for place, letter in zip(PLACES, letters, strict=True):
        if letter.upper() not in symbols["letters"][place]:
            fields = {
                "letter": letter,
                "number": PLACES.index(place) + 1,
                "known": ", ".join(symbols["letters"][place]),
            }
            return None, (("I-NOT-02", tuple(fields.items())),)
        known.append(letter.upper())
    rest = match["rest"].strip(" .;,")
    written, behind = match["prefix"] or "", rest.partition(" ")
    if not written and _prefix(behind[0].strip("(),;:"))[0]:  # {S,D,D} TGA: printed behind the letters
        written, rest = behind[0].strip("(),;:"), behind[2].strip(" .;,")
    prefix, lost = _prefix(written)
    if prefix is None:
        return None, (("I-NOT-03", (("prefix", written), ("known", ", ".join(symbols["prefixes"])))),)
    first, second, third = known
    notation = Notation(first, second, third, prefix, (match["qualifier"] or "")[1:-1])
    faults: list[_Fault] = []
    if format(notation) != " ".join(text.split()):
        faults.append(("I-NOT-04", (("written", format(notation)),)))
    if rest:
        faults.append(("I-NOT-05", (("rest", rest),)))
    reasons = [lost, *(one.why for one in read_conclusions(notation).lost)]
    faults += [("I-NOT-06", (("why", why),)) for why in reasons if why]
    return notation, tuple(faults)


def _prefix(text: str) -> tuple[str | None, str]:
    symbols = table("notation")
    if not text:
        return "", ""
    if text.upper() in symbols["prefixes"]:
        return text.upper(), ""
    spelling = symbols["spellings"].get(text.upper())
    return (spelling["prefix"], spelling["lost"]) if spelling else (None, "")
