"""A registry as a folder that another one can read: everything with its history; and two registries made one.

::

    export    lines.ndjson  deposits/<digest>/  made/<number>/  profile.yaml  registry.json
    adopt     a new registry with the same lines, byte for byte
    merge     the lines of another registry added to this one, each with its origin

A collection that both have is *ahead* in one if its versions there go on from the current one here. If each went its
own way, both stay, the one here stays current, and the conflict is listed until a curator resolves it.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import orjson

from chordae import files
from chordae.errors import InputError
from chordae.registry.copies import check_copy, close_copy, copy_tree
from chordae.registry.entry import START, Entry
from chordae.registry.ledger import Ledger
from chordae.registry.made import read_rows
from chordae.registry.place import Registry, create
from chordae.registry.submit import next_body

__all__ = ["Merged", "adopt", "export", "merge", "read_lines", "resolve"]

_KEPT = ("number", "previous", "at", "registry", "software", "kind", "aside", "conflict")


@dataclass(frozen=True, slots=True)
class Merged:
    """What a merge did: lines added, lines that were here already, and the conflicts, in words."""

    added: int
    known: int
    conflicts: tuple[str, ...]


def export(registry: Registry, out: Path) -> None:
    """Write everything with its history into a new folder."""
    with files.folder_aside(out) as aside:
        entries = registry.ledger.entries()
        (aside / "lines.ndjson").write_text("".join(f"{one.text}\n" for one in entries), encoding="utf-8")
        for entry in entries:
            if entry.kind == "submission":
                copy_tree(registry.deposit(entry.deposit), aside / "deposits" / entry.deposit)
                copy_tree(registry.made(entry.number), aside / "made" / f"{entry.number:08d}")
        for name in ("profile.yaml", "registry.json"):
            shutil.copyfile(registry.folder / name, aside / name)
        last = entries[-1].digest if entries else START
        close_copy(aside, {"kind": "export", "registry": registry.about["id"], "lines": len(entries), "last": last})


def read_lines(folder: Path) -> list[Entry]:
    """Return the lines of a checked export, and see that each follows the one before.

    Raises
    ------
    InputError
        A line was changed, or one is missing.
    """
    found = [Entry(orjson.loads(line)) for line in (folder / "lines.ndjson").read_bytes().splitlines()]
    previous = START
    for number, entry in enumerate(found, 1):
        if entry.number != number or entry.previous != previous:
            raise InputError(f"Line {number} of the export does not follow the one before it.", "Take another export.")
        previous = entry.digest
    return found


def adopt(source: Path, folder: Path) -> int:
    """Make a registry from an export: the same lines, the same files; returns the number of lines."""
    check_copy(source, "export")
    entries = read_lines(source)
    about = orjson.loads((source / "registry.json").read_bytes())
    with files.folder_aside(folder) as aside:
        create(aside, str(about["name"]), str(about["base_iri"]))
        for name in ("profile.yaml", "registry.json"):
            shutil.copyfile(source / name, aside / name)
        for name in ("deposits", "made"):
            copy_tree(source / name, aside / name)
        ledger = Ledger(aside / "ledger.sqlite", write=True)
        for entry in entries:
            taken = entry.is_version
            ledger.add(entry, read_rows(source / "made" / f"{entry.number:08d}") if taken else ())
        ledger.close()
    return len(entries)


def merge(registry: Registry, source: Path) -> Merged:
    """Add the lines of an export to a registry. Broken off, it can be done again: what is here is passed over."""
    about = check_copy(source, "export")
    theirs = orjson.loads((source / "registry.json").read_bytes())
    entries = [one for one in read_lines(source) if one.kind == "submission"]
    added = known = 0
    conflicts: list[str] = []
    ways = {name: _way(registry, entries, name) for name in {one.collection for one in entries}}
    for entry in entries:
        if registry.ledger.has_origin(entry.origin):
            known += 1
            continue
        aside, conflict = ways[entry.collection].of(entry)
        body: dict[str, Any] = {key: value for key, value in entry.body.items() if key not in _KEPT}
        body = {**next_body(registry, "submission"), **body}
        body.setdefault(
            "origin",
            {
                "registry": about["registry"],
                "name": theirs.get("name"),
                "number": entry.number,
                "digest": entry.digest,
                "at": entry.body["at"],
            },
        )
        if aside:
            body["aside"] = aside
        if conflict:
            body["conflict"] = True
            conflicts.append(
                f"The collection {entry.collection} went its own way in both registries; version "
                f"{ways[entry.collection].here[:12]} stays current, {entry.deposit[:12]} is kept beside it."
            )
        _copy(source / "deposits" / entry.deposit, registry.deposit(entry.deposit))
        made = registry.made(int(body["number"]))
        _copy(source / "made" / f"{entry.number:08d}", made)
        registry.ledger.add(Entry(body), read_rows(made) if entry.accepted else ())
        added += 1
    conflicts += _shared_identifiers(registry)
    return Merged(added, known, tuple(conflicts))


def resolve(registry: Registry, collection: str, deposit: str, agent: str) -> Entry:
    """Make a version that is here the current one of its collection, as a line of its own.

    Raises
    ------
    InputError
        The collection has no such accepted version.
    """
    found = [
        one
        for one in registry.ledger.of_deposit(deposit)
        if one.is_version and one.collection == collection
    ]
    if not found:
        raise InputError(f"The collection {collection!r} has no accepted version {deposit[:12]!r}.")
    chosen = found[-1]
    body = {
        **next_body(registry, "resolution"),
        "agent": agent,
        "deposit": deposit,
        "collection": collection,
        "outcome": chosen.outcome,
        "graph": chosen.graph,
        "chosen": chosen.number,
        "counts": chosen.body["counts"],
        "made": {},
    }
    entry = Entry(body)
    registry.ledger.add(entry)
    return entry


@dataclass(frozen=True, slots=True)
class _Way:
    """How the versions of a collection there stand to those here."""

    theirs: tuple[str, ...]
    begin: int
    here: str
    graph: str
    conflict: bool

    def of(self, entry: Entry) -> tuple[str, bool]:
        """Return the graph beside which a line stands (empty if it becomes current), and whether it is a conflict."""
        if not entry.accepted:
            return "", False
        if entry.body.get("aside"):
            return str(entry.body["aside"]), False
        place = self.theirs.index(entry.deposit)
        if place >= self.begin:
            return "", False
        return self.graph, self.conflict and place == len(self.theirs) - 1


def _way(registry: Registry, entries: list[Entry], collection: str) -> _Way:
    theirs = tuple(one.deposit for one in entries if one.collection == collection and one.current)
    head = registry.ledger.head(collection)
    if head is None:
        return _Way(theirs, 0, "", "", False)
    ours = {one.deposit for one in registry.ledger.entries(collection=collection) if one.accepted}
    if head.deposit in theirs:
        return _Way(theirs, theirs.index(head.deposit) + 1, head.deposit, head.graph, False)
    behind = not theirs or theirs[-1] in ours
    return _Way(theirs, len(theirs), head.deposit, head.graph, not behind)


def _shared_identifiers(registry: Registry) -> Iterator[str]:
    for iri, collections in registry.ledger.shared_iris():
        yield f"The identifier {iri} stands in the collections {' and '.join(collections)}."


def _copy(source: Path, target: Path) -> None:
    if target.exists() and target.parent.name == "deposits":
        return
    with files.folder_aside(target, replace=True) as aside:
        copy_tree(source, aside)
