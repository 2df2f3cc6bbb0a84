"""The resources of a bundle by what refers to them, looked at once; and which of them were taken over.

::

    at                "urn:uuid:1" -> resource          each resource by its URL
    observations      URL of a specimen -> URLs         what is said of a specimen
    bodies            URL of a patient -> URLs          body structures of a patient
    documents         URL of a patient, or None -> URLs
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Any

from chordae.formats.fhir.elements import target
from chordae.formats.fhir.pieces import Resource
from chordae.issues import Issue, Location, issue

__all__ = ["BundleIndex"]

_BESIDE = frozenset({"Patient", "Practitioner", "PractitionerRole", "Organization", "Device", "Provenance", "Location"})
"""What stands beside a specimen and is no statement about it."""


class BundleIndex:
    """See the module; ``entries`` are resources with the URL that others may refer to them by, or an empty text."""

    def __init__(self, entries: Iterable[tuple[str, Resource]], file: str | None, issues: list[Issue]) -> None:
        self.at: dict[str, Resource] = {}
        self.file = file
        self._alias: dict[str, str] = {}
        self._order: dict[str, int] = {}
        self._read: set[str] = set()
        for url, one in entries:
            short = f"{one.get('resourceType')}/{one.get('id')}"
            name = url or short
            if name in self.at and self.at[name] != one:
                issues.append(issue("I-FHIR-04", location=Location(file), value=name))
                continue
            self.at[name] = one
            self._alias.setdefault(short, name)
            self._order.setdefault(name, len(self._order))
        self.observations = self._by("Observation", "specimen")
        self.bodies = self._by("BodyStructure", "patient")
        self.documents = self._by("DocumentReference", "subject")

    def target(self, reference: Any) -> str | None:
        """Return the URL of what a reference refers to."""
        found = target(reference)
        return None if found is None else self._alias.get(found, found)

    def take(self, url: str | None) -> Resource:
        """Return a resource and tick it off; an empty one if there is none."""
        if url is None or url not in self.at:
            return {}
        self._read.add(url)
        return self.at[url]

    def in_order(self, urls: Iterable[str]) -> list[str]:
        """Return the URLs of resources that are there, each once, in the order of the bundle."""
        return sorted({one for one in urls if one in self.at}, key=lambda one: self._order[one])

    def report_rest(self, issues: list[Issue]) -> None:
        """Name the resources that belong to no specimen, or that have no place in a description."""
        rest = Counter(str(one.get("resourceType")) for url, one in self.at.items() if url not in self._read)
        for kind, count in sorted(rest.items()):
            if kind not in _BESIDE:
                issues.append(issue("I-FHIR-05", location=Location(self.file), value=kind, count=count))

    def _by(self, kind: str, key: str) -> dict[str | None, list[str]]:
        found: dict[str | None, list[str]] = {}
        for url, one in self.at.items():
            if one.get("resourceType") == kind:
                found.setdefault(self.target(one.get(key)), []).append(url)
        return found
