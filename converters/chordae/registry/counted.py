"""What the questions over all hearts need of a version, counted once when it is accepted, as a small graph of its own.

::

    <term>                            reg:derivedIn 12          in how many hearts a malformation was derived
    <reg:open/topology>               reg:what "topology" ; reg:openIn 3 ; reg:why "..."
    <record/stated_otherwise/slot>    reg:record .. ; reg:conclusion .. ; reg:stated .. ; reg:derived ..
    <record/readings_differ/slot>     reg:conclusion .. ; reg:readings 2 ; reg:one ".." ; reg:other ".."
    <reg:all>                         reg:descriptions 10000 ; reg:specimens 9990

It follows from the graph of the version alone, so it can be made again (``recount``), and its digest stands in the line
of the ledger. Without it each of these questions would look at every heart each time.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator

from chordae.rdf.terms import integer, literal, name
from chordae.registry.provenance import REG
from chordae.report.words import CONCLUSIONS

__all__ = ["Counting", "recount"]

_MODEL = "https://w3id.org/chordae/model/"
_READ = (*CONCLUSIONS, "notation")
_WANTED = ("term", "what", "why", "collection", "accession", *_READ)
_LINE = re.compile(rf"^<([^>]*)> <{_MODEL}({'|'.join(_WANTED)})> (.+) \.$", re.MULTILINE)

_QUOTE = '"'


class Counting:
    """Counts while hearts are added; memory holds the conclusions of each specimen, no heart."""

    def __init__(self) -> None:
        self._hearts = 0
        self._terms: Counter[str] = Counter()
        self._open: dict[str, tuple[int, str]] = {}
        self._lines: list[str] = []
        self._readings: dict[tuple[str, str], list[tuple[str, tuple[str, ...]]]] = {}
        self._same: dict[tuple[str, ...], tuple[str, ...]] = {}

    def add(self, record: str, graph: str) -> None:
        """Count one heart.

        Parameters
        ----------
        record
            Its IRI.
        graph
            Its N-Triples.
        """
        self._hearts += 1
        said: dict[str, dict[str, str]] = {}
        for node, slot, value in _LINE.findall(graph):
            said.setdefault(node.removeprefix(record), {})[slot] = value
        for node, values in said.items():
            if node.startswith("/derived/diagnosis/") and "term" in values:
                self._terms[values["term"]] += 1
            elif node.startswith("/derived/undetermined/") and "what" in values:
                count, why = self._open.get(values["what"], (0, values.get("why", '""')))
                self._open[values["what"]] = (count + 1, min(why, values.get("why", why)))
        about = (said.get("", {}).get("collection", ""), said.get("/specimen", {}).get("accession", ""))
        stated, derived = said.get("/stated", {}), said.get("/derived", {})
        for slot in CONCLUSIONS:
            if slot in stated and slot in derived and stated[slot] != derived[slot]:
                told = {"record": f"<{record}>", "stated": stated[slot], "derived": derived[slot]}
                self._lines += _told(f"{record}/stated_otherwise/{slot}", slot, told, about)
        if about[1]:
            found = tuple(derived.get(slot, "") for slot in _READ)
            self._readings.setdefault(about, []).append((record, self._same.setdefault(found, found)))

    def triples(self) -> bytes:
        """Return what was counted, as sorted N-Triples."""
        lines = [*self._lines, _number(f"{REG}all", "descriptions", self._hearts)]
        lines.append(_number(REG + "all", "specimens", len(self._readings)))
        lines += (_number(term.strip("<>"), "derivedIn", count) for term, count in self._terms.items())
        for what, (count, why) in self._open.items():
            node = f"{REG}open/{name(what[1 : what.rindex(_QUOTE)])}"
            lines += [_number(node, "openIn", count), f"<{node}> <{REG}what> {what} .", f"<{node}> <{REG}why> {why} ."]
        lines += self._differing()
        return "".join(f"{one}\n" for one in sorted(lines)).encode()

    def _differing(self) -> Iterator[str]:
        for about, readings in self._readings.items():
            if len(readings) < 2:
                continue
            first = min(record for record, _ in readings)
            for number, slot in enumerate(_READ):
                values = sorted({_as_text(found[number]) for _, found in readings})
                if len(values) > 1:
                    told = {"one": values[0], "other": values[-1]}
                    node = f"{first}/readings_differ/{slot}"
                    yield _number(node, "readings", len(readings))
                    yield from _told(node, slot, told, about)


def recount(records: Iterable[str], lines: Iterable[bytes]) -> bytes:
    """Count a version again.

    Parameters
    ----------
    records
        IRIs of its records, in the order in which they stand in the graph.
    lines
        Its graph as N-Triples, as it was written: heart after heart.
    """
    counting = Counting()
    waiting = iter(lines)
    line = next(waiting, b"")
    for record in records:
        own = (f"<{record}> ".encode(), f"<{record}/".encode())
        heart = []
        while line.startswith(own):
            heart.append(line)
            line = next(waiting, b"")
        counting.add(record, b"".join(heart).decode())
    return counting.triples()


def _told(node: str, slot: str, told: dict[str, str], about: tuple[str, str]) -> Iterator[str]:
    yield f"<{node}> <{REG}conclusion> <{_MODEL}{slot}> ."
    yield from (f"<{node}> <{REG}{name}> {value} ." for name, value in told.items())
    named = zip(("collection", "accession"), about, strict=True)
    yield from (f"<{node}> <{_MODEL}{name}> {value} ." for name, value in named if value)


def _number(node: str, name: str, value: int) -> str:
    return f"<{node}> <{REG}{name}> {integer(value)}"


def _as_text(value: str) -> str:
    """Return the literal of a value's text: what STR() makes of it."""
    if not value:
        return literal("not determined")
    return literal(value[1:-1]) if value.startswith("<") else value[: value.rindex('"') + 1]
