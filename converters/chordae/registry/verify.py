"""Whether a registry is as it was written: chain, deposits, what was made, and the store; faults in words.

::

    verify(registry, store) -> []      nothing is wrong
"""

from __future__ import annotations

from collections.abc import Iterator

from chordae import deposit as deposits
from chordae.registry.entry import START, Entry
from chordae.registry.made import digests, read_counted
from chordae.registry.package import deposit_digest
from chordae.registry.place import Registry
from chordae.registry.provenance import counted_iri
from chordae.registry.stores import TripleStore

__all__ = ["verify"]


def verify(registry: Registry, store: TripleStore | None = None) -> list[str]:
    """Look at everything.

    Parameters
    ----------
    registry
        Open.
    store
        Its store, if that is to be compared too.

    Returns
    -------
    list[str]
        One sentence a fault.
    """
    faults: list[str] = []
    previous = START
    entries = registry.ledger.entries()
    for number, entry in enumerate(entries, 1):
        if entry.number != number or entry.previous != previous:
            faults.append(f"Line {number} of the ledger does not follow the one before it.")
        previous = entry.digest
        if entry.kind == "submission":
            faults += _files(registry, entry)
    faults += _leftovers(registry, entries)
    if store is not None:
        faults += _store(registry, entries, store)
    return faults


def _files(registry: Registry, entry: Entry) -> Iterator[str]:
    folder = registry.deposit(entry.deposit)
    if not folder.is_dir():
        yield f"The deposit {entry.deposit[:12]} of line {entry.number} is missing."
    elif deposit_digest(folder) != entry.deposit:
        yield f"The deposit {entry.deposit[:12]} of line {entry.number} is not the one that was handed in."
    elif entry.accepted:
        for one in deposits.verify(folder):
            if one.severity == "violation":
                yield f"The deposit {entry.deposit[:12]} of line {entry.number}: {one.message}"
    if digests(registry.made(entry.number)) != entry.body["made"]:
        yield f"What was made for line {entry.number} is not as it was."
    rows = len(registry.ledger.hearts(entry.number))
    if entry.accepted and rows != entry.body["counts"]["records"]:
        yield f"The ledger has {rows} hearts of line {entry.number}, not {entry.body['counts']['records']}."


def _leftovers(registry: Registry, entries: list[Entry]) -> Iterator[str]:
    known = {one.deposit for one in entries}
    for one in sorted((registry.folder / "deposits").iterdir()):
        if one.name not in known:
            yield f"The folder deposits/{one.name[:16]} belongs to no line of the ledger."
    for one in sorted((registry.folder / "made").iterdir()):
        if not one.name.isdigit() or int(one.name) > len(entries):
            yield f"The folder made/{one.name} belongs to no line of the ledger."


def _store(registry: Registry, entries: list[Entry], store: TripleStore) -> Iterator[str]:
    mark = int(store.said("mark") or 0)
    if mark != len(entries):
        yield f"The store has {mark} lines of the ledger, not {len(entries)}."
    for entry in entries:
        if entry.is_version:
            size = store.size(entry.graph)
            if size != entry.body["counts"]["triples"]:
                yield f"The graph of line {entry.number} has {size} triples, not {entry.body['counts']['triples']}."
            counted = read_counted(registry.made(entry.number)).count(b"\n")
            if (size := store.size(counted_iri(entry.graph))) != counted:
                yield f"What was counted of line {entry.number} has {size} triples in the store, not {counted}."
