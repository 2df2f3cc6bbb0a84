"""Segmental notation: from the text ``PREFIX {1,2,3}`` to its symbols, from symbols to conclusions, and back.

::

    "TGA {S,D,L}"  -- parse -->  Notation(S, D, L, prefix TGA)  -- read_conclusions -->  Meaning
        ^                                                             said:    usual, right_hand, left, discordant
        +---------- format ----------- Notation <-- from_conclusions  implied: av_connection concordant
                                                                      lost:    L says left, not in front or beside

Letter 1: atrial arrangement. Letter 2: ventricular topology. Letter 3: where the aortic valve lies. The prefix says
how the trunks connect. Symbols, dialects and losses are data: ``schema/notation.yaml``.

Decisions:

* The braces without their prefix are no connection: ``{S,D,L}`` alone says nothing of the trunks' origin (the same
  braces are published for three different connections). Only S and I as third letter say *concordant* by themselves.
* A is never read as isomerism of one kind (``Meaning.one_of`` holds both).
* S and I as third letter are written only with a concordant connection or a single outlet; behind and to the right
  with any other connection is D, in mirror image L. A valve that lies behind and is no nearer to one side is ``?``.
* Trunks of which only the concordant connection is recorded are written S (I in mirror image), as the published sets
  do; the letter is then given out as inferred (``Written.inferred``) and the relation itself stays not recorded.
* Double inlet is written as prefix and hides the ventriculo-arterial connection; this is reported as lost.
* What is lost in writing is found by reading the written notation again and comparing, not from a list.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, TypeAlias

from chordae.conditions import Facts, Row, compile_row, decide
from chordae.issues import Issue, Location, issue, shown
from chordae.knowledge import table

__all__ = ["Loss", "Meaning", "Notation", "Written", "format", "from_conclusions", "parse", "read", "read_conclusions"]

PLACES = ("arrangement", "topology", "relation")
CONCLUSIONS = ("atrial_arrangement", "topology", "aorta_relation", "av_connection", "va_connection")
_TAKEN = (*CONCLUSIONS, "trunk_course", "isomerism", "letter_1")

_SHAPE = re.compile(
    r"^\s*(?P<prefix>[A-Za-z][A-Za-z-]*)?\s*(?P<qualifier>\([^(){}]{1,20}\))?\s*"
    r"(?P<open>[{\[(<]?)\s*(?P<letters>[A-Za-z?]\s*(?:\([A-Za-z]\))?(?:\s*[,;]?\s*[A-Za-z?]){2})\s*[}\])>]?"
    r"(?P<rest>[^{}]{0,400})$"
)
_LETTERS = re.compile(r"[A-Za-z?](?:\([A-Za-z]\))?")


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


def parse(
    text: str, *, record: str | None = None, location: Location | None = None
) -> tuple[Notation | None, list[Issue]]:
    """Read a notation as published.

    Parameters
    ----------
    text
        For example ``TGA {S,D,D}``; other brackets, missing commas and small letters are read with an issue.
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
    prefix, lost = _prefix(match["prefix"] or "")
    if prefix is None:
        return None, (("I-NOT-03", (("prefix", match["prefix"]), ("known", ", ".join(symbols["prefixes"])))),)
    first, second, third = known
    notation = Notation(first, second, third, prefix, (match["qualifier"] or "")[1:-1])
    faults: list[_Fault] = []
    if format(notation) != " ".join(text.split()):
        faults.append(("I-NOT-04", (("written", format(notation)),)))
    if rest := match["rest"].strip(" .;,"):
        faults.append(("I-NOT-05", (("rest", rest),)))
    reasons = [lost, *(one.why for one in read_conclusions(notation).lost)]
    faults += [("I-NOT-06", (("why", why),)) for why in reasons if why]
    return notation, tuple(faults)


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
        ``trunk_course``; any may be missing. ``letter_1`` = A, with ``isomerism``, stands for isomerism whose side is
        not known.

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


def _prefix(text: str) -> tuple[str | None, str]:
    symbols = table("notation")
    if not text:
        return "", ""
    if text.upper() in symbols["prefixes"]:
        return text.upper(), ""
    spelling = symbols["spellings"].get(text.upper())
    return (spelling["prefix"], spelling["lost"]) if spelling else (None, "")


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
