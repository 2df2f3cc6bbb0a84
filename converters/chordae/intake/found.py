"""What a document holds where a record should stand: the value, the place of each part of it, the faults.

The YAML and the JSON reader both return these; :mod:`chordae.intake.document` makes readings and issues of
them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from chordae.issues import Location

__all__ = ["Fault", "Found", "Mark", "Places", "pointer"]

Mark = tuple[int, int]
"""Line and column, both from 1."""


@dataclass(frozen=True, slots=True)
class Fault:
    """A rule broken at a place, with the words for its sentence."""

    rule: str
    mark: Mark
    path: str = ""
    value: str | None = None
    fields: Mapping[str, Any] = field(default_factory=dict)


@dataclass(slots=True)
class Found:
    """One value that stands where a record should; ``refused`` if it must not be used."""

    value: Any
    mark: Mark
    marks: Callable[[], Mapping[str, Mark]]
    faults: list[Fault] = field(default_factory=list)
    refused: bool = False


class Places(Mapping[str, Location]):
    """The places of a record's values by JSON pointer, worked out when the first one is asked for.

    Parameters
    ----------
    file
        Name of the file.
    marks
        Returns line and column for each pointer; ``""`` is the record itself.
    first
        Line and column of the record itself, if they are known without that.
    """

    def __init__(self, file: str, marks: Callable[[], Mapping[str, Mark]], first: Mark | None = None) -> None:
        self._file = file
        self._find = marks
        self._first = first

    @cached_property
    def _marks(self) -> Mapping[str, Mark]:
        return self._find()

    def __getitem__(self, key: str) -> Location:
        line, column = self._first if key == "" and self._first is not None else self._marks[key]
        return Location(self._file, line, column)

    def __iter__(self) -> Iterator[str]:
        return iter(self._marks)

    def __len__(self) -> int:
        return len(self._marks)


def pointer(parent: str, key: str | int) -> str:
    """Return the JSON pointer (RFC 6901) of a member.

    Examples
    --------
    >>> pointer("/parts", 3), pointer("", "a/b")
    ('/parts/3', '/a~1b')
    """
    if isinstance(key, str) and ("~" in key or "/" in key):
        key = key.replace("~", "~0").replace("/", "~1")
    return f"{parent}/{key}"
