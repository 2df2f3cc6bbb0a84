"""Segmental sets: from symbols to the conclusions they stand for, and from conclusions to symbols.

::

    Notation(S, D, L, prefix TGA)  -- read_conclusions -->  Meaning  said     usual, right_hand, left, discordant
                                                                     implied  av_connection concordant
    conclusions  -- from_conclusions -->  Written  notation, lost, inferred

Decisions:

* The braces without their prefix are no connection: ``{S,D,L}`` alone says nothing of the trunks' origin (the same
  braces are published for three different connections). Only S and I as third letter say *concordant* by themselves.
* A is never read as isomerism of one kind (``Meaning.one_of`` holds both).
* S and I as third letter are written only with a concordant connection or a single outlet; behind and to the right
  with any other connection is D, in mirror image L. A valve that lies behind and is no nearer to one side is ``?``.
* Trunks of which only the concordant connection is recorded are written S (I in mirror image), as the published sets
  do, and so are those of a heart stated to have tetralogy. The letter is then given out as inferred
  (``Written.inferred``), and the relation itself stays not recorded.
* Double inlet is written as prefix and hides the ventriculoarterial connection; this is reported as lost.
* What is lost in writing is found by reading the written notation again and comparing, not from a list.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from chordae.conditions import Facts, Row, compile_row, decide
from chordae.knowledge import table

__all__ = [
    "CONCLUSIONS",
    "PLACES",
    "Loss",
    "Meaning",
    "Notation",
    "Written",
    "format",
    "from_conclusions",
    "read_conclusions",
]

PLACES = ("arrangement", "topology", "relation")
"""What the three letters speak of, in order."""

CONCLUSIONS = ("atrial_arrangement", "topology", "aorta_relation", "av_connection", "va_connection")
"""Conclusions that a notation may carry."""

_TAKEN = (*CONCLUSIONS, "trunk_course", "isomerism", "letter_1", "phenotype")


@dataclass(frozen=True, slots=True)
class Notation:
    """The symbols of one notation; ``?`` for a letter that is not derived, ``""`` for no prefix."""

    arrangement: str
    topology: str
    relation: str
    prefix: str = ""
    qualifier: str = ""

    @property
    def letters(self) -> tuple[str, str, str]:
        """The three letters in order."""
        return (self.arrangement, self.topology, self.relation)


@dataclass(frozen=True, slots=True)
class Loss:
    """Something that the notation does not carry; ``what`` is a conclusion or a symbol."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a notation says, what it lets expect, what it leaves open, and what is lost with it."""

    said: Mapping[str, str]
    implied: Mapping[str, str]
    one_of: Mapping[str, tuple[str, ...]]
    lost: tuple[Loss, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """A notation that was written, what is lost with it, and what was inferred for it (``what`` is the letter)."""

    notation: Notation
    lost: tuple[Loss, ...]
    inferred: tuple[Loss, ...]


def format(notation: Notation) -> str:
    """Write a notation as it is published.

    Examples
    --------
    >>> format(Notation("S", "D", "S"))
    '{S,D,S}'
    >>> format(Notation("S", "D", "S", "DILV", "A1"))
    'DILV (A1) {S,D,S}'
    """
    words = [notation.prefix, f"({notation.qualifier})" if notation.qualifier else ""]
    return " ".join([word for word in words if word] + ["{" + ",".join(notation.letters) + "}"])


@lru_cache(maxsize=4096)
def read_conclusions(notation: Notation) -> Meaning:
    """Say what the symbols mean, as values of the conclusions of the schema.

    Examples
    --------
    >>> read_conclusions(Notation("S", "L", "L", "TGA")).implied
    {'av_connection': 'discordant'}
    """
    symbols = table("notation")
    said: dict[str, str] = {}
    one_of: dict[str, tuple[str, ...]] = {}
    lost: list[Loss] = []
    entries = [symbols["letters"][place][letter] for place, letter in zip(PLACES, notation.letters, strict=True)]
    if notation.prefix:
        entries.append(symbols["prefixes"][notation.prefix])
    if not any("va_connection" in {**entry.get("means", {}), **entry.get("one_of", {})} for entry in entries):
        if notation.relation in symbols["bare"]["letters"]:
            entries.append({"means": symbols["bare"]["means"]})
        elif _says(notation.relation):
            lost.append(Loss("va_connection", symbols["bare"]["lost"]))
    for entry in entries:
        said.update(entry.get("means", {}))
        one_of.update({name: tuple(values) for name, values in entry.get("one_of", {}).items()})
        if entry.get("lost"):
            lost.append(Loss("symbol", entry["lost"]))
    facts = Facts(said, letter_1=notation.arrangement, letter_2=notation.topology)
    row, _ = decide(_rows("implied"), facts)
    stands = "av_connection" in said or "av_connection" in one_of
    implied = {} if row is None or stands else {"av_connection": row.value}
    return Meaning(said, implied, one_of, tuple(lost))


def from_conclusions(conclusions: Mapping[str, Any]) -> Written:
    """Write the conclusions of one heart as notation.

    Parameters
    ----------
    conclusions
        ``atrial_arrangement``, ``topology``, ``aorta_relation``, ``av_connection``, ``va_connection``,
        ``trunk_course``, ``phenotype``; any may be missing. ``letter_1`` = A, with ``isomerism``, stands for isomerism
        whose side is not known.

    Returns
    -------
    Written
        The notation, with ``?`` for each letter that cannot be derived; each conclusion that a reader of it would not
        get back; and what was inferred for it.

    Examples
    --------
    >>> found = from_conclusions({"atrial_arrangement": "left_isomerism", "topology": "left_hand"})
    >>> format(found.notation), [one.what for one in found.lost]
    ('{A,L,?}', ['atrial_arrangement'])
    """
    return _write(tuple((name, conclusions.get(name)) for name in _TAKEN))


@lru_cache(maxsize=4096)
def _write(taken: tuple[tuple[str, Any], ...]) -> Written:
    facts = Facts(taken)
    rows = {place: _row(f"write.{place}", facts) for place in PLACES}
    letters = {place: row.value if row else "?" for place, row in rows.items()}
    if letters["arrangement"] == "?" and facts["letter_1"]:
        letters["arrangement"] = str(facts["letter_1"])
    facts["letter_3"] = letters["relation"]
    prefix = _row("write.prefix", facts)
    notation = Notation(
        letters["arrangement"], letters["topology"], letters["relation"], prefix.value if prefix else ""
    )
    why = str(table("notation")["inferred"])
    inferred = tuple(Loss(place, why) for place, row in rows.items() if row and row.data.get("inferred"))
    return Written(notation, _lost(facts, notation), inferred)


def _lost(conclusions: Mapping[str, Any], notation: Notation) -> tuple[Loss, ...]:
    meaning = read_conclusions(notation)
    back = {**meaning.implied, **meaning.said}
    lost: list[Loss] = []
    for name in CONCLUSIONS:
        value = conclusions.get(name)
        if not value or value == back.get(name) or value in ("not_assessable", "not_examined"):
            continue
        would = back.get(name) or " or ".join(meaning.one_of.get(name, ()))
        read = f"reads as {_words(would)}" if would else "says nothing of it"
        lost.append(Loss(name, f"{_words(name)} is {_words(value)}; {format(notation)} {read}"))
    return tuple(lost)


def _says(letter: str) -> bool:
    return bool(table("notation")["letters"]["relation"][letter]["means"])


def _row(name: str, facts: Facts) -> Row | None:
    return decide(_rows(name), facts)[0]


@cache
def _rows(name: str) -> tuple[Row, ...]:
    found: Any = table("notation")
    for key in name.split("."):
        found = found[key]
    return tuple(compile_row(one, "symbol" if "symbol" in one else "value") for one in found)


def _words(text: str) -> str:
    return text.replace("_", " ")
