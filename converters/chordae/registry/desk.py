"""The desk of the service: what was handed in waits in a folder and is judged one after another.

::

    queue/<ticket>.zip + .json    handed in by whom, and when         state waiting, judging
    queue/<ticket>.done.json      what became of it                    state accepted, ..., refused

A ticket is the SHA-256 of what was sent: the same bytes sent twice are one ticket. What waits when the service is
ended, however it is ended, is judged when it starts again.
"""

from __future__ import annotations

import contextlib
import queue
import shutil
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import orjson

from chordae import files
from chordae.errors import ChordaeError, InputError
from chordae.issues import issue
from chordae.registry.entry import now
from chordae.registry.package import unpack
from chordae.registry.place import Registry
from chordae.registry.stores import Embedded, TripleStore, follow
from chordae.registry.submit import submit

__all__ = ["Desk"]

_WAITING = 200
_ENDING = 300.0
"""Seconds that the service waits at its end for the deposit that is being judged."""


class Desk:
    """Judges in a thread of its own.

    Parameters
    ----------
    registry
        Open for writing.
    store
        Its store, which follows the ledger after each deposit.
    log
        Takes lines of the log.
    """

    def __init__(self, registry: Registry, store: TripleStore, log: Callable[..., None]) -> None:
        self._registry, self._store, self._log = registry, store, log
        self._folder = registry.folder / "queue"
        self._waiting: queue.Queue[str | None] = queue.Queue()
        self._thread = threading.Thread(target=self._work, name="desk", daemon=True)
        self._now = ""

    def start(self) -> None:
        """Begin with what was left waiting."""
        for one in sorted(self._folder.glob("*.json"), key=lambda path: path.stat().st_mtime_ns):
            ticket = one.name.removesuffix(".json")
            if not ticket.endswith(".done") and not self._done(ticket).exists():
                self._waiting.put(ticket)
        self._thread.start()

    def stop(self) -> None:
        """End after the deposit that is being judged, if that is soon; else it is judged again at the next start."""
        self._waiting.put(None)
        self._thread.join(_ENDING)
        if self._thread.is_alive():
            self._log(event="left", ticket=self._now, seconds=_ENDING)

    def take(self, archive: Path, digest: str, told: dict[str, Any]) -> str:
        """Take an archive over, and return its ticket.

        Parameters
        ----------
        archive
            A file that is moved.
        digest
            Its SHA-256.
        told
            ``token``, ``collection``, ``agent``, and ``follows`` if that was said.

        Raises
        ------
        InputError
            Too many deposits are waiting.
        """
        known = self.state(digest)
        if known is not None and known["state"] != "refused":
            archive.unlink()
            return digest
        if self._waiting.qsize() >= _WAITING:
            raise InputError("Too many deposits are waiting to be judged.", "Come back later.")
        self._done(digest).unlink(missing_ok=True)
        archive.replace(self._folder / f"{digest}.zip")
        files.write_aside(self._folder / f"{digest}.json", orjson.dumps({**told, "at": now()}))
        self._waiting.put(digest)
        return digest

    def state(self, ticket: str) -> dict[str, Any] | None:
        """Return what is known of a ticket."""
        try:
            told: dict[str, Any] = orjson.loads((self._folder / f"{ticket}.json").read_bytes())
        except OSError:
            return None
        with contextlib.suppress(OSError):
            return {**told, **orjson.loads(self._done(ticket).read_bytes()), "ticket": ticket}
        return {**told, "state": "judging" if ticket == self._now else "waiting", "ticket": ticket}

    def _done(self, ticket: str) -> Path:
        return self._folder / f"{ticket}.done.json"

    def _work(self) -> None:
        while (ticket := self._waiting.get()) is not None:
            self._now = ticket
            try:
                told = orjson.loads((self._folder / f"{ticket}.json").read_bytes())
                found = self._judge(ticket, told)
                files.write_aside(self._done(ticket), orjson.dumps(found))
                (self._folder / f"{ticket}.zip").unlink(missing_ok=True)
                self._log(event="judged", ticket=ticket, **{key: found[key] for key in ("state", "deposit")})
            except Exception as error:  # the desk goes on; the ticket stays, to be judged at the next start
                self._log(event="failed", ticket=ticket, error=f"{type(error).__name__}: {error}")
            self._now = ""

    def _judge(self, ticket: str, told: dict[str, Any]) -> dict[str, Any]:
        work = Path(tempfile.mkdtemp(prefix="work.", dir=self._registry.incoming))
        owned = str(told["collection"])
        try:
            try:
                unpack(self._folder / f"{ticket}.zip", work / "deposit")
            except InputError as error:
                return _refused(issue("I-REG-12", problem=error.message).to_json())
            try:
                done = submit(
                    self._registry,
                    work / "deposit",
                    agent=str(told["agent"]),
                    follows=told.get("follows"),
                    owns=lambda collection: owned in ("*", collection),
                )
            except ChordaeError as error:
                return _refused({"message": error.message, "hint": error.hint})
        finally:
            shutil.rmtree(work, ignore_errors=True)
        if done.entry.accepted and not done.again:
            follow(self._registry, self._store)
            if isinstance(self._store, Embedded):
                self._store.freeze(self._registry.folder / "store" / "seen")
        return {
            "state": done.entry.outcome,
            "deposit": done.entry.deposit,
            "line": done.entry.number,
            "again": done.again,
            "of": done.entry.collection,
        }


def _refused(reason: dict[str, Any]) -> dict[str, Any]:
    return {"state": "refused", "deposit": "", "line": 0, "again": False, "of": "", "reason": reason}
