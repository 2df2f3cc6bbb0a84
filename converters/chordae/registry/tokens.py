"""Tokens: who may hand in for which collection, until when; kept as salted scrypt hashes, never as they are.

::

    chordae_<id>_<secret>       shown once, when it is made
    tokens  id  hash  salt  collection ("*" for all)  scopes "submit read"  expires  revoked  made  note

A token that is revoked or has expired ends at once, also where it was checked a moment ago.

References
----------
RFC 7914 (scrypt); parameters n=2^14, r=8, p=1 as hashlib's documentation allows them within 32 MB.
"""

from __future__ import annotations

import hashlib
import hmac
import re
import secrets
import sqlite3
import threading
import time
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from chordae.errors import InputError
from chordae.registry.declared import COLLECTION_ID
from chordae.registry.entry import now

__all__ = ["SCOPES", "Token", "Tokens"]

SCOPES = ("submit", "read")
_FORM = re.compile(r"chordae_([0-9a-f]{12})_([A-Za-z0-9_-]{43})")
_TABLE = """
CREATE TABLE IF NOT EXISTS tokens (id TEXT PRIMARY KEY, hash BLOB NOT NULL, salt BLOB NOT NULL,
  collection TEXT NOT NULL, scopes TEXT NOT NULL, expires TEXT NOT NULL, revoked TEXT, made TEXT NOT NULL,
  note TEXT NOT NULL);
"""
_REMEMBERED = 60.0


@dataclass(frozen=True, slots=True)
class Token:
    """What is known of a token; never its secret."""

    id: str
    collection: str
    scopes: tuple[str, ...]
    expires: str
    revoked: str | None
    made: str
    note: str

    @property
    def holds(self) -> bool:
        """Whether it can be used now."""
        return self.revoked is None and now() < self.expires

    def may(self, scope: str, collection: str) -> bool:
        """Whether it may do something for a collection."""
        return self.holds and scope in self.scopes and self.collection in ("*", collection)


class Tokens:
    """The tokens of a registry."""

    def __init__(self, path: Path) -> None:
        self._lock = threading.Lock()
        self._connection = sqlite3.connect(path, check_same_thread=False, timeout=30)
        self._connection.executescript(_TABLE)
        path.chmod(0o600)
        self._seen: dict[bytes, tuple[str, float]] = {}

    def close(self) -> None:
        """Close the file."""
        self._connection.close()

    def make(self, collection: str, scopes: tuple[str, ...] = SCOPES, days: int = 90, note: str = "") -> str:
        """Make a token and return it; it is shown this once.

        Raises
        ------
        InputError
            A scope or the collection is not one, or it would last longer than two years.
        """
        if not scopes or any(one not in SCOPES for one in scopes):
            raise InputError(f"A token is for {' and '.join(SCOPES)}.")
        if collection != "*" and not COLLECTION_ID.fullmatch(collection):
            raise InputError(f"{collection!r} is no identifier of a collection.")
        if not 0 < days <= 731:
            raise InputError("A token lasts from 1 to 731 days.")
        token, secret, salt = secrets.token_hex(6), secrets.token_urlsafe(32), secrets.token_bytes(16)
        expires = (datetime.now(UTC) + timedelta(days=days)).strftime("%Y-%m-%dT%H:%M:%SZ")
        with self._lock, self._connection as run:
            run.execute(
                "INSERT INTO tokens VALUES (?, ?, ?, ?, ?, ?, NULL, ?, ?)",
                (token, _hash(secret, salt), salt, collection, " ".join(scopes), expires, now(), note[:200]),
            )
        return f"chordae_{token}_{secret}"

    def revoke(self, token: str) -> None:
        """End a token by its id."""
        with self._lock, self._connection as run:
            done = run.execute("UPDATE tokens SET revoked = ? WHERE id = ? AND revoked IS NULL", (now(), token))
            if not done.rowcount:
                raise InputError(f"There is no token {token[:40]!r} that could be revoked.")

    def list(self) -> list[Token]:
        """Return all tokens, oldest first."""
        with self._lock:
            rows = self._connection.execute(f"{_SELECT} ORDER BY made, id").fetchall()
        return [_token(row) for row in rows]

    def find(self, text: str) -> Token | None:
        """Return the token that a text is, ``None`` if it is none that holds."""
        found = _FORM.fullmatch(text)
        if not found:
            return None
        key = hashlib.sha256(text.encode()).digest()
        with self._lock:
            row = self._connection.execute(f"{_SELECT} WHERE id = ?", (found[1],)).fetchone()
            kept = self._connection.execute("SELECT hash, salt FROM tokens WHERE id = ?", (found[1],)).fetchone()
            seen = self._seen.get(key)
        if row is None or not (token := _token(row)).holds:
            return None
        if seen is None or seen[1] < time.monotonic():
            if not hmac.compare_digest(_hash(found[2], kept[1]), kept[0]):
                return None
            with self._lock:
                if len(self._seen) > 10_000:
                    self._seen.clear()
                self._seen[key] = (token.id, time.monotonic() + _REMEMBERED)
        return token


_SELECT = "SELECT id, collection, scopes, expires, revoked, made, note FROM tokens"


def _token(row: tuple[str, str, str, str, str | None, str, str]) -> Token:
    return Token(row[0], row[1], tuple(row[2].split()), row[3], row[4], row[5], row[6])


def _hash(secret: str, salt: bytes) -> bytes:
    return hashlib.scrypt(secret.encode(), salt=salt, n=2**14, r=8, p=1, maxmem=64 * 1024 * 1024)
