"""Check records one after another against the rules: readings in, findings and issues out.

::

    Reading -> derive -> what the rules read -> fast engine, 32 records a call -> Result -> Finding -> Issue
                  |                                                                 |
                  +-> whole graph, where somebody needs it: another engine, an audit, premises of a confirmation

A record whose graph was made before comes as that graph. Findings are what the rule base says; a profile and
confirmations make issues of them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from chordae.issues import Issue, Location, sort_issues
from chordae.rdf.derived import as_node
from chordae.rdf.emit import record_iri
from chordae.record import Reading, Record
from chordae.shapes.audit import Difference, compare, share
from chordae.shapes.cache import FindingsCache, Kept, record_key
from chordae.shapes.consequences import settle_first
from chordae.shapes.engines import Engine, default_engine
from chordae.shapes.load import RuleBase, load_rules
from chordae.shapes.looked import Targets
from chordae.shapes.premises import premises_digest
from chordae.shapes.profile import DEFAULT, Profile
from chordae.shapes.ready import Ready, results_of
from chordae.shapes.result import Result
from chordae.shapes.tell import derived_in, tell
from chordae.shapes.together import check_emitter
from chordae.shapes.waivers import Finding, settle

__all__ = ["TOGETHER", "Checked", "Checker"]

TOGETHER = 32
"""Records that the fast engine is given at a time; more of them make it no faster."""


@dataclass(slots=True)
class Checked:
    """What came of one record: findings as the rule base has them, and the issues that profile and waivers leave.

    ``looked`` counts the nodes that rules look at, by kind (`chordae.shapes.looked`).
    """

    issues: list[Issue] = field(default_factory=list)
    findings: tuple[Finding, ...] = ()
    results: tuple[Result, ...] = ()
    looked: Counter[str] = field(default_factory=Counter)
    audited: int = 0
    difference: Difference | None = None


class Checker:
    """Checks records one after another, and remembers how many nodes each rule met.

    Parameters
    ----------
    engine
        ``fast``, ``reference`` or ``reference_cached``; by default the fast one where it is installed.
    audit
        Share of the records, from 0 to 1, that the reference engine checks as well. Which ones depends on their
        content alone.
    base
        IRI under which the records stand; matters only for graphs that are given.
    profile
        What a registry asks for beyond the rules.
    cache
        Findings kept from before. With ``audit`` that share of them is worked out again and compared.
    premises
        Whether every finding comes with the digest of its premises, not only those in records with confirmations.

    Examples
    --------
    >>> valve = {"id": "tricuspid_valve", "type": "AtrioventricularValve", "stated_valve_type": "tricuspid",
    ...          "septal_leaflet": "normal", "septal_chordal_attachment": "absent"}
    >>> checker = Checker()
    >>> [found.rule for found in checker.check_one(Reading({"id": "7", "parts": [valve]}), derived={}).issues]
    ['R-AV-13', 'R-ASS-08']
    """

    def __init__(
        self,
        *,
        engine: Engine | None = None,
        audit: float = 0.0,
        base: str | None = None,
        rules: RuleBase | None = None,
        derive: Callable[[Record], Mapping[str, Any]] | None = None,
        profile: Profile = DEFAULT,
        cache: FindingsCache | None = None,
        premises: bool = False,
    ) -> None:
        self.engine = engine or default_engine()
        self.audit = audit
        self.base = base
        self.rules = rules or load_rules()
        self.looked: Counter[str] = Counter()
        self.profile = profile
        self.cache = cache
        self.premises = premises
        self._derive = derive
        self._own = derive is None and self.rules is load_rules()
        self._shows = self.rules is load_rules() and self.engine == "fast"
        if self._shows:
            check_emitter()

    def warm_up(self) -> None:
        """Compile the rules now, once, before several threads would."""
        if self.engine == "fast":
            _ = self.rules.shapes.short if self._shows else self.rules.shapes.fast

    def check(self, readings: Sequence[Reading], graphs: Sequence[str]) -> list[list[Issue]]:
        """Check records whose graphs were emitted already; counts the nodes met.

        Parameters
        ----------
        readings
            Records with their places.
        graphs
            N-Triples of each, with what was derived, under ``base``.

        Returns
        -------
        list[list[Issue]]
            The issues of each record, sorted.
        """
        found = []
        for checked in self.check_many(readings, graphs):
            self.looked.update(checked.looked)
            found.append(checked.issues)
        return found

    def tested(self, looked: Mapping[str, int] | None = None) -> Counter[str]:
        """The number of nodes that each rule looked at: so far, or of counts by kind; rules without any left out."""
        return self._targets.by_rule(self.looked if looked is None else looked)

    def not_tested(self) -> list[str]:
        """The rules that met no node so far, sorted; not those that the profile turned off."""
        tested = self.tested()
        return sorted(name for name in self.rules.rules if not tested[name] and not self.profile.is_off(name))

    def check_one(
        self, reading: Reading, graph: str | None = None, derived: Mapping[str, Any] | None = None
    ) -> Checked:
        """Check one record; ``looked`` of the checker is not touched, so that threads may share it.

        Parameters
        ----------
        reading
            The record with its places, sound in structure.
        graph
            Its N-Triples; made here if not given.
        derived
            What was derived from it; worked out here if neither graph nor this is given.

        Raises
        ------
        InputError
            The record cannot be written as a graph (its structure is faulty).
        """
        return self.check_many([reading], None if graph is None else [graph], None if derived is None else [derived])[0]

    def check_many(
        self,
        readings: Sequence[Reading],
        graphs: Sequence[str] | None = None,
        derived: Sequence[Mapping[str, Any]] | None = None,
    ) -> list[Checked]:
        """Check some records; like :meth:`check_one` for each, and faster.

        Raises
        ------
        InputError
            A record cannot be written as a graph (its structure is faulty).
        """
        found: list[Checked | None] = [None] * len(readings)
        keys: list[str | None] = [None] * len(readings)
        old: list[Kept | None] = [None] * len(readings)
        waiting: list[int] = []
        for place, reading in enumerate(readings):
            if self.cache is not None and graphs is None and derived is None and self._own:
                own_key = record_key(reading.record, self.base)
                kept = None if own_key is None else self.cache.get(own_key)
                keys[place], old[place] = own_key, kept
                if own_key is not None and kept is not None and share(own_key) >= self.audit:
                    found[place] = Checked(findings=_placed(kept.findings, reading), looked=Counter(kept.looked))
                    continue
            waiting.append(place)
        for first in range(0, len(waiting), TOGETHER):
            some = waiting[first : first + TOGETHER]
            ready = [
                self._prepare(
                    number,
                    readings[place],
                    None if graphs is None else graphs[place],
                    None if derived is None else derived[place],
                )
                for number, place in enumerate(some)
            ]
            for place, one, results in zip(some, ready, results_of(ready, self.rules.shapes, self.engine), strict=True):
                found[place] = checked = self._told(one, results)
                self._keep(keys[place], old[place], checked)
        whole = [checked for checked in found if checked is not None]
        for reading, checked in zip(readings, whole, strict=True):
            checked.issues = self._judge(reading, checked.findings)
        return whole

    def derive(self, record: Record) -> Mapping[str, Any]:
        """What follows from a record."""
        if self._derive is None:
            from chordae.derive import derive

            self._derive = derive
        return self._derive(record)

    def _keep(self, key: str | None, kept: Kept | None, checked: Checked) -> None:
        if self.cache is None or key is None:
            return
        now = Kept(checked.findings, checked.looked)
        if kept is not None and kept != _without_places(now):
            self.cache.wrong(key)
        if kept is None or kept != _without_places(now):
            self.cache.put(key, now)

    def _prepare(
        self, number: int, reading: Reading, graph: str | None, derived: Mapping[str, Any] | None
    ) -> Ready:
        if derived is None and graph is None:
            derived = self.derive(reading.record)
        node = None if derived is None else as_node(derived)
        ready = Ready(reading, record_iri(reading.record["id"], self.base), self.base, node, graph)
        if self._shows:
            ready.show(number)
        return ready

    def _told(self, one: Ready, results: Sequence[Result]) -> Checked:
        reading, iri, node = one.reading, one.iri, one.derived
        looked = self._targets.seen_in(one.whole()) if one.shown is None else self._targets.seen(one.shown[1])
        checked = Checked(looked=looked, results=tuple(results))
        wanted = self.premises or bool(reading.record.get("waivers"))
        findings = []
        for result in results:
            rule = self.rules.by_iri(result.rule)
            if node is None and "derived" in rule.reads:
                node = derived_in(one.whole(), iri)
            issue = tell(result, rule, reading, iri, node)
            if issue is not None:
                digest = premises_digest(one.whole(), result.focus, rule.id, iri) if wanted else ""
                findings.append(Finding(issue, digest))
        checked.findings = tuple(findings)
        if self.audit and share(one.whole()) < self.audit:
            checked.audited = 1
            checked.difference = compare(str(reading.record["id"]), one.whole(), results, self.rules.shapes)
        return checked

    def _judge(self, reading: Reading, findings: Sequence[Finding]) -> list[Issue]:
        """Issues as the profile calls them, with what was confirmed and what the profile misses."""
        told = [
            one if (issue := self.profile.apply(one.issue)) is None else Finding(issue, one.premises)
            for one in findings
        ]
        issues = [one for one in settle(reading, told) if not self.profile.is_off(one.rule)]
        return sort_issues([*settle_first(issues, self.rules.rules), *self.profile.missing_in(reading)])

    @cached_property
    def _targets(self) -> Targets:
        return Targets(self.rules.rules)


def _placed(findings: Iterable[Finding], reading: Reading) -> tuple[Finding, ...]:
    """Findings kept without a place, with the places of today."""
    return tuple(
        Finding(replace(one.issue, location=reading.place(one.issue.path or "")), one.premises) for one in findings
    )


def _without_places(kept: Kept) -> Kept:
    bare = tuple(Finding(replace(one.issue, location=Location()), one.premises) for one in kept.findings)
    return Kept(bare, kept.looked)
