"""Ask a registry: a ready question or a query of one's own, over the current versions.

::

    asker(registry) -> Asker      .ask(text)  .question("hearts_with", {"term": "..."})

Where a query names no graph it sees the current version of every collection, the provenance and the vocabulary. GRAPH
may name any version ever accepted, and what was counted of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import TracebackType

from chordae.registry.answer import Answer, Ask
from chordae.registry.place import Registry
from chordae.registry.provenance import HEADS, LEDGER, VOCABULARY, counted_iri
from chordae.registry.query_pool import SECONDS, QueryPool
from chordae.registry.questions import find_question
from chordae.registry.stores import frozen_view, heads_at

__all__ = ["Asker"]


@dataclass
class Asker:
    """Asks a registry; use it in a ``with`` block, or call ``close``."""

    registry: Registry
    pool: QueryPool

    @classmethod
    def of(cls, registry: Registry, workers: int = 1) -> Asker:
        """Return an asker with processes of its own."""
        peers = tuple((registry.about.get("peers") or {}).values())
        return cls(registry, QueryPool(peers, workers, registry.about.get("server")))

    def __enter__(self) -> Asker:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """End the processes."""
        self.pool.close()

    def ask(
        self, text: str, kind: str = "json", *, rows: int = 10_000, size: int = 10 << 20, seconds: float = SECONDS
    ) -> Answer:
        """Ask a query of SPARQL 1.1.

        Parameters
        ----------
        text
            SELECT, ASK, CONSTRUCT or DESCRIBE.
        kind
            ``json`` or ``csv`` for rows; graphs come as N-Triples.
        rows, size, seconds
            Limits; an answer that is cut short says so.

        Raises
        ------
        InputError
            The query may not be asked, or oversteps a limit.
        """
        own = (LEDGER, HEADS, VOCABULARY)
        # Views of a time before the registry had a server are of no use: its server holds what is current.
        view = None if self.registry.about.get("server") else frozen_view(self.registry)
        last = self.registry.ledger.last()
        mark = int(view.name[:8]) if view else last.number if last else 0
        heads = heads_at(self.registry, mark).values()
        lines = (one for one in self.registry.ledger.entries() if one.accepted and one.number <= mark)
        graphs = dict.fromkeys(graph for one in lines for graph in (one.graph, counted_iri(one.graph)))
        ask = Ask(text, (*heads, *own), (*graphs, *own), kind, rows, size)
        return self.pool.run(ask, view, seconds)

    def question(self, name: str, values: Mapping[str, str], kind: str = "json", seconds: float = SECONDS) -> Answer:
        """Ask a ready question; see :mod:`chordae.registry.questions`."""
        return self.ask(find_question(name).fill(values), kind, rows=100_000, size=64 << 20, seconds=seconds)
