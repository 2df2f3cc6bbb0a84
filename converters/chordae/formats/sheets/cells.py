"""One value of a record as the text of a cell, and back: words of the schema, or of a school; lists parted by a bar.

::

    to_crux                       <->  to_crux      pectinate muscles reaching the crux      (words of a school)
    ["naked_eye", "probe"]        <->  naked_eye | probe
    12.5                          <->  12.5

On reading, a word of the schema and the label of either school are the same; anything else stays as it was typed, and
the check of structure names its cell. An empty cell says nothing: not recorded.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, cast

from chordae.files import MAX_CELL
from chordae.intake.cells import Refusal, parse_number
from chordae.model import Slot, tables
from chordae.rdf.terms import TERM, number_text
from chordae.terms import School, vocabulary

__all__ = ["BAR", "cleaned", "fits", "label", "read_cell", "write_cell"]

BAR = "|"


def write_cell(value: Any, slot: Slot, school: str | None = None) -> str:
    """Return the text of a cell.

    Examples
    --------
    >>> write_cell(["naked_eye", "probe"], tables().slots["examination"])
    'naked_eye | probe'
    """
    if isinstance(value, list):
        return f" {BAR} ".join(_one(each, slot, school) for each in value)
    return _one(value, slot, school)


def fits(value: Any) -> bool:
    """Say whether a text stands in a cell without being changed: not empty, no space at its ends, nothing unprintable.

    A text of a list must hold no bar.
    """
    if isinstance(value, list):
        return all(fits(one) and BAR not in str(one) for one in value)
    text = str(value)
    clean = all(one.isprintable() or one == "\n" for one in text)
    return clean and bool(text) and text == text.strip() and len(text) <= MAX_CELL


def cleaned(text: str) -> str:
    """Return a text as a cell can hold it: ends of lines in one form, no controls, not too long.

    Examples
    --------
    >>> cleaned("a\\r\\nb\\x07")
    'a\\nb'
    """
    whole = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(one for one in whole if one.isprintable() or one in "\t\n")[:MAX_CELL]


def read_cell(text: str, slot: Slot) -> Any:
    """Return the value of a cell that is not empty.

    Examples
    --------
    >>> [read_cell(one, tables().slots["pectinate_extent"]) for one in ("to crux", "Not assessable", "odd")]
    ['to_crux', 'not_assessable', 'odd']
    """
    if slot.multivalued:
        return [_read(one.strip(), slot) for one in text.split(BAR) if one.strip()]
    return _read(text.strip(), slot)


def label(slot: Slot, word: str, school: str) -> str:
    """Return a word in the words of a school; the word itself where the school's name for it is not unique."""
    term = vocabulary().get(slot.values[word].removeprefix(TERM))
    found = term.label(cast(School, school)) if term else word
    return found if _readable(slot.name).get(_key(found)) == word else word


def _one(value: Any, slot: Slot, school: str | None) -> str:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return number_text(value)
    text = str(value)
    if school is not None:
        if slot.kind == "enum" and text in slot.values:
            return label(slot, text, school)
        if slot.kind == "term" and (term := vocabulary().get(text)) is not None:
            own = term.label(cast(School, school))
            return own if _term_named(own) == text else text
    return text


def _read(text: str, slot: Slot) -> Any:
    if slot.kind == "enum":
        return text if text in slot.values else _readable(slot.name).get(_key(text), text)
    if slot.kind == "term":
        return text if text in vocabulary() else _term_named(text) or text
    if slot.kind in ("integer", "decimal"):
        number = parse_number(text)
        return text if isinstance(number, Refusal) else number
    return text


@cache
def _readable(slot_name: str) -> Mapping[str, str]:
    """Every way to write the words of a slot that means one of them only."""
    found: dict[str, set[str]] = {}
    for word, iri in tables().slots[slot_name].values.items():
        term = vocabulary().get(iri.removeprefix(TERM))
        for name in (word, *((term.european, term.north_american) if term else ())):
            found.setdefault(_key(name), set()).add(word)
    return {name: next(iter(words)) for name, words in found.items() if len(words) == 1}


def _term_named(text: str) -> str | None:
    preferred = [
        one.slug for one in vocabulary().by_label(text) if _key(text) in (_key(one.european), _key(one.north_american))
    ]
    return preferred[0] if len(preferred) == 1 else None


def _key(text: str) -> str:
    return " ".join(text.casefold().replace("_", " ").split())
