"""From the terms used in the records to the share of them that has an open code, ontology by ontology."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from chordae.mapping import Code
from chordae.model import STATES
from chordae.report.words import code_words, texts

__all__ = ["coverage", "shown_codes"]


def coverage(terms: Iterable[str], codes: Callable[[str], Sequence[Code]]) -> dict[str, Any]:
    """Return how many terms have an open code.

    Parameters
    ----------
    terms
        Slugs of the terms used; the four states are no terms of anatomy and are left out.
    codes
        From a term to its codes (:func:`chordae.mapping.codes_for`).

    Returns
    -------
    dict
        ``terms``, ``coded``, ``exact`` (with at least one code of the same meaning) and ``by_ontology``: ``name``,
        ``exact`` and ``other`` terms, the most first. A term counts once for each ontology.
    """
    used = sorted(set(terms) - set(STATES))
    coded = exact = 0
    by_ontology: dict[str, dict[bool, int]] = defaultdict(lambda: {True: 0, False: 0})
    for term in used:
        found: dict[str, bool] = {}
        for one in codes(term):
            name = _ontology(one)
            found[name] = found.get(name, False) or one.predicate == "exact" or one.same
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


def shown_codes(codes: Sequence[Code]) -> list[str]:
    """Return codes for a reader, each with the kind of its match where it is not exact."""
    words = [(code_words(one.curie), one.predicate) for one in codes]
    return [code if match == "exact" else f"{code} ({match})" for code, match in words]


def _ontology(code: Code) -> str:
    prefix = code.curie.partition(":")[0]
    return str(texts()["ontologies"].get(prefix, prefix))
