"""The steps that a record goes through in other layers, loaded when an exchange begins; tests put in their own.

::

    ask       word -> the question about it, if it can mean more than one thing
    expand    reading -> reading of a full record (from the short form), issues
    derive    record -> derived statements
    check     readings, N-Triples of each -> issues of each; remembers which rules met something
    codes     term -> open codes
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from chordae.issues import Issue
from chordae.mapping import Code
from chordae.record import Reading, Record

__all__ = ["Steps"]


def _nothing(_: object) -> None:
    return None


@dataclass(frozen=True, slots=True)
class Steps:
    """See the module. ``not_tested`` returns the rules that met nothing in all records checked so far."""

    expand: Callable[[Reading], tuple[Reading, Sequence[Issue]]]
    derive: Callable[[Record], Mapping[str, Any]]
    check: Callable[[Sequence[Reading], Sequence[str]], Sequence[Sequence[Issue]]]
    not_tested: Callable[[], Sequence[str]]
    codes: Callable[[str], Sequence[Code]]
    ask: Callable[[str], str | None] = field(default=_nothing)
