"""From a folder of parts to slices: whole lines of NDJSON by bytes, whole rows of Parquet by row groups.

::

    part-1.ndjson  0 .. 2,097,120     lines 1 ...
                   2,097,120 .. ...   lines 5,201 ...
    part-2.parquet row groups 0 .. 3  rows 1 ...           column "record": the record as JSON text

The plan depends on the files and the size of a slice alone, not on who works on it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import orjson

from chordae.errors import InputError, MissingExtra

__all__ = ["COLUMN", "SIZE", "Slice", "is_parts", "lines_of", "parquet", "plan", "plan_digest"]

SIZE = 4 * 1024 * 1024
"""Bytes of a slice of NDJSON, about; lines stay whole."""
COLUMN = "record"
_KINDS = {".ndjson": "ndjson", ".jsonl": "ndjson", ".parquet": "parquet"}
_BLOCK = 1024 * 1024


@dataclass(frozen=True, slots=True)
class Slice:
    """A piece of work: bytes ``begin`` to ``end`` of NDJSON, or row groups of Parquet; ``first`` is its first line."""

    number: int
    path: str
    kind: str
    begin: int
    end: int
    first: int

    @property
    def name(self) -> str:
        """Name of the file in places and issues."""
        return Path(self.path).name


def is_parts(path: str | Path) -> bool:
    """Say whether a folder holds parts and nothing that makes it a deposit or a catalogue."""
    folder = Path(path)
    if not folder.is_dir() or (folder / "bagit.txt").exists() or (folder / "columns.tsv").exists():
        return False
    about = folder / "collection.yaml"
    if about.is_file() and any(line.startswith("catalogue:") for line in about.read_text("utf-8").splitlines()):
        return False
    return any(one.suffix in _KINDS for one in folder.iterdir())


def plan(folder: Path, size: int = SIZE) -> list[Slice]:
    """Return the slices of a folder, in the order of the names of its files.

    Raises
    ------
    InputError
        There are no parts, or one is a link.
    """
    parts = sorted(one for one in folder.iterdir() if one.suffix in _KINDS)
    if not parts:
        raise InputError(f"{folder} holds no parts.", f"Parts end in {', '.join(_KINDS)}.")
    found: list[Slice] = []
    for path in parts:
        if path.is_symlink() or not path.is_file():
            raise InputError(f"The part {path.name} is a link or no file.", "Put the file itself there.")
        kind = _KINDS[path.suffix]
        for begin, end, first in _ndjson(path, size) if kind == "ndjson" else _parquet(path):
            found.append(Slice(len(found), str(path.resolve()), kind, begin, end, first))
    return found


def plan_digest(slices: list[Slice], *more: Any) -> str:
    """Return the digest of a plan with what decides the results: files by size and time, and ``more``."""
    files = {one.path: Path(one.path).stat() for one in slices}
    told = {path: [one.st_size, one.st_mtime_ns] for path, one in sorted(files.items())}
    return hashlib.sha256(orjson.dumps([[asdict(one) for one in slices], told, more])).hexdigest()


def lines_of(one: Slice) -> Iterator[bytes]:
    """Yield the lines of a slice."""
    if one.kind == "ndjson":
        with Path(one.path).open("rb") as stream:
            stream.seek(one.begin)
            left = one.end - one.begin
            while left > 0 and (line := stream.readline()):
                left -= len(line)
                yield line
        return
    groups = list(range(one.begin, one.end))
    for batch in _open(one.path).iter_batches(batch_size=1024, row_groups=groups, columns=[COLUMN]):
        for value in batch.column(0).to_pylist():
            yield value if isinstance(value, bytes) else str(value or "").encode()


def parquet() -> Any:
    """Return the module that reads Parquet."""
    try:
        from pyarrow import parquet as found
    except ImportError:
        raise MissingExtra("cluster", "reading Parquet") from None
    return found


def _ndjson(path: Path, size: int) -> Iterator[tuple[int, int, int]]:
    """Yield begin, end and first line of each slice; a line is never cut."""
    begin = place = 0
    first = line = 1
    with path.open("rb") as stream:
        while block := stream.read(_BLOCK):
            start = 0
            while place + len(block) - begin >= size:
                at = block.find(b"\n", max(start, begin + size - 1 - place))
                if at < 0:
                    break
                line += block.count(b"\n", start, at + 1)
                yield begin, place + at + 1, first
                begin, first, start = place + at + 1, line, at + 1
            line += block.count(b"\n", start)
            place += len(block)
    if place > begin:
        yield begin, place, first


def _parquet(path: Path) -> Iterator[tuple[int, int, int]]:
    found = _open(str(path))
    first = 1
    for group in range(found.num_row_groups):
        yield group, group + 1, first
        first += found.metadata.row_group(group).num_rows


def _open(path: str) -> Any:
    try:
        found = parquet().ParquetFile(path)
    except (OSError, ValueError) as error:  # pyarrow's errors are of these kinds
        raise InputError(f"The part {Path(path).name} is no Parquet file: {str(error)[:150]}.") from None
    if COLUMN not in found.schema_arrow.names:
        raise InputError(f"The part {Path(path).name} has no column {COLUMN!r}.", "It holds the record as JSON text.")
    return found
