"""The steps that a record goes through in other layers, loaded when an exchange begins; tests put in their own.

::

    ask       word -> the question about it, if it can mean more than one thing; by default the package's own list
    expand    reading -> reading of a full record (from the short form), issues
    derive    record -> derived statements
    check     readings, N-Triples of each -> issues of each; remembers which rules met something
    codes     term -> open codes
    publish   -> the vocabulary with its links to open terms, as SKOS
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from chordae.issues import Issue
from chordae.mapping import Code
from chordae.record import Reading, Record

__all__ = ["Steps", "load_steps"]


@dataclass(frozen=True, slots=True)
class Steps:
    """See the module. ``not_tested`` returns the rules that met nothing in all records checked so far."""

    expand: Callable[[Reading], tuple[Reading, Sequence[Issue]]]
    derive: Callable[[Record], Mapping[str, Any]]
    check: Callable[[Sequence[Reading], Sequence[str]], Sequence[Sequence[Issue]]]
    not_tested: Callable[[], Sequence[str]]
    codes: Callable[[str], Sequence[Code]]
    publish: Callable[[], bytes]
    ask: Callable[[str], str | None] | None = None


def load_steps(base: str | None = None) -> Steps:
    """Return the steps as they are used: every rule, the whole vocabulary, all mapping sets.

    Parameters
    ----------
    base
        IRI under which the records stand.

    Raises
    ------
    ShapesError, ResourceError, VocabularyError
        A data file of the package cannot be used.
    """
    from chordae.derive import derive
    from chordae.mapping import codes_for
    from chordae.shapes.checker import Checker
    from chordae.shortform import expand_reading

    checker = Checker(base=base)
    return Steps(expand_reading, derive, checker.check, checker.not_tested, codes_for, _skos)


@cache
def _skos() -> bytes:
    """The vocabulary is the same for every deposit of a run, and takes about a second to write."""
    from chordae.vocabulary.publish import publish

    return publish("skos")
