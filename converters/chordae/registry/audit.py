"""Who did what: one JSON object a line, added at the end of a file and never changed.

::

    {"at": "...", "request": "8f2c...", "client": "127.0.0.1", "token": "a1b2...", "method": "POST",
     "path": "/v1/submissions", "status": 202, "seconds": 0.03, "bytes": 51}

Secrets, queries and deposits are not written: the id of a token is, the token is not.
"""

from __future__ import annotations

import os
import sys
import threading
from pathlib import Path
from typing import Any

import orjson

from chordae.registry.entry import now

__all__ = ["Audit"]


class Audit:
    """The audit log; every line goes to the file in one write, and to standard error as the log of the service."""

    def __init__(self, path: Path, *, echo: bool = False) -> None:
        self._handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
        self._lock = threading.Lock()
        self._echo = echo

    def write(self, **fields: Any) -> None:
        """Add a line."""
        line = orjson.dumps({"at": now(), **fields}, default=str) + b"\n"
        with self._lock:
            os.write(self._handle, line)
            if self._echo:
                sys.stderr.buffer.write(line)
                sys.stderr.flush()

    def close(self) -> None:
        """Close the file."""
        os.close(self._handle)
