"""Check many records against the rules, on several threads: readings in, issues out, in the order of the records.

::

    Reading ... -> a chunk of them -> Checker -> Checked ... -> CheckResult: issues, nodes looked at, differences

One record is one small graph. No rule looks from one record into another, so a few are checked together: the fast
engine copies its shapes once for each call. It frees the interpreter lock, so this runs on as many threads as wanted.
What comes out depends neither on the order of the records, nor on threads, nor on which are checked together.
A rule that met no node in any record is listed as *not tested*: that is not *passed*.
"""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from itertools import islice

from chordae.issues import Issue, sort_issues
from chordae.progress import track
from chordae.record import Reading
from chordae.shapes.audit import Difference
from chordae.shapes.cache import FindingsCache
from chordae.shapes.checker import Checked, Checker
from chordae.shapes.engines import Engine
from chordae.shapes.load import RuleBase
from chordae.shapes.profile import DEFAULT, Profile
from chordae.shapes.result import Result

__all__ = ["CHUNK", "CheckResult", "check_records"]

CHUNK = 32
"""Records that one thread takes at a time."""


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
        checker.looked.update(checked.looked)
        if checked.difference is not None:
            differences.append(checked.difference)
        if on_results is not None:
            on_results(checked.results)
        if on_issues is not None:
            on_issues(checked.issues)
        else:
            kept.extend(checked.issues)
    tested = checker.tested()
    return CheckResult(
        issues=tuple(sort_issues(kept)),
        tested={name: tested[name] for name in checker.rules.rules},
        untested=tuple(checker.not_tested()),
        records=records,
        audited=audited,
        differences=tuple(sorted(differences, key=lambda one: one.record)),
    )


def _checked(readings: Iterable[Reading], checker: Checker, threads: int | None) -> Iterator[Checked]:
    """What came of each record, in their order, with at most a few chunks in hand."""
    number = threads or os.cpu_count() or 1
    source = iter(readings)
    if number == 1 or checker.engine != "fast":
        while chunk := list(islice(source, CHUNK)):
            yield from checker.check_many(chunk)
        return
    checker.warm_up()
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
