"""Uploads that may be broken off and go on: the bytes come in pieces, under the digest that the whole will have.

::

    incoming/up.<token>.<sha256>      its size is how much has come; the digest is compared when all is there
"""

from __future__ import annotations

import os
import re
from collections.abc import AsyncIterator
from pathlib import Path

from chordae.errors import InputError
from chordae.registry.package import digest_file

__all__ = ["UploadElsewhere", "Uploads"]

_DIGEST = re.compile(r"[0-9a-f]{64}")
_OPEN = 8


class UploadElsewhere(InputError):
    """Bytes that do not go on where an upload stands."""


class Uploads:
    """The uploads of a registry.

    Parameters
    ----------
    folder
        Where they stand.
    limit
        Largest upload, in bytes.
    """

    def __init__(self, folder: Path, limit: int) -> None:
        self._folder, self.limit = folder, limit

    def path(self, token: str, digest: str) -> Path:
        """Return the file of an upload; each token has its own."""
        if not _DIGEST.fullmatch(digest):
            raise InputError("An upload is named by its SHA-256 in 64 hexadecimal digits.")
        return self._folder / f"up.{token}.{digest}"

    def size(self, token: str, digest: str) -> int:
        """Return how many bytes have come."""
        path = self.path(token, digest)
        return path.stat().st_size if path.exists() else 0

    async def add(self, token: str, digest: str, offset: int, pieces: AsyncIterator[bytes]) -> int:
        """Add bytes at the end, and return how many have come.

        Raises
        ------
        InputError
            The offset is not where the upload stands, it grows too large, or the token has too many open.
        """
        path = self.path(token, digest)
        if offset != self.size(token, digest):
            raise UploadElsewhere(f"This upload stands at byte {self.size(token, digest)}.", "Go on from there.")
        if not path.exists() and len(list(self._folder.glob(f"up.{token}.*"))) >= _OPEN:
            raise InputError(f"There are {_OPEN} uploads open with this token.", "Finish or wait for one of them.")
        size = offset
        with path.open("ab") as stream:
            async for piece in pieces:
                size += len(piece)
                if size > self.limit:
                    stream.close()
                    path.unlink()
                    raise InputError(f"A deposit of more than {self.limit:,} bytes is not taken.", "Split it.")
                stream.write(piece)
            stream.flush()
            os.fsync(stream.fileno())
        return size

    def finish(self, token: str, digest: str) -> Path:
        """Return the file of a complete upload; one that is not what it says is removed."""
        path = self.path(token, digest)
        if not path.exists():
            raise InputError("There is no such upload.", "Upload the archive first.")
        if digest_file(path) != digest:
            path.unlink()
            raise InputError("What was uploaded has another digest than was said.", "Upload it again.")
        return path
