"""An audit: a share of the records goes through the reference engine as well, and both have to say the same.

::

    graph, results of the fast engine  ->  pySHACL  ->  None, or a Difference

Which records are audited depends on their content alone, so that a run can be repeated.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from chordae.errors import ShapesError
from chordae.shapes.engines import CompiledShapes, validate
from chordae.shapes.result import Result

__all__ = ["Difference", "compare", "share"]


@dataclass(frozen=True, slots=True)
class Difference:
    """A record on which the two engines did not say the same. ``fast`` and ``reference`` are what only one said.

    ``stopped`` tells why the reference engine gave up, if it did.
    """

    record: str
    fast: tuple[Result, ...] = ()
    reference: tuple[Result, ...] = ()
    stopped: str = ""


def share(text: str) -> float:
    """A number from 0 to 1 that depends on a text alone; the text is audited if it is below the share asked for."""
    return int.from_bytes(hashlib.sha256(text.encode()).digest()[:8]) / 2**64


def compare(name: str, graph: str, results: Sequence[Result], shapes: CompiledShapes) -> Difference | None:
    """Check a graph with the reference engine.

    Parameters
    ----------
    name
        Id of the record.
    graph
        Its whole graph as N-Triples.
    results
        What the other engine found, sorted.
    shapes
        The rules.

    Returns
    -------
    Difference or None
        ``None`` if both found the same.
    """
    try:
        other = validate(graph, shapes, "reference_cached")
    except ShapesError as error:
        return Difference(name, stopped=error.message)
    if other == list(results):
        return None
    fast, reference = Counter(results), Counter(other)
    return Difference(name, tuple(sorted((fast - reference).elements())), tuple(sorted((reference - fast).elements())))
