"""Records ready for an engine, and what the engine says of each.

::

    Ready(reading, derived)  -> what the rules read, under short IRIs  -> fast engine, all in one call
                             -> whole graph, where it was given or cannot be shortened, or for another engine
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from chordae.rdf.emit import emit
from chordae.record import Reading
from chordae.shapes.engines import CompiledShapes, Engine, validate
from chordae.shapes.result import Result
from chordae.shapes.together import Looked, show, validate_shown

__all__ = ["Ready", "results_of"]


@dataclass(slots=True)
class Ready:
    """A record ready for an engine.

    ``derived`` is what was derived, in the form of the schema (``None``: it stands in ``graph``). ``graph`` is its
    whole graph under ``base`` (``None``: not made yet). ``shown`` is what the rules read of it, with what they look
    at (``None``: the whole graph is checked).
    """

    reading: Reading
    iri: str
    base: str | None
    derived: Mapping[str, Any] | None
    graph: str | None
    shown: tuple[str, Looked] | None = None

    def whole(self) -> str:
        """The whole graph as N-Triples.

        Raises
        ------
        InputError
            The record is not shaped like a record.
        """
        if self.graph is None:
            self.graph = emit(self.reading.record, self.derived, self.base)
        return self.graph

    def show(self, number: int) -> None:
        """Write what the rules read of it, for a check together with others; a record that cannot be stays as it is."""
        if self.derived is not None:
            try:
                self.shown = show(self.reading.record, self.derived, number)
            except (AttributeError, KeyError, TypeError, ValueError):
                self.whole()  # tells what is wrong, or is checked itself


def results_of(ready: Sequence[Ready], shapes: CompiledShapes, engine: Engine) -> list[list[Result]]:
    """Return the results of each record, sorted.

    Raises
    ------
    InputError, ShapesError
        As :func:`chordae.shapes.engines.validate`.
    """
    shown = [one.shown[0] for one in ready if one.shown is not None]
    if engine == "fast" and len(shown) == len(ready):
        try:
            return validate_shown(shown, [one.iri for one in ready], shapes)
        except ValueError:  # one of them holds what is no text, or no IRI: its whole graph tells which
            return [validate(one.whole(), shapes, engine) for one in ready]
    if engine == "fast" and not shown:
        return _of_graphs(ready, shapes)
    return [validate(one.whole(), shapes, engine) for one in ready]


def _of_graphs(ready: Sequence[Ready], shapes: CompiledShapes) -> list[list[Result]]:
    """What the fast engine says of whole graphs: of all in one call, unless two of them have one IRI."""
    places = {one.iri: place for place, one in enumerate(ready)}
    if len(places) == len(ready) > 1:
        found: list[list[Result]] = [[] for _ in ready]
        start = len(ready[0].iri) - len(ready[0].iri.rpartition("/")[2])
        for result in validate("".join(one.whole() for one in ready), shapes, "fast"):
            end = result.focus.find("/", start)
            owner = places.get(result.focus if end < 0 else result.focus[:end])
            if owner is None:
                break
            found[owner].append(result)
        else:
            return found
    return [validate(one.whole(), shapes, "fast") for one in ready]
