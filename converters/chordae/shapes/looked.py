"""How many nodes each rule looked at: targets of rules in, counts by kind of target, counts by rule out.

::

    kind            "Ventricle"     nodes of the class          "note|text"     nodes that have one of the slots
    counts of a record     {"Ventricle": 2, "Record": 1, "opens_into": 3}
    counts by rule         {"R-VEN-02": 2, "R-VEN-03": 2, "R-TOPO-01": 1, ...}

Counts are kept by kind, because a record has some thirty kinds of node and the rules are several hundred. A rule that
met no node in any record is *not tested*: that is not *passed*.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from chordae.shapes.load import Rule
from chordae.shapes.paths import RDF
from chordae.shapes.shapes_graph import MODEL

__all__ = ["Targets"]


class Targets:
    """The targets of some rules."""

    def __init__(self, rules: Mapping[str, Rule]) -> None:
        self.kinds = {
            rule.id: (*rule.targets, *(["|".join(sorted(rule.target_slots))] if rule.target_slots else []))
            for rule in rules.values()
        }
        self._classes = {f"<{MODEL}{name}> .": name for rule in rules.values() for name in rule.targets}
        self._groups: dict[str, list[str]] = {}
        for kind in sorted({kind for kinds in self.kinds.values() for kind in kinds}):
            if kind not in self._classes.values():
                for slot in kind.split("|"):
                    self._groups.setdefault(slot, []).append(kind)
        self._slots = {f"<{MODEL}{slot}>": kinds for slot, kinds in self._groups.items()}

    def seen(self, looked: Iterable[str | tuple[str, str]]) -> Counter[str]:
        """Count what the emitter for the rules met: names of classes, and pairs of slot and node."""
        counts: Counter[str] = Counter()
        subjects: dict[str, set[str]] = {}
        for one in looked:
            if isinstance(one, str):
                counts[one] += 1
            else:
                for kind in self._groups.get(one[0], ()):
                    subjects.setdefault(kind, set()).add(one[1])
        for kind, found in subjects.items():
            counts[kind] += len(found)
        return counts

    def seen_in(self, graph: str) -> Counter[str]:
        """Count what stands in a graph (N-Triples)."""
        met: list[str | tuple[str, str]] = []
        for line in graph.split("\n"):
            subject, predicate, term = line.split(" ", 2) if line else ("", "", "")
            if predicate == f"<{RDF}type>":
                if name := self._classes.get(term):
                    met.append(name)
            elif predicate in self._slots:
                met.append((predicate[1:-1].removeprefix(MODEL), subject))
        return self.seen(met)

    def by_rule(self, counts: Mapping[str, int]) -> Counter[str]:
        """Counts of kinds as counts of rules; rules that met nothing are left out."""
        met = ((rule, sum(counts.get(kind, 0) for kind in kinds)) for rule, kinds in self.kinds.items())
        return Counter({rule: number for rule, number in met if number})
