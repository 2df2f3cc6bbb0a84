"""Where the triples stand: the embedded store, or a SPARQL 1.1 server. Both follow the ledger, line by line.

::

    follow(registry, store)    lines that the store has not yet:  graph -> provenance -> heads -> its mark
    Embedded                   pyoxigraph; written in store/live, read in store/seen/<number> (a frozen view)
    Remote                     SPARQL 1.1 Query, Update and Graph Store protocols

A store holds nothing that the ledger and its files do not hold. Its mark is the number of the last line that it has
wholly; it is written last, so that an interrupted load is done again, which changes nothing.

References
----------
W3C SPARQL 1.1 Graph Store HTTP Protocol, SPARQL 1.1 Protocol, Recommendations of 21 March 2013.
"""

from __future__ import annotations

import contextlib
import os
import shutil
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Protocol

import pyoxigraph as ox

from chordae.errors import InputError
from chordae.registry.entry import Entry
from chordae.registry.made import open_graph
from chordae.registry.place import Registry, sync_folder
from chordae.registry.provenance import HEADS, LEDGER, REG, head_lines, provenance

__all__ = ["ATOMIC", "Embedded", "TripleStore", "follow", "frozen_view", "open_store"]

ATOMIC = 400_000
"""Graphs up to this many triples are written in one transaction; larger ones by the bulk loader, unseen until done."""
_KEPT_VIEWS = 3
_MARK = f"<{REG}store> <{REG}mark> "


class TripleStore(Protocol):
    """What a registry needs of a store."""

    def mark(self) -> int:
        """Return the number of the last line that is wholly here, 0 for none."""
        ...

    def load(self, graph: str, triples: IO[bytes], size: int) -> None:
        """Put N-Triples into a named graph that is new, or was half loaded."""
        ...

    def note(self, lines: Sequence[str], heads: Sequence[str], mark: int) -> None:
        """Add provenance, set the heads and the mark; the last step of a line."""
        ...

    def size(self, graph: str) -> int:
        """Return the number of triples in a graph."""
        ...


def follow(registry: Registry, store: TripleStore, before: Callable[[Entry], None] | None = None) -> int:
    """Bring a store up to the ledger; returns the number of its last line."""
    number = store.mark()
    for entry in registry.ledger.entries(number):
        if before is not None:
            before(entry)
        made = registry.made(entry.number)
        if entry.accepted and entry.kind == "submission":
            with open_graph(made) as stream:
                store.load(entry.graph, stream, int(entry.body["counts"]["triples"]))
        store.note(provenance(entry, registry.base), head_lines(_heads(registry, entry.number)), entry.number)
        number = entry.number
    return number


def _heads(registry: Registry, number: int) -> dict[str, str]:
    """The current graph of each collection as of a line."""
    last = registry.ledger.last()
    if last is not None and last.number == number:
        return {one.collection: one.graph for one in registry.ledger.heads()}
    return {one.collection: one.graph for one in registry.ledger.entries() if one.current and one.number <= number}


@contextmanager
def open_store(registry: Registry) -> Iterator[TripleStore]:
    """Open the store of a registry for writing, and bring it up to the ledger."""
    from chordae.registry.remote import Remote

    remote = registry.about.get("server")
    if remote:
        store: TripleStore = Remote.of(remote)
        follow(registry, store)
        yield store
        return
    embedded = Embedded(registry.folder / "store" / "live")
    try:
        if follow(registry, embedded):
            embedded.freeze(registry.folder / "store" / "seen")
        yield embedded
    finally:
        embedded.close()


class Embedded:
    """The embedded store."""

    def __init__(self, path: Path) -> None:
        try:
            self._store = ox.Store(str(path))
        except OSError as error:
            raise InputError(
                f"The store {path} cannot be opened: {' '.join(str(error).split())[:200]}.",
                "If it is damaged, remove its folder: it is made again from the ledger.",
            ) from None

    def mark(self) -> int:
        """See :class:`TripleStore`."""
        found = [
            int(one.object.value)
            for one in self._store.quads_for_pattern(ox.NamedNode(REG + "store"), ox.NamedNode(REG + "mark"), None)
            if isinstance(one.object, ox.Literal)
        ]
        return max(found, default=0)

    def load(self, graph: str, triples: IO[bytes], size: int) -> None:
        """See :class:`TripleStore`."""
        name = ox.NamedNode(graph)
        if size <= ATOMIC:
            self._store.load(triples, format=ox.RdfFormat.N_TRIPLES, to_graph=name)
        else:
            self._store.bulk_load(triples, format=ox.RdfFormat.N_TRIPLES, to_graph=name)

    def note(self, lines: Sequence[str], heads: Sequence[str], mark: int) -> None:
        """See :class:`TripleStore`; one transaction."""
        data = "".join(f"{line}\n" for line in lines)
        current = " ".join(heads)
        number = f'"{mark}"^^<http://www.w3.org/2001/XMLSchema#integer>'
        update = (
            f"DELETE WHERE {{ GRAPH <{HEADS}> {{ ?s ?p ?o }} }} ; "
            f"INSERT DATA {{ GRAPH <{LEDGER}> {{ {data} }} GRAPH <{HEADS}> {{ {current} {_MARK}{number} }} }}"
        )
        self._store.update(update)
        self._store.flush()

    def size(self, graph: str) -> int:
        """See :class:`TripleStore`."""
        return sum(1 for _ in self._store.quads_for_pattern(None, None, None, ox.NamedNode(graph)))

    def freeze(self, folder: Path) -> Path:
        """Make a frozen view of the store as it is now, named by its mark, for readers."""
        view = folder / f"{self.mark():08d}"
        if view.exists():
            return view
        aside = folder / f"work.{os.getpid()}"
        shutil.rmtree(aside, ignore_errors=True)
        self._store.backup(str(aside))
        aside.rename(view)
        sync_folder(folder)
        for old in sorted(one for one in folder.iterdir() if one.name.isdigit())[:-_KEPT_VIEWS]:
            shutil.rmtree(old, ignore_errors=True)
        return view

    def close(self) -> None:
        """Write everything and free the folder."""
        with contextlib.suppress(OSError):
            self._store.flush()
        del self._store


def frozen_view(registry: Registry) -> Path | None:
    """Return the newest frozen view, ``None`` if nothing was accepted yet."""
    seen = registry.folder / "store" / "seen"
    views = sorted(one for one in seen.iterdir() if one.name.isdigit()) if seen.is_dir() else []
    return views[-1] if views else None


