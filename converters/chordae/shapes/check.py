"""Check records against the rules: readings in, issues out, with the number of things each rule looked at.

::

    Reading -> derive -> N-Triples -> engine -> Result -> Issue
                                        |
                                        +-- a share of them also through the reference engine (audit)

One record is one small graph. No rule looks from one record into another, so a few graphs are checked together: the
fast engine copies its shapes once for each call. It frees the interpreter lock, so this runs on as many threads as
wanted. What comes out depends neither on the order of the records, nor on threads, nor on which are checked together.
A rule that met no node in any record is listed as *not tested*: that is not *passed*.
"""

from __future__ import annotations

import hashlib
import os
from collections import Counter, deque
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from itertools import islice
from typing import Any

from chordae.errors import ShapesError
from chordae.issues import Issue, Location, sort_issues
from chordae.progress import track
from chordae.rdf.derived import as_node
from chordae.rdf.emit import emit, record_iri
from chordae.record import Reading, Record
from chordae.shapes.cache import FindingsCache, Kept, record_key
from chordae.shapes.engines import Engine, Result, validate
from chordae.shapes.load import RuleBase, load_rules
from chordae.shapes.premises import premises_digest
from chordae.shapes.profile import DEFAULT, Profile
from chordae.shapes.tell import tell
from chordae.shapes.waivers import Finding, settle

__all__ = ["CheckResult", "Checker", "Difference", "check_records", "default_engine"]

CHUNK = 32
"""Records that one thread takes at a time."""
TOGETHER = 16
"""Graphs that the fast engine is given at a time; more of them make it no faster."""

_MODEL = "<https://w3id.org/chordae/model/"
_TYPE = "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type>"


@dataclass(frozen=True, slots=True)
class Difference:
    """A record on which the two engines did not say the same. ``fast`` and ``reference`` are what only one said."""

    record: str
    fast: tuple[Result, ...] = ()
    reference: tuple[Result, ...] = ()
    stopped: str = ""


@dataclass(frozen=True, slots=True)
class CheckResult:
    """What a check found.

    ``tested`` maps every rule to the number of nodes it looked at; ``untested`` are those with none, sorted.
    ``audited`` records were checked by the reference engine as well; ``differences`` is where it said otherwise.
    """

    issues: tuple[Issue, ...]
    tested: Mapping[str, int]
    untested: tuple[str, ...]
    records: int
    audited: int = 0
    differences: tuple[Difference, ...] = ()


@dataclass(slots=True)
class Checked:
    """What came of one record: findings as the rule base has them, and the issues that profile and waivers leave."""

    issues: list[Issue] = field(default_factory=list)
    findings: tuple[Finding, ...] = ()
    results: tuple[Result, ...] = ()
    met: Counter[str] = field(default_factory=Counter)
    audited: int = 0
    difference: Difference | None = None


