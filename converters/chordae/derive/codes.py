"""From a term of the vocabulary to its open codes, looked up once in the compiled mapping sets.

A term that is only *related* is no code: a hole in a double outlet is related to a septal defect and is none.
"""

from __future__ import annotations

from functools import cache

from chordae.mapping import codes_for

__all__ = ["codes_of"]


def codes_of(term: str) -> list[dict[str, str]]:
    """Return the codes of a term, closest first: ``code``, ``label``, ``match`` (exact, close, broad, narrow)."""
    return [{"code": code, "label": label, "match": match} for code, label, match in _codes(term)]


@cache
def _codes(term: str) -> tuple[tuple[str, str, str], ...]:
    return tuple((one.curie, one.label, one.predicate) for one in codes_for(term) if one.predicate != "related")
