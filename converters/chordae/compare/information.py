"""How much a term of the vocabulary says, and how alike two terms are by what they have in common above them.

Information content by the hierarchy alone, 0 (the top) to 1 (a term with nothing below): 1 - log(terms below + 1) /
log(all terms). Seco N, Veale T, Hayes J. An intrinsic information content metric for semantic similarity in WordNet.
ECAI 2004:1089-1090 (from memory).

Likeness of two terms, 0 to 1: twice the content of their most telling common ancestor by the sum of their own. Lin D.
An information-theoretic definition of similarity. ICML 1998:296-304 (from memory).
"""

from __future__ import annotations

import math
from functools import lru_cache

from chordae.terms import vocabulary

__all__ = ["content_of", "lin", "lineage"]


@lru_cache(maxsize=4096)
def content_of(slug: str) -> float:
    """Return the information content of a term, 0 to 1.

    Examples
    --------
    >>> content_of("tetralogy_of_fallot") > content_of("congenital_heart_malformation")
    True
    """
    below = len(vocabulary().descendants(slug))
    return 1 - math.log(below + 1) / math.log(len(vocabulary()))


@lru_cache(maxsize=4096)
def lineage(slug: str) -> frozenset[str]:
    """Return a term with all terms above it."""
    return vocabulary().ancestors(slug) | {slug}


def lin(one: str, other: str) -> float:
    """Return how alike two terms are, 0 to 1; terms without a common ancestor are not alike at all.

    Examples
    --------
    >>> lin("left_isomerism", "left_isomerism"), 0 < lin("left_isomerism", "right_isomerism") < 1
    (1.0, True)
    """
    if one == other:
        return 1.0
    common = lineage(one) & lineage(other)
    if not common:
        return 0.0
    whole = content_of(one) + content_of(other)
    return 2 * max(content_of(slug) for slug in common) / whole if whole else 0.0
