"""Where the triples stand: the embedded store, or a SPARQL 1.1 server. Both follow the ledger, line by line.

::

    follow(registry, store)    lines that the store has not yet:  graph -> counted -> provenance -> heads -> its mark
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
import hashlib
import io
import os
import shutil
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import IO, Protocol

import pyoxigraph as ox

from chordae import resources
from chordae.errors import InputError
from chordae.registry.entry import Entry
from chordae.registry.made import open_graph, read_counted
from chordae.registry.place import Registry, sync_folder
from chordae.registry.provenance import HEADS, LEDGER, REG, VOCABULARY, counted_iri, head_lines, provenance

__all__ = ["ATOMIC", "Embedded", "TripleStore", "follow", "frozen_view", "heads_at", "open_store", "vocabulary_digest"]

ATOMIC = 5_000
"""Graphs of up to this many triples are written in one transaction; larger ones by the bulk loader."""
_KEPT_VIEWS = 3


class TripleStore(Protocol):
    """What a registry needs of a store."""

    def said(self, name: str) -> str | None:
        """Return what the store says of itself: its ``mark``, the digest of its ``vocabulary``."""
        ...

    def load(self, graph: str, triples: IO[bytes], size: int) -> None:
        """Put N-Triples into a named graph that is new, or was half loaded."""
        ...

    def replace(self, graph: str, triples: bytes) -> None:
        """Put N-Triples in place of what a graph holds."""
        ...

    def note(self, lines: Sequence[str], heads: Sequence[str]) -> None:
        """Add provenance, and set the heads with what the store says of itself; the last step of a line."""
        ...

    def size(self, graph: str) -> int:
        """Return the number of triples in a graph."""
        ...


def follow(registry: Registry, store: TripleStore, before: Callable[[Entry], None] | None = None) -> int:
    """Bring a store up to the ledger; returns the number of its last line."""
    number = int(store.said("mark") or 0)
    vocabulary = store.said("vocabulary") or ""
    if number and store.said("counted") is None:  # an older chordae loaded it
        for entry in registry.ledger.entries():
            if entry.number <= number and entry.is_version:
                _load_counted(registry, store, entry)
        store.note([], _state(registry, number, vocabulary))
    for entry in registry.ledger.entries(number):
        if before is not None:
            before(entry)
        if entry.is_version:
            with open_graph(registry.made(entry.number)) as stream:
                store.load(entry.graph, stream, int(entry.body["counts"]["triples"]))
            _load_counted(registry, store, entry)
        number = entry.number
        store.note(provenance(entry, registry.base), _state(registry, number, vocabulary))
    digest = vocabulary_digest()
    if digest != vocabulary:
        store.replace(VOCABULARY, _vocabulary())
        store.note([], _state(registry, number, digest))
    return number


def _load_counted(registry: Registry, store: TripleStore, entry: Entry) -> None:
    counted = read_counted(registry.made(entry.number))
    store.load(counted_iri(entry.graph), io.BytesIO(counted), counted.count(b"\n"))


def vocabulary_digest() -> str:
    """Return the digest of vocabulary and mapping sets together."""
    both = resources.digest("schema/vocabulary") + resources.digest("mappings")
    return hashlib.sha256(both.encode()).hexdigest()


@cache
def _vocabulary() -> bytes:
    """The vocabulary with its outside codes, as sorted N-Triples."""
    from chordae.mapping import codes_for
    from chordae.terms import vocabulary
    from chordae.vocabulary.skos import skos_graph

    text = skos_graph(vocabulary(), codes_for).serialize(format="nt", encoding="utf-8")
    return b"".join(sorted(text.splitlines(keepends=True)))


def _state(registry: Registry, number: int, vocabulary: str) -> list[str]:
    said = {"mark": f'"{number}"', "vocabulary": f'"{vocabulary}"', "counted": '"1"'}
    told = [f"<{REG}store> <{REG}{key}> {value} ." for key, value in said.items()]
    return head_lines(heads_at(registry, number)) + told


def heads_at(registry: Registry, number: int) -> dict[str, str]:
    """Return the current graph of each collection as of a line."""
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
        follow(registry, embedded)
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

    def said(self, name: str) -> str | None:
        """See :class:`TripleStore`."""
        found = self._store.quads_for_pattern(
            ox.NamedNode(REG + "store"), ox.NamedNode(REG + name), None, ox.NamedNode(HEADS)
        )
        return next((one.object.value for one in found if isinstance(one.object, ox.Literal)), None)

    def load(self, graph: str, triples: IO[bytes], size: int) -> None:
        """See :class:`TripleStore`."""
        name = ox.NamedNode(graph)
        if size <= ATOMIC:
            self._store.load(triples, format=ox.RdfFormat.N_TRIPLES, to_graph=name)
        else:
            self._store.bulk_load(triples, format=ox.RdfFormat.N_TRIPLES, to_graph=name)

    def replace(self, graph: str, triples: bytes) -> None:
        """See :class:`TripleStore`."""
        self._store.clear_graph(ox.NamedNode(graph))
        self._store.load(triples, format=ox.RdfFormat.N_TRIPLES, to_graph=ox.NamedNode(graph))

    def note(self, lines: Sequence[str], heads: Sequence[str]) -> None:
        """See :class:`TripleStore`; one transaction."""
        self._store.update(
            f"DELETE WHERE {{ GRAPH <{HEADS}> {{ ?s ?p ?o }} }} ; "
            f"INSERT DATA {{ GRAPH <{LEDGER}> {{ {' '.join(lines)} }} GRAPH <{HEADS}> {{ {' '.join(heads)} }} }}"
        )
        self._store.flush()

    def size(self, graph: str) -> int:
        """See :class:`TripleStore`."""
        return sum(1 for _ in self._store.quads_for_pattern(None, None, None, ox.NamedNode(graph)))

    def freeze(self, folder: Path) -> Path:
        """Make a frozen view of the store as it is now, named by what it says of itself, for readers."""
        mark, vocabulary = int(self.said("mark") or 0), (self.said("vocabulary") or "")[:8]
        view = folder / f"{mark:08d}.{vocabulary}.{self.said('counted') or 0}"
        if view.exists():
            return view
        aside = folder / f"work.{os.getpid()}"
        shutil.rmtree(aside, ignore_errors=True)
        self._store.backup(str(aside))
        aside.rename(view)
        sync_folder(folder)
        for old in _views(folder)[:-_KEPT_VIEWS]:
            shutil.rmtree(old, ignore_errors=True)
        os.utime(view)
        return view

    def close(self) -> None:
        """Write everything and free the folder."""
        with contextlib.suppress(OSError):
            self._store.flush()
        del self._store


def frozen_view(registry: Registry) -> Path | None:
    """Return the newest frozen view, ``None`` if the store was never opened."""
    views = _views(registry.folder / "store" / "seen")
    return views[-1] if views else None


def _views(folder: Path) -> list[Path]:
    """The frozen views, oldest first: by line, and among those of one line by time."""
    found = [one for one in folder.iterdir() if one.name[:8].isdigit()] if folder.is_dir() else []
    return sorted(found, key=lambda one: (one.name[:8], one.stat().st_mtime_ns))
