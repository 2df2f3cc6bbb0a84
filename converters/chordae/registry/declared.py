"""What a deposit says of itself: its collection, and the versions it was made with; compared with what is asked."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import orjson

from chordae import deposit as deposits
from chordae.errors import ChordaeError
from chordae.issues import Issue, Location, Severity, issue
from chordae.rdf.emit import check_base
from chordae.registry.profile import Profile

__all__ = ["COLLECTION_ID", "REPORT_FILE", "collection_of", "look_at_collection", "look_at_versions"]

COLLECTION_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,127}")
REPORT_FILE = "data/report.json"
"""Where a deposit says what it is."""


def collection_of(folder: Path) -> dict[str, Any]:
    """Return what a deposit says of its collection; empty if it says nothing that can be read."""
    path = folder / REPORT_FILE
    try:
        found = orjson.loads(path.read_bytes()) if not path.is_symlink() else None
    except (OSError, orjson.JSONDecodeError):
        return {}
    said = found.get("collection") if isinstance(found, dict) else None
    return {str(key): str(value) for key, value in said.items() if value} if isinstance(said, dict) else {}


def look_at_collection(collection: Mapping[str, Any], profile: Profile) -> tuple[str | None, list[Issue]]:
    """Return the base IRI of the records, ``None`` if there is none that can be used, and what is wrong."""
    issues = []
    place = Location(REPORT_FILE)
    for what in profile.collection:
        if not collection.get(what):
            issues.append(issue("I-REG-01", location=place, what=what.replace("_iri", " IRI"), path=f"/{what}"))
    name = collection.get("id")
    if name and not COLLECTION_ID.fullmatch(name):
        expected = "a word of letters, digits, dots, hyphens and underscores"
        issues.append(issue("I-REG-13", location=place, what="id", value=name, expected=expected))
    licence = collection.get("licence")
    if licence and profile.licences and licence not in profile.licences:
        issues.append(issue("I-REG-10", location=place, value=licence, expected=", ".join(profile.licences)))
    base = collection.get("base_iri")
    try:
        return (check_base(base) if base else None), issues
    except ChordaeError:
        expected = "an absolute IRI that ends in a slash or a hash"
        return None, [*issues, issue("I-REG-13", location=place, what="base IRI", value=base, expected=expected)]


def look_at_versions(folder: Path, profile: Profile) -> Iterator[Issue]:
    """Yield what was made with a newer version than the one here."""
    path = folder / "data/versions.json"
    try:
        told = orjson.loads(path.read_bytes())
    except (OSError, orjson.JSONDecodeError):
        return
    here = deposits.versions()
    for what, now in here.items():
        then = told.get(what) if isinstance(told, dict) else None
        if not isinstance(then, dict) or "version" not in now:
            continue
        if _parts(then.get("version")) > _parts(now["version"]):
            severity: Severity = "violation" if profile.newer == "refuse" else "warning"
            yield replace(
                issue(
                    "I-REG-03",
                    location=Location("data/versions.json"),
                    what=what,
                    value=then.get("version"),
                    found=now["version"],
                ),
                severity=severity,
            )


def _parts(version: object) -> tuple[int, ...]:
    return tuple(int(one) for one in re.findall(r"\d+", str(version or "0"))[:3])
