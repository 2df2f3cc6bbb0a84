"""Processes that carry out queries, each with limits on time and memory; one that oversteps is ended, not the registry.

::

    QueryPool(view or server, peers).run(Ask(...), seconds) -> Answer

A worker reads a frozen view of the store, so no query ever sees a half-loaded deposit or holds up a submission. It
looks at the query itself too: parsing a stranger's text also takes time.
"""

from __future__ import annotations

import contextlib
import multiprocessing as mp
import queue
import resource
import threading
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from pathlib import Path
from typing import Any

from chordae.errors import ChordaeError, InputError
from chordae.registry.answer import KINDS, Answer, Ask
from chordae.registry.query_form import QueryRefused, look_at

__all__ = ["MEMORY", "SECONDS", "QueryPool", "QueryTooLong"]

SECONDS = 10.0
"""Time limit of a public query."""
MEMORY = 2 * 1024**3
"""Address space that a worker may add to what it begins with, in bytes."""


_STARTING = 120.0
"""Seconds in which a worker has to be ready."""
_ENDING = 10.0
"""Seconds for which the end of a worker that was killed is waited for."""


class QueryTooLong(InputError):
    """A query that took longer, or needed more memory, than it may."""


@dataclass(slots=True)
class _Worker:
    process: SpawnProcess
    pipe: Connection


class QueryPool:
    """A few workers; started when first needed.

    Parameters
    ----------
    peers
        Addresses of other registries that a query may call.
    workers
        How many queries run at a time.
    server
        The ``server`` of ``registry.json``, where a SPARQL server holds the triples.
    """

    def __init__(self, peers: Collection[str] = (), workers: int = 2, server: Mapping[str, Any] | None = None) -> None:
        self._peers = tuple(peers)
        self._server = dict(server) if server else None
        self._context = mp.get_context("spawn")
        self._free: queue.LifoQueue[_Worker | None] = queue.LifoQueue()
        for _ in range(workers):
            self._free.put(None)
        self._closed = threading.Event()

    def run(self, ask: Ask, view: Path | None, seconds: float = SECONDS, wait: float = 5.0) -> Answer:
        """Carry out a query.

        Parameters
        ----------
        ask
            The query and its limits.
        view
            The frozen view to read; not needed with a server.
        seconds
            Its time limit.
        wait
            How long to wait for a worker to be free.

        Raises
        ------
        QueryRefused
            It may not be asked.
        QueryTooLong
            It overstepped a limit, or all workers stayed busy.
        """
        try:
            worker = self._free.get(timeout=wait)
        except queue.Empty:
            raise QueryTooLong("All workers are busy with other queries.", "Ask again in a moment.") from None
        alive: _Worker | None = None
        try:
            alive = worker or self._start()
            alive.pipe.send((ask, str(view) if view else None))
            if not alive.pipe.poll(seconds):
                raise QueryTooLong(f"The query took longer than {seconds:g} seconds and was ended.", "Ask for less.")
            found = alive.pipe.recv()
        except (EOFError, OSError):
            _end(alive)
            alive = None
            raise QueryTooLong("The query needed more memory than it may and was ended.", "Ask for less.") from None
        except BaseException:
            _end(alive)
            alive = None
            raise
        finally:
            if self._closed.is_set():
                _end(alive)
                alive = None
            self._free.put(alive)
        if isinstance(found, Answer):
            return found
        kind, message, hint = found
        raise (QueryTooLong if kind == "long" else QueryRefused)(message, hint)

    def close(self) -> None:
        """End all workers."""
        self._closed.set()
        for _ in range(self._free.qsize()):
            with contextlib.suppress(queue.Empty):
                _end(self._free.get_nowait())

    def _start(self) -> _Worker:
        ours, theirs = self._context.Pipe()
        process = self._context.Process(target=_work, args=(theirs, self._peers, self._server), daemon=True)
        process.start()
        theirs.close()
        worker = _Worker(process, ours)
        try:
            ready = ours.poll(_STARTING) and ours.recv()
        except (EOFError, OSError):
            ready = False
        if not ready:
            _end(worker)
            raise QueryTooLong("No worker could be started.", "Ask again in a moment.")
        return worker


def _end(worker: _Worker | None) -> None:
    if worker is not None:
        worker.pipe.close()
        worker.process.kill()
        worker.process.join(_ENDING)


def _work(pipe: Connection, peers: tuple[str, ...], server: dict[str, Any] | None) -> None:
    """Answer one query after another; runs in a process of its own."""
    import pyoxigraph as ox
    from rdflib.plugins.sparql.parser import parseQuery

    parseQuery("ASK {}")  # the grammar is built once, before memory is limited
    used = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    with contextlib.suppress(ValueError, OSError):
        resource.setrlimit(resource.RLIMIT_AS, (used + MEMORY, used + MEMORY))
    opened: tuple[str | None, ox.Store] | None = None
    pipe.send(True)  # the time of a query begins now, not while the worker starts
    while True:
        try:
            ask, view = pipe.recv()
        except (EOFError, KeyboardInterrupt):
            return
        try:
            query = look_at(ask.text, peers)
            if server is not None:
                pipe.send(_ask_server(server, ask, query.form))
                continue
            if opened is None or opened[0] != view:
                opened = (view, ox.Store.read_only(view) if view else ox.Store())
            from chordae.registry.answer import answer

            pipe.send(answer(opened[1], ask))
        except ChordaeError as error:
            pipe.send(("refused", error.message, error.hint))
        except (SyntaxError, ValueError, OSError, RuntimeError) as error:
            pipe.send(("refused", f"The query cannot be carried out: {' '.join(str(error).split())[:200]}.", ""))
        except MemoryError:
            pipe.send(("long", "The query needed more memory than it may and was ended.", "Ask for less."))


def _ask_server(server: dict[str, Any], ask: Ask, form: str) -> Answer:
    from chordae.registry.remote import Remote

    graphs = [("default-graph-uri", one) for one in ask.default] + [("named-graph-uri", one) for one in ask.named]
    rows = form in ("SELECT", "ASK")
    kind = KINDS["json" if form == "ASK" else ask.kind] if rows else KINDS["nt"]
    data = Remote.of(server).ask(ask.text, kind.partition(";")[0], graphs, ask.size)
    return Answer(data, kind, data.count(b"\n"))
