"""Hearts alike: ranked by the derived facts they share, each weighted by how much it says.

::

    heart -> terms of what follows from it, with every term above them
        tetralogy_of_fallot, usual_atrial_arrangement, left_aortic_arch, ...

    likeness = sum of the information of the terms that both hold / sum of that of the terms that either holds

Measure: simGIC. Pesquita C, Faria D, Bastos H, Falcao AO, Couto FM. Evaluating GO-based semantic similarity measures.
ISMB/ECCB SIG BioOntologies 2007; Pesquita C et al. BMC Bioinformatics 2008;9 Suppl 5:S4 (both from memory).
Information of a term: minus the log of the share of hearts that hold it or a term below it. Resnik P. Using information
content to evaluate semantic similarity in a taxonomy. IJCAI 1995:448-453 (from memory).

Facts that are not recorded are in no set: two hearts are not alike because nothing is known of either. Hearts with the
same terms are counted together, so that a hundred thousand hearts are searched in well under a second.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from typing import Any

from chordae.compare.grounds import grounds, slug_of_value
from chordae.compare.information import lineage
from chordae.derive import derive
from chordae.record import Record
from chordae.report.words import term_words
from chordae.terms import vocabulary

__all__ = ["Alike", "Hearts", "terms_of", "to_json", "to_text"]

_HOLE = {"borders": "stated_border_category", "geography": "geography", "commitment": "commitment",
         "malalignment": "malalignment"}  # fmt: skip
_ARCH = {"side": "stated_arch_side", "interruption_type": "stated_interruption_type", "coarctation": "coarctation"}


@dataclass(frozen=True, slots=True)
class Alike:
    """One heart that is like the one asked for.

    ``likeness`` from 0 to 1; ``shared``, ``only_here`` and ``only_there`` are the narrowest terms, those that say most
    first: held by both, by the heart asked for only, and by the other only.
    """

    heart: str
    collection: str
    likeness: float
    shared: tuple[str, ...]
    only_here: tuple[str, ...]
    only_there: tuple[str, ...]


class Hearts:
    """Hearts made ready to be searched.

    Parameters
    ----------
    records
        Full records.
    """

    def __init__(self, records: Iterable[Record]) -> None:
        self._load((str(one["id"]), str(one.get("collection") or ""), terms_of(one, derive(one))) for one in records)

    @classmethod
    def from_terms(cls, hearts: Iterable[tuple[str, str, frozenset[str]]]) -> Hearts:
        """Make hearts ready of which the terms are known: id, collection, terms (:func:`terms_of`)."""
        made = cls(())
        made._load(hearts)
        return made

    def _load(self, hearts: Iterable[tuple[str, str, frozenset[str]]]) -> None:
        groups: dict[frozenset[str], list[tuple[str, str]]] = {}
        for heart, collection, terms in hearts:
            groups.setdefault(terms, []).append((heart, collection))
        self._terms: list[frozenset[str]] = list(groups)
        self._hearts: list[list[tuple[str, str]]] = list(groups.values())
        self._count = sum(len(one) for one in self._hearts)
        held: Counter[str] = Counter()
        for terms, several in zip(self._terms, self._hearts, strict=True):
            for term in terms:
                held[term] += len(several)
        self._weights = {term: math.log((self._count + 1) / n) for term, n in held.items()}
        self._sums = [self._sum(terms) for terms in self._terms]
        self._where: dict[str, Any] = {}
        for at, terms in enumerate(self._terms):
            for term in terms:
                self._where.setdefault(term, []).append(at)
        if find_spec("numpy") is not None:
            import numpy

            self._where = {term: numpy.array(places, dtype=numpy.int64) for term, places in self._where.items()}

    def __len__(self) -> int:
        return self._count

    def nearest(self, record: Record, most: int = 10) -> list[Alike]:
        """Rank the hearts by likeness to one heart.

        Parameters
        ----------
        record
            A full record; it need not be one of the hearts, and is left out if it is.
        most
            How many to give.

        Returns
        -------
        list of Alike
            Most alike first; hearts that share nothing are left out.
        """
        own = (str(record["id"]), str(record.get("collection") or ""))
        return self.nearest_to(terms_of(record, derive(record)), most, own)

    def nearest_to(self, terms: frozenset[str], most: int = 10, own: tuple[str, str] | None = None) -> list[Alike]:
        """Do the same for the terms of a heart; ``own`` is the id and the collection of one to leave out."""
        here = self._sum(terms)
        found: list[Alike] = []
        for at, common in self._ranked(terms, here):
            likeness = common / (here + self._sums[at] - common)
            for heart, collection in self._hearts[at]:
                if (heart, collection) == own:
                    continue
                there = self._terms[at]
                sides = (terms & there, terms - there, there - terms)
                found.append(Alike(heart, collection, likeness, *(self._telling(side) for side in sides)))
                if len(found) == most:
                    return found
        return found

    def _ranked(self, terms: frozenset[str], here: float) -> Iterator[tuple[int, float]]:
        """Yield places in the order of likeness, with the information that is shared."""
        known = [term for term in terms if term in self._where]
        if find_spec("numpy") is not None:
            import numpy

            shared = numpy.zeros(len(self._terms))
            for term in known:
                shared[self._where[term]] += self._weights[term]
            whole = here + numpy.array(self._sums) - shared
            likeness = numpy.divide(shared, whole, out=numpy.zeros_like(shared), where=whole > 0)
            for at in numpy.argsort(-likeness, kind="stable"):
                if shared[at] <= 0:
                    return
                yield int(at), float(shared[at])
            return
        sums: dict[int, float] = {}
        for term in known:
            weight = self._weights[term]
            for at in self._where[term]:
                sums[at] = sums.get(at, 0.0) + weight
        order = sorted(sums, key=lambda at: (-sums[at] / ((here + self._sums[at] - sums[at]) or 1.0), at))
        yield from ((at, sums[at]) for at in order if sums[at] > 0)

    def _sum(self, terms: frozenset[str]) -> float:
        """Sum of the information of terms; one that no heart holds says as much as one that a single heart holds."""
        rare = math.log(self._count + 1)
        return sum(self._weights.get(term, rare) for term in sorted(terms))

    def _telling(self, terms: frozenset[str]) -> tuple[str, ...]:
        narrow = [one for one in terms if not any(one in vocabulary().ancestors(other) for other in terms)]
        rare = math.log(self._count + 1)
        return tuple(sorted(narrow, key=lambda one: (-self._weights.get(one, rare), one)))


def terms_of(record: Mapping[str, Any], derived: Mapping[str, Any]) -> frozenset[str]:
    """Return the terms of what follows from a heart, with every term above them.

    Parameters
    ----------
    record
        Adds the malformations that the observer stated.
    derived
        What ``chordae derive`` gives: conclusions, malformations, holes, arch, coronary arteries.
    """
    found = {slug_of_value(slot, str(derived[key])) for key, slot in grounds().conclusions.items() if derived.get(key)}
    found |= {str(one["term"]) for one in derived.get("diagnoses") or ()}
    found |= {str(one) for one in (record.get("stated") or {}).get("diagnoses") or ()}
    for hole in derived.get("septal_defects") or ():
        found |= {slug_of_value(slot, str(hole[key])) for key, slot in _HOLE.items() if hole.get(key)}
    arch = derived.get("arch") or {}
    found |= {slug_of_value(slot, str(arch[key])) for key, slot in _ARCH.items() if arch.get(key)}
    known = {slug for slug in found if slug in vocabulary()}
    return frozenset(term for slug in known for term in lineage(slug))


def to_text(found: Sequence[Alike]) -> str:
    """Return the ranking in words."""
    if not found:
        return "No heart shares a derived fact with it.\n"
    lines = []
    for at, one in enumerate(found, 1):
        where = f" ({one.collection})" if one.collection else ""
        lines.append(f"{at:>3}  {one.likeness:.3f}  {one.heart}{where}")
        for name, terms in (("both", one.shared), ("only here", one.only_here), ("only there", one.only_there)):
            if terms:
                words = ", ".join(term_words(term) for term in terms[:5])
                lines.append(f"            {name}: {words}{', ...' if len(terms) > 5 else ''}")
    return "\n".join(lines) + "\n"


def to_json(found: Sequence[Alike]) -> str:
    """Return the ranking as JSON."""
    import orjson

    rows = [
        {
            "heart": one.heart, "collection": one.collection, "likeness": round(one.likeness, 6),
            "shared": list(one.shared), "only_here": list(one.only_here), "only_there": list(one.only_there),
        }
        for one in found
    ]  # fmt: skip
    return orjson.dumps(rows, option=orjson.OPT_INDENT_2).decode() + "\n"