@dataclass(frozen=True, slots=True)
class _Graph:
    """A record ready for the engine: its N-Triples, its IRI in them, what was derived (``None``: it is in the text)."""

    reading: Reading
    text: str
    iri: str
    derived: Mapping[str, Any] | None


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
        self.met: Counter[str] = Counter()
        self.profile = profile
        self.cache = cache
        self.premises = premises
        self._derive = derive
        self._own = derive is None and rules is None

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
            self.met.update(checked.met)
            found.append(checked.issues)
        return found

    def not_tested(self) -> list[str]:
        """The rules that met no node so far, sorted; not those that the profile turned off."""
        return sorted(name for name in self.rules.rules if not self.met[name] and not self.profile.is_off(name))

    def check_one(
        self, reading: Reading, graph: str | None = None, derived: Mapping[str, Any] | None = None
    ) -> Checked:
        """Check one record; ``met`` of the checker is not touched, so that threads may share it.

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
        waiting: list[tuple[int, _Graph]] = []
        for place, reading in enumerate(readings):
            if self.cache is not None and graphs is None and derived is None and self._own:
                own_key = record_key(reading.record, self.base)
                kept = None if own_key is None else self.cache.get(own_key)
                keys[place], old[place] = own_key, kept
                if own_key is not None and kept is not None and _share(own_key) >= self.audit:
                    found[place] = Checked(findings=_placed(kept.findings, reading), met=Counter(kept.met))
                    continue
            text = graphs[place] if graphs is not None else None
            waiting.append((place, self._prepare(reading, text, derived[place] if derived is not None else None)))
        for first in range(0, len(waiting), TOGETHER):
            some = waiting[first : first + TOGETHER]
            for (place, graph), results in zip(some, self._results([one for _, one in some]), strict=True):
                found[place] = checked = self._told(graph, results)
                self._keep(keys[place], old[place], checked)
        whole = [checked for checked in found if checked is not None]
        for reading, checked in zip(readings, whole, strict=True):
            checked.issues = self._judge(reading, checked.findings)
        return whole

    def _keep(self, key: str | None, kept: Kept | None, checked: Checked) -> None:
        if self.cache is None or key is None:
            return
        now = Kept(checked.findings, checked.met)
        if kept is not None and kept != _without_places(now):
            self.cache.wrong(key)
        if kept is None or kept != _without_places(now):
            self.cache.put(key, now)

    def _prepare(self, reading: Reading, graph: str | None, derived: Mapping[str, Any] | None) -> _Graph:
        if derived is None and graph is None:
            derived = self.derive(reading.record)
        if graph is None:
            graph = emit(reading.record, derived, self.base)
        iri = record_iri(reading.record["id"], self.base)
        return _Graph(reading, graph, iri, as_node(derived) if derived is not None else None)

    def _results(self, graphs: Sequence[_Graph]) -> list[list[Result]]:
        """What the engine says of each graph: of all in one call, unless two of them have one IRI."""
        places = {one.iri: place for place, one in enumerate(graphs)}
        if self.engine != "fast" or len(places) < len(graphs) or len(graphs) == 1:
            return [validate(one.text, self.rules.shapes, self.engine) for one in graphs]
        found: list[list[Result]] = [[] for _ in graphs]
        start = len(graphs[0].iri) - len(graphs[0].iri.rpartition("/")[2])
        for result in validate("".join(one.text for one in graphs), self.rules.shapes, self.engine):
            end = result.focus.find("/", start)
            owner = places.get(result.focus if end < 0 else result.focus[:end])
            if owner is None:
                return [validate(one.text, self.rules.shapes, self.engine) for one in graphs]
            found[owner].append(result)
        return found

    def _told(self, graph: _Graph, results: Sequence[Result]) -> Checked:
        reading, text, iri, node = graph.reading, graph.text, graph.iri, graph.derived
        checked = Checked(met=self._count(text), results=tuple(results))
        wanted = self.premises or bool(reading.record.get("waivers"))
        findings = []
        for result in results:
            rule = self.rules.by_iri(result.rule)
            if node is None and "derived" in rule.reads:
                node = _derived_in(text, iri)
            issue = tell(result, rule, reading, iri, node)
            if issue is not None:
                findings.append(Finding(issue, premises_digest(text, result.focus, rule.id, iri) if wanted else ""))
        checked.findings = tuple(findings)
        if self.audit and _share(text) < self.audit:
            checked.audited = 1
            checked.difference = self._compare(str(reading.record["id"]), text, results)
        return checked

    def _judge(self, reading: Reading, findings: Sequence[Finding]) -> list[Issue]:
        """Issues as the profile calls them, with what was confirmed and what the profile misses."""
        told = [
            one if (issue := self.profile.apply(one.issue)) is None else Finding(issue, one.premises)
            for one in findings
        ]
        issues = [one for one in settle(reading, told) if not self.profile.is_off(one.rule)]
        return sort_issues([*issues, *self.profile.missing_in(reading)])

    def derive(self, record: Record) -> Mapping[str, Any]:
        """What follows from a record."""
        if self._derive is None:
            from chordae.derive import derive

            self._derive = derive
        return self._derive(record)

    def _compare(self, name: str, graph: str, results: Sequence[Result]) -> Difference | None:
        try:
            other = validate(graph, self.rules.shapes, "reference_cached")
        except ShapesError as error:
            return Difference(name, stopped=error.message)
        if other == list(results):
            return None
        fast, reference = Counter(results), Counter(other)
        return Difference(
            name, tuple(sorted((fast - reference).elements())), tuple(sorted((reference - fast).elements()))
        )

    def _count(self, graph: str) -> Counter[str]:
        """The number of nodes that each rule looks at."""
        classes, slots = self._targets
        met: Counter[str] = Counter()
        subjects: dict[str, set[str]] = {}
        for line in graph.split("\n"):
            subject, predicate, term = line.split(" ", 2) if line else ("", "", "")
            if predicate == _TYPE:
                for rule in classes.get(term, ()):
                    met[rule] += 1
            elif predicate in slots:
                for rule in slots[predicate]:
                    subjects.setdefault(rule, set()).add(subject)
        for rule, found in subjects.items():
            met[rule] += len(found)
        return met

    @cached_property
    def _targets(self) -> tuple[dict[str, list[str]], dict[str, list[str]]]:
        classes: dict[str, list[str]] = {}
        slots: dict[str, list[str]] = {}
        for rule in self.rules.rules.values():
            for name in rule.targets:
                classes.setdefault(f"{_MODEL}{name}> .", []).append(rule.id)
            for name in rule.target_slots:
                slots.setdefault(f"{_MODEL}{name}>", []).append(rule.id)
        return classes, slots


def check_records(
    readings: Iterable[Reading],
    *,
    engine: Engine | None = None,
    threads: int | None = None,
    audit: float = 0.0,
    base: str | None = None,
    rules: RuleBase | None = None,
    profile: Profile = DEFAULT,
    cache: FindingsCache | None = None,
    total: int | None = None,
    on_issues: Callable[[Sequence[Issue]], None] | None = None,
    on_results: Callable[[Sequence[Result]], object] | None = None,
) -> CheckResult:
    """Check many records.

    Parameters
    ----------
    readings
        Records with their places, sound in structure; read as they are needed.
    engine, audit, base, rules, profile, cache
        As for :class:`Checker`.
    threads
        Number of threads; by default one a processor. The reference engines use one.
    total
        Number of records, for the progress bar, if known.
    on_issues
        Called with the issues of each record, in the order of the records. The result then holds no issues, and the
        memory needed does not grow with the number of records.
    on_results
        Called with what the engine found in each record, in the order of the records (:mod:`published`). Findings
        kept from before are then not used.

    Returns
    -------
    CheckResult
        Issues sorted by record, severity and rule.
    """
    kept_before = cache if on_results is None else None
    checker = Checker(engine=engine, audit=audit, base=base, rules=rules, profile=profile, cache=kept_before)
    kept: list[Issue] = []
    differences: list[Difference] = []
    records = audited = 0
    for checked in track(_checked(readings, checker, threads), "Checking", total):
        records += 1
        audited += checked.audited
        checker.met.update(checked.met)
        if checked.difference is not None:
            differences.append(checked.difference)
        if on_results is not None:
            on_results(checked.results)
        if on_issues is not None:
            on_issues(checked.issues)
        else:
            kept.extend(checked.issues)
    return CheckResult(
        issues=tuple(sort_issues(kept)),
        tested={name: checker.met[name] for name in checker.rules.rules},
        untested=tuple(checker.not_tested()),
        records=records,
        audited=audited,
        differences=tuple(sorted(differences, key=lambda one: one.record)),
    )


@cache
def default_engine() -> Engine:
    """The fast engine where its package is installed (not on Linux with ARM), else the reference."""
    from importlib.util import find_spec

    return "fast" if find_spec("shacl") else "reference_cached"


def _checked(readings: Iterable[Reading], checker: Checker, threads: int | None) -> Iterator[Checked]:
    """What came of each record, in their order, with at most a few chunks in hand."""
    number = threads or os.cpu_count() or 1
    source = iter(readings)
    if number == 1 or checker.engine != "fast":
        while chunk := list(islice(source, CHUNK)):
            yield from checker.check_many(chunk)
        return
    checker.rules.shapes.fast  # noqa: B018 - compiled here once, not by every thread at once
    waiting: deque[Future[list[Checked]]] = deque()
    with ThreadPoolExecutor(number) as pool:
        try:
            while chunk := list(islice(source, CHUNK)):
                waiting.append(pool.submit(checker.check_many, chunk))
                if len(waiting) > 2 * number:
                    yield from waiting.popleft().result()
            while waiting:
                yield from waiting.popleft().result()
        finally:
            for future in waiting:
                future.cancel()


def _placed(findings: Iterable[Finding], reading: Reading) -> tuple[Finding, ...]:
    """Findings kept without a place, with the places of today."""
    return tuple(
        Finding(replace(one.issue, location=reading.place(one.issue.path or "")), one.premises) for one in findings
    )


def _without_places(kept: Kept) -> Kept:
    bare = tuple(Finding(replace(one.issue, location=Location()), one.premises) for one in kept.findings)
    return Kept(bare, kept.met)


def _share(graph: str) -> float:
    return int.from_bytes(hashlib.sha256(graph.encode()).digest()[:8]) / 2**64


def _derived_in(graph: str, iri: str) -> dict[str, Any]:
    """The derived conclusions that a graph holds, as words of the schema."""
    from chordae.model import class_slots, enum_of

    found: dict[str, Any] = {}
    start = f"<{iri}/derived> {_MODEL}"
    place = graph.find(start)
    while place >= 0 and graph.startswith(start, place):
        end = graph.find("\n", place)
        name, _, term = graph[place + len(start) : end].removesuffix(" .").partition("> ")
        slot = "arrangement" if name == "atrial_arrangement" else name
        if slot in class_slots("DerivedConclusions"):
            words = {f"<{value}>": key for key, value in (enum_of(slot) or {}).items()}
            found[slot] = words.get(term, term.strip('"'))
        place = end + 1
    return found
