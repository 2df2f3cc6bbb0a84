"""From the terms used in the records to the share of them that has an open code, ontology by ontology."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from typing import Any, Protocol

from chordae.model import STATES

__all__ = ["coverage"]

_EXACT = frozenset({"exact"})


class _Code(Protocol):
    @property
    def ontology(self) -> str: ...
    @property
    def match(self) -> str: ...


def coverage(terms: Iterable[str], codes: Callable[[str], Sequence[_Code]]) -> dict[str, Any]:
    """Return how many terms have an open code.

    Parameters
    ----------
    terms
        Slugs of the terms used; the four states are no terms of anatomy and are left out.
    codes
        From a term to its codes.

    Returns
    -------
    dict
        ``terms``, ``coded``, ``exact`` (with at least one exact code) and ``by_ontology``: ``name``, ``exact``
        and ``other`` terms, the most first. A term counts once for each ontology.
    """
    used = sorted(set(terms) - set(STATES))
    coded = exact = 0
    by_ontology: dict[str, dict[bool, int]] = defaultdict(lambda: {True: 0, False: 0})
    for term in used:
        found: dict[str, bool] = {}
        for one in codes(term):
            found[one.ontology] = found.get(one.ontology, False) or one.match in _EXACT
        coded += bool(found)
        exact += any(found.values())
        for name, is_exact in found.items():
            by_ontology[name][is_exact] += 1
    rows = [{"name": name, "exact": counts[True], "other": counts[False]} for name, counts in by_ontology.items()]
    return {
        "terms": len(used),
        "coded": coded,
        "exact": exact,
        "by_ontology": sorted(rows, key=lambda row: (-row["exact"] - row["other"], row["name"])),
    }
