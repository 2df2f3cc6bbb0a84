"""From records, derived statements and issues, one after another, to the counts that every report shows.

::

    Summary(collection).add_table(...); .add(record, derived, issues, terms) ...; .to_json()

Nothing but counts and a few examples is kept in memory, so that a collection of any size fits. The JSON holds::

    records rows refused hearts consent issues {severity: n} by_rule [...] conclusions {name: [...]} diagnoses [...]
    undetermined [...] unmapped [...] coding {...} not_tested [...]

A *heart* is a specimen: two descriptions of one accession number are two records of one heart.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from chordae.issues import SEVERITIES, Issue
from chordae.record import Record
from chordae.report.words import CONCLUSIONS, caution, derived_value, rule_words, subject_words, value_words
from chordae.spill import Seen

__all__ = ["EXAMPLES", "Summary"]

EXAMPLES = 5
"""How many places are named for each rule, and records for each thing undetermined."""

_REASONS = 200
_VERDICTS = (
    "agrees",
    "contradicts",
    "more_specific",
    "less_specific",
    "cannot_be_judged",
    "stated_only",
    "derived_only",
    "neither",
)


@dataclass
class _OfRule:
    severity: str
    count: int = 0
    records: int = 0
    last: str | None = None
    examples: list[dict[str, Any]] = field(default_factory=list)


@dataclass
class _OfDiagnosis:
    label: str
    stated: int = 0
    derived: int = 0
    both: int = 0


class Summary:
    """The counts of one exchange, kept while the records pass.

    Parameters
    ----------
    collection
        What is said of the collection (``name``, ``custodian``, ``licence``, ``base_iri``, ...).
    """

    def __init__(self, collection: Mapping[str, Any]) -> None:
        self.collection = dict(collection)
        self.rows = 0
        self.refused = 0
        self.records = 0
        self._hearts = Seen()
        self._severities: Counter[str] = Counter()
        self._rules: dict[tuple[str, str], _OfRule] = {}
        self._conclusions: dict[str, dict[str, Counter[str]]] = {
            name: {"stated": Counter(), "derived": Counter()} for name in CONCLUSIONS
        }
        self._agree: Counter[tuple[str, str]] = Counter()
        self._diagnoses: dict[str, _OfDiagnosis] = {}
        self._undetermined: dict[str, Counter[str]] = defaultdict(Counter)
        self._undetermined_in: dict[str, list[str]] = defaultdict(list)
        self._consent: Counter[str] = Counter()
        self.terms: Counter[str] = Counter()

    def add_table(self, rows: int, refused: int, issues: Iterable[Issue]) -> None:
        """Count the rows of a table that hold anything, those that gave no record, and issues of the table."""
        self.rows += rows
        self.refused += refused
        for one in issues:
            self._add_issue(one)

    def add(
        self, record: Record, derived: Mapping[str, Any], issues: Iterable[Issue], terms: Iterable[str] = ()
    ) -> None:
        """Count one record with what was derived from it, its issues, and the vocabulary terms in its RDF."""
        self.records += 1
        name = str(record.get("id"))
        specimen = record.get("specimen") or {}
        accession = specimen.get("accession")
        self._hearts.at(str(accession) if accession else f"record {name}")
        if specimen.get("consent"):
            self._consent[str(specimen["consent"])] += 1
        for one in issues:
            self._add_issue(one)
        stated = record.get("stated") or {}
        verdicts = {one.get("what"): str(one.get("verdict")) for one in derived.get("stated_against_derived") or ()}
        for slot in CONCLUSIONS:
            value, origin = derived_value(derived, slot)
            self._add_conclusion(slot, stated.get(slot), None if origin == "stated" else value, verdicts.get(slot))
        self._add_diagnoses(stated.get("diagnoses") or (), derived.get("diagnoses") or ())
        for one in derived.get("undetermined") or ():
            what = str(one.get("what"))
            reasons = self._undetermined[what]
            why = str(one.get("why")).partition("; ")[0]  # what would decide it stands in the section of the heart
            reasons[why if why in reasons or len(reasons) < _REASONS else "other reasons"] += 1
            if len(self._undetermined_in[what]) < EXAMPLES:
                self._undetermined_in[what].append(name)
        self.terms.update(set(terms))

    def count(self, severity: str) -> int:
        """How many issues of a severity there are."""
        return self._severities[severity]

    def to_json(self) -> dict[str, Any]:
        """Return all counts as plain data, in an order that does not depend on that of the records."""
        return {
            "caution": caution(),
            "collection": self.collection,
            "rows": self.rows,
            "refused": self.refused,
            "records": self.records,
            "hearts": len(self._hearts),
            "consent": {
                "recorded": self._consent.total(),
                "grounds": [
                    {"value": value, "label": value_words("consent", value), "count": count}
                    for value, count in sorted(self._consent.items(), key=lambda item: (-item[1], item[0]))
                ],
            },
            "issues": {severity: self._severities[severity] for severity in SEVERITIES},
            "by_rule": self._by_rule(),
            "conclusions": {slot: self._by_value(slot) for slot in CONCLUSIONS},
            "agreement": self._agreement(),
            "diagnoses": self._by_diagnosis(),
            "undetermined": self._by_what(),
        }

    def _add_issue(self, one: Issue) -> None:
        self._severities[one.severity] += 1
        seen = self._rules.setdefault((one.rule, one.severity), _OfRule(one.severity))
        seen.count += 1
        if one.record is not None and one.record != seen.last:  # the issues of a record come together
            seen.records += 1
            seen.last = one.record
        if len(seen.examples) < EXAMPLES:
            seen.examples.append(
                {
                    "record": one.record,
                    "place": str(one.location),
                    "part": one.part,
                    "value": one.value,
                    "message": one.message,
                    "hint": one.hint,
                }
            )

    def _add_conclusion(self, slot: str, stated: object, derived: str | None, verdict: str | None) -> None:
        for side, value in (("stated", stated), ("derived", derived)):
            if isinstance(value, str) and value:
                self._conclusions[slot][side][value] += 1
        if verdict is None and stated and derived:
            verdict = "agrees" if stated == derived else "contradicts"
        self._agree[slot, verdict or ("derived_only" if derived else "stated_only" if stated else "neither")] += 1

    def _add_diagnoses(self, stated: Iterable[Any], derived: Iterable[Mapping[str, Any]]) -> None:
        named = {str(one) for one in stated}
        found = {str(one.get("term")): one for one in derived}
        for term in named | set(found):
            label = str(found[term].get("label")) if term in found else value_words("diagnoses", term)
            row = self._diagnoses.setdefault(term, _OfDiagnosis(label))
            row.stated += term in named
            row.derived += term in found
            row.both += term in named and term in found

    def _by_rule(self) -> list[dict[str, Any]]:
        def order(item: tuple[tuple[str, str], _OfRule]) -> tuple[int, int, str]:
            (rule, severity), seen = item
            return SEVERITIES.index(severity), -seen.count, rule

        return [
            {
                "rule": rule,
                "label": rule_words(rule),
                "severity": severity,
                "count": seen.count,
                "records": seen.records,
                "examples": seen.examples,
            }
            for (rule, severity), seen in sorted(self._rules.items(), key=order)
        ]

    def _by_value(self, slot: str) -> list[dict[str, Any]]:
        stated, derived = self._conclusions[slot]["stated"], self._conclusions[slot]["derived"]
        rows = [
            {
                "value": value,
                "label": value_words(slot, value),
                "label_north_american": value_words(slot, value, "north_american"),
                "stated": stated[value],
                "derived": derived[value],
            }
            for value in stated.keys() | derived.keys()
        ]
        return sorted(rows, key=lambda row: (-row["derived"], -row["stated"], row["value"]))

    def _agreement(self) -> dict[str, dict[str, int]]:
        return {slot: {kind: self._agree[slot, kind] for kind in _VERDICTS} for slot in CONCLUSIONS}

    def _by_diagnosis(self) -> list[dict[str, Any]]:
        rows = [{"term": term, **vars(row), "codes": []} for term, row in self._diagnoses.items()]
        return sorted(rows, key=lambda row: (-max(row["stated"], row["derived"]), row["term"]))

    def _by_what(self) -> list[dict[str, Any]]:
        rows = [
            {
                "what": what,
                "label": subject_words(what),
                "count": sum(reasons.values()),
                "reasons": [
                    {"why": why, "count": count}
                    for why, count in sorted(reasons.items(), key=lambda item: (-item[1], item[0]))
                ],
                "records": self._undetermined_in[what],
            }
            for what, reasons in self._undetermined.items()
        ]
        return sorted(rows, key=lambda row: (-row["count"], row["what"]))
