"""Long lists and many names that do not stay in memory: beyond a few they stand in a file that goes by itself.

::

    rows = Spool(pack, unpack); rows.append(row) ...        a list that only grows: len(rows), rows[7], for row in rows
    first = Seen(); first.at("0012", 5) -> 5                 the first value that came with a name
                    first.at("0012", 9) -> 5; len(first) -> 1

Both files have no name and are removed by the system when they are closed, whatever becomes of the program.
"""

from __future__ import annotations

import marshal
import sqlite3
import tempfile
import weakref
from array import array
from collections.abc import Callable, Iterator, Sequence
from typing import IO, Any, Generic, TypeVar, overload

__all__ = ["Seen", "Spool"]

T = TypeVar("T")
_BLOCK = 256
_KEPT = 512


class Spool(Sequence[T], Generic[T]):
    """A list that is appended to and then read, as often as wanted; of a long one only a block is in memory.

    Parameters
    ----------
    pack, unpack
        From an item to plain data (text, numbers, tuples, lists, ``None``) and back.

    Examples
    --------
    >>> squares = Spool(lambda number: number, lambda number: number)
    >>> for number in range(2000):
    ...     squares.append(number * number)
    >>> len(squares), squares[1999], squares[-2000:3], sum(1 for one in squares)
    (2000, 3996001, [0, 1, 4], 2000)
    """

    def __init__(self, pack: Callable[[T], Any], unpack: Callable[[Any], T]) -> None:
        self._pack = pack
        self._unpack = unpack
        self._short: list[T] | None = []
        self._open: list[Any] = []
        self._file: IO[bytes] | None = None
        self._starts = array("Q", [0])
        self._length = 0

    def append(self, item: T) -> None:
        """Add an item at the end."""
        self._length += 1
        if self._short is not None:
            self._short.append(item)
            if len(self._short) > _KEPT:
                short, self._short = self._short, None
                self._file = tempfile.TemporaryFile(prefix="chordae-")  # noqa: SIM115 - closed with this object
                weakref.finalize(self, self._file.close)
                for one in short:
                    self._push(one)
            return
        self._push(item)

    def __len__(self) -> int:
        return self._length

    def __iter__(self) -> Iterator[T]:
        if self._short is not None:
            yield from self._short
            return
        for number in range(len(self._starts)):
            for one in self._block(number):
                yield self._unpack(one)

    @overload
    def __getitem__(self, index: int) -> T: ...
    @overload
    def __getitem__(self, index: slice) -> list[T]: ...
    def __getitem__(self, index: int | slice) -> T | list[T]:
        if isinstance(index, slice):
            return [self[one] for one in range(*index.indices(self._length))]
        at = range(self._length)[index]
        if self._short is not None:
            return self._short[at]
        return self._unpack(self._block(at // _BLOCK)[at % _BLOCK])

    def _push(self, item: T) -> None:
        self._open.append(self._pack(item))
        if len(self._open) == _BLOCK and self._file is not None:
            data = marshal.dumps(self._open)
            self._file.seek(self._starts[-1])
            self._file.write(data)
            self._starts.append(self._starts[-1] + len(data))
            self._open = []

    def _block(self, number: int) -> list[Any]:
        if self._file is None or number + 1 == len(self._starts):
            return self._open
        self._file.seek(self._starts[number])
        data = self._file.read(self._starts[number + 1] - self._starts[number])
        found: list[Any] = marshal.loads(data)  # noqa: S302 - nobody but this object wrote it, or can
        return found


class Seen:
    """The first number that came with each name, for any number of names.

    Examples
    --------
    >>> seen = Seen()
    >>> seen.at("0012", 3), seen.at("0013", 4), seen.at("0012", 9), len(seen), seen.get("0013"), seen.get("7")
    (3, 4, 3, 2, 4, None)
    """

    def __init__(self) -> None:
        self._length = 0
        # "" is a file without a name, which SQLite makes when its cache is full; one thread at a time uses it
        self._base = sqlite3.connect("", isolation_level=None, check_same_thread=False)
        weakref.finalize(self, self._base.close)
        self._base.executescript(
            "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA cache_size = -1000; BEGIN;"
            "CREATE TABLE seen (name TEXT PRIMARY KEY, number INTEGER) WITHOUT ROWID"
        )

    def at(self, name: str, number: int = 0) -> int:
        """Return the number that came with the name first; this one, if it is new."""
        told = name.encode("utf-8", "surrogatepass")
        if self._base.execute("INSERT OR IGNORE INTO seen VALUES (?, ?)", (told, number)).rowcount:
            self._length += 1
            return number
        found = self.get(name)
        return number if found is None else found

    def get(self, name: str) -> int | None:
        """Return the number that came with the name, ``None`` if it did not come."""
        told = name.encode("utf-8", "surrogatepass")
        row = self._base.execute("SELECT number FROM seen WHERE name = ?", (told,)).fetchone()
        return None if row is None else int(row[0])

    def __len__(self) -> int:
        return self._length
