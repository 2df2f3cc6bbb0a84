"""One line of the ledger: what was decided of which deposit, by whom, with what, after which other line.

::

    {"number": 7, "previous": "<sha256 of line 6>", "kind": "submission", "at": "2026-11-25T09:30:00Z",
     "registry": "...", "deposit": "<sha256>", "collection": "veyhaven", "outcome": "accepted", "agent": "...",
     "supersedes": "<sha256>", "graph": "<IRI>", "made": {"graph": "<sha256>", ...}, "counts": {...}, ...}

The digest of a line is the SHA-256 of its canonical JSON (sorted keys, no spaces), so that a line that is changed
breaks every line after it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

import orjson

__all__ = ["ACCEPTED", "OUTCOMES", "START", "Entry", "now"]

OUTCOMES = ("accepted", "accepted_with_warnings", "refused")
ACCEPTED = OUTCOMES[:2]
START = "0" * 64
"""What the first line names as the one before it."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A line; ``body`` is its plain data."""

    body: Mapping[str, Any]

    @property
    def number(self) -> int:
        """Place in the ledger, from 1."""
        return int(self.body["number"])

    @property
    def previous(self) -> str:
        """Digest of the line before."""
        return str(self.body["previous"])

    @property
    def kind(self) -> str:
        """``submission``, ``resolution`` or ``conversion``."""
        return str(self.body["kind"])

    @property
    def deposit(self) -> str:
        """Digest of the deposit spoken of; empty for none."""
        return str(self.body.get("deposit") or "")

    @property
    def collection(self) -> str:
        """Identifier of the collection."""
        return str(self.body.get("collection") or "")

    @property
    def outcome(self) -> str:
        """One of ``OUTCOMES``; empty if nothing was decided."""
        return str(self.body.get("outcome") or "")

    @property
    def is_version(self) -> bool:
        """Whether this line brought a version into the registry."""
        return self.accepted and self.kind == "submission"

    @property
    def accepted(self) -> bool:
        """Whether the deposit was taken in."""
        return self.outcome in ACCEPTED

    @property
    def graph(self) -> str:
        """IRI of the named graph of this version."""
        return str(self.body.get("graph") or "")

    @property
    def current(self) -> bool:
        """Whether this line made its deposit the current one of its collection."""
        return self.accepted and not self.body.get("aside")

    @property
    def origin(self) -> str:
        """Digest of the line of another registry that this one was taken over from; its own digest if it is of here."""
        found = self.body.get("origin")
        return str(found["digest"]) if isinstance(found, Mapping) else self.digest

    @property
    def text(self) -> str:
        """Canonical JSON."""
        return orjson.dumps(dict(self.body), option=orjson.OPT_SORT_KEYS).decode()

    @property
    def digest(self) -> str:
        """SHA-256 of the canonical JSON, in hex."""
        return hashlib.sha256(self.text.encode()).hexdigest()


def now() -> str:
    """Return the time, UTC, to the second: ``2026-11-25T09:30:00Z``."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
