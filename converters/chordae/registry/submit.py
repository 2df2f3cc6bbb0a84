"""Submit a deposit: copied, judged, written into the ledger, loaded into the store; whole or not at all.

::

    1 copy      incoming/work.*/deposit      on disk, then judged there: what is judged is what is kept
    2 judge     incoming/work.*/made
    3 rename    deposits/<digest>, made/<number>
    4 ledger    one transaction              <- from here on the decision counts
    5 store     follows the ledger           <- also when the registry is opened next

Killed before 4, nothing has happened: the leftovers are swept away. Killed after 4, everything has: 5 is done again.
"""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chordae import deposit as deposits
from chordae import resources
from chordae.errors import InputError
from chordae.registry.entry import START, Entry, now
from chordae.registry.gate import Verdict, judge
from chordae.registry.made import REPORT, digests
from chordae.registry.package import copy_deposit, deposit_digest
from chordae.registry.place import Registry, sync_folder
from chordae.registry.provenance import version_iri

__all__ = ["Submission", "next_body", "submit"]

Step = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Submission:
    """What became of a deposit. ``again`` says that it had been decided before and nothing was done."""

    entry: Entry
    report: bytes
    again: bool = False


def submit(
    registry: Registry,
    deposit: Path,
    *,
    agent: str = "",
    follows: str | None = None,
    owns: Callable[[str], bool] | None = None,
    step: Step | None = None,
) -> Submission:
    """Hand a deposit in.

    Parameters
    ----------
    registry
        Open for writing. The store is brought up to the ledger by :func:`chordae.registry.stores.open_store`.
    deposit
        The folder.
    agent
        Who hands it in.
    follows
        Digest of the version it is made from, or ``none``; refused if the collection has gone on.
    owns
        Says whether the submitter may hand in for a collection.
    step
        Called with the name of each step before it is done; for tests.

    Raises
    ------
    InputError
        The folder is no deposit, or there is no room left. Nothing has changed then.
    """
    say = step or (lambda name: None)
    begun = now()
    before = registry.ledger.of_deposit(deposit_digest(deposit))
    accepted = [one for one in before if one.is_version]
    if accepted and not _changed(deposit, registry):
        return Submission(accepted[-1], _report(registry, accepted[-1]), again=True)
    try:
        return _submit(registry, deposit, agent, follows, owns, say, begun, before)
    except OSError as error:
        if error.errno not in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
            raise
        raise InputError(
            "There is no room left on the disk of the registry; nothing was changed.", "Make room and try again."
        ) from None


def _submit(
    registry: Registry,
    deposit: Path,
    agent: str,
    follows: str | None,
    owns: Callable[[str], bool] | None,
    say: Step,
    begun: str,
    before: list[Entry],
) -> Submission:
    work = Path(tempfile.mkdtemp(prefix="work.", dir=registry.incoming))
    try:
        say("copy")
        copy_deposit(deposit, work / "deposit")
        say("judge")
        verdict = judge(work / "deposit", registry.profile, ledger=registry.ledger, follows=follows, out=work / "made")
        collection = str(verdict.collection.get("id") or "")
        if owns is not None and not owns(collection):
            raise InputError(
                f"This token may not hand in for the collection {collection!r}.", "Ask the registry for a token."
            )
        if before and before[-1].body["made"].get(REPORT) == digests(work / "made").get(REPORT):
            return Submission(before[-1], _report(registry, before[-1]), again=True)
        entry = Entry(_body(registry, verdict, agent, begun, work / "made"))
        say("keep")
        _keep(work / "deposit", registry.deposit(verdict.deposit))
        _keep(work / "made", registry.made(entry.number))
        say("ledger")
        registry.ledger.add(entry, verdict.hearts if entry.accepted else ())
        say("done")
        return Submission(entry, _report(registry, entry))
    finally:
        shutil.rmtree(work, ignore_errors=True)


def next_body(registry: Registry, kind: str) -> dict[str, Any]:
    """Return the fields that every new line has."""
    last = registry.ledger.last()
    return {
        "number": last.number + 1 if last else 1,
        "previous": last.digest if last else START,
        "kind": kind,
        "at": now(),
        "registry": registry.about["id"],
        "software": resources.VERSION,
    }


def _body(registry: Registry, verdict: Verdict, agent: str, begun: str, made: Path) -> dict[str, Any]:
    said: Mapping[str, Any] = verdict.collection
    collection = str(said.get("id") or "")
    accepted = verdict.outcome != "refused"
    head = registry.ledger.head(collection) if accepted else None
    body = {
        **next_body(registry, "submission"),
        "begun": begun,
        "agent": agent,
        "deposit": verdict.deposit,
        "collection": collection,
        "outcome": verdict.outcome,
        "counts": verdict.counts,
        "versions": deposits.versions(),
        "profile": verdict.profile,
        "made": digests(made),
        **{key: said[key] for key in ("name", "custodian", "licence", "base_iri", "note") if said.get(key)},
    }
    if accepted:
        body["graph"] = version_iri(registry.base, verdict.deposit)
        if head is not None and head.graph != body["graph"]:
            body["supersedes"] = head.graph
    return body


def _keep(source: Path, target: Path) -> None:
    """Give a finished folder its place; one that is there already is left from an interrupted run, or the same."""
    if target.exists():
        if target.parent.name == "deposits":
            return
        shutil.rmtree(target)
    for top, _, names in os.walk(source):
        for name in names:
            handle = os.open(Path(top) / name, os.O_RDONLY)
            os.fsync(handle)
            os.close(handle)
        sync_folder(Path(top))
    source.rename(target)
    sync_folder(target.parent)


def _changed(deposit: Path, registry: Registry) -> bool:
    """Whether a deposit with a known digest is not what it says: then it is judged, and refused."""
    return any(one.severity == "violation" for one in deposits.verify(deposit))


def _report(registry: Registry, entry: Entry) -> bytes:
    return (registry.made(entry.number) / REPORT).read_bytes()
