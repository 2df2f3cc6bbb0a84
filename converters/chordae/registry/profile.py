"""What a registry asks of a deposit: a YAML file that its curators write, read and checked.

::

    refuse_on: violation        a deposit with an issue of this severity or worse is refused
    collection: [id, name, ...] what must be said of the collection
    licences: []                identifiers that are taken; empty: any that is stated
    newer: refuse               what becomes of a deposit of a newer version than the registry: refuse or warn
    id, rules, require, missing as in every profile (:mod:`chordae.shapes.profile`)

The same file serves ``chordae check --profile``, so that a submitter sees at home what the registry will see.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from chordae import files
from chordae.errors import InputError
from chordae.intake.yaml_text import find_records
from chordae.issues import SEVERITIES
from chordae.shapes import profile as of_rules
from chordae.shapes import profile_file

__all__ = ["EXAMPLE", "Profile", "parse_profile", "read_profile"]

EXAMPLE = """\
# What this registry asks of a deposit. Change it to fit your registry; lines after # are notes.
id: registry
# A deposit with an issue of this severity or worse is refused: violation, warning or never.
refuse_on: violation
# What must be said of the collection.
collection: [id, name, custodian, licence, base_iri]
# Licences that are taken, as SPDX identifiers; an empty list takes any that is stated.
licences: []
# What becomes of a deposit made with a newer version than this registry has: refuse or warn.
newer: refuse
# What must be recorded of each heart, and how it is called if it is not.
require:
  specimen: [accession, consent]
missing: violation
# Another severity for a rule (violation, warning, info), or "off".
rules: {}
"""

_COLLECTION = ("id", "name", "custodian", "licence", "base_iri", "note")
_LIMIT = 1024 * 1024


@dataclass(frozen=True, slots=True)
class Profile:
    """See the module; ``checks`` is its part on records, ``digest`` the SHA-256 of the file."""

    checks: of_rules.Profile
    refuse_on: str = "violation"
    collection: tuple[str, ...] = ()
    licences: tuple[str, ...] = ()
    newer: str = "refuse"
    digest: str = ""
    text: str = field(default="", repr=False)


def read_profile(path: Path) -> Profile:
    """Read a profile; see :func:`parse_profile`."""
    return parse_profile(files.read_input(path, _LIMIT), str(path))


def parse_profile(data: bytes, name: str = "profile") -> Profile:
    """Return the profile that a YAML text gives.

    Raises
    ------
    InputError
        It is not a profile; the message names every mistake in it.
    """
    checks, faults = profile_file.parse_profile(data, name)
    if checks is None:
        said = "\n".join(f"{one.location}  {one.message} {one.hint}".rstrip() for one in faults)
        raise InputError(f"The profile {name} has mistakes:\n{said}")
    text = data.decode("utf-8-sig")
    found: dict[str, Any] = next(find_records(text)).value  # one mapping, as was seen above
    profile = Profile(
        checks=checks,
        refuse_on=str(found.get("refuse_on", "violation")),
        collection=_list(found.get("collection") or [], "collection", name),
        licences=_list(found.get("licences") or [], "licences", name),
        newer=str(found.get("newer", "refuse")),
        digest=hashlib.sha256(data).hexdigest(),
        text=text,
    )
    allowed = (*SEVERITIES[:2], "never")
    _must(profile.refuse_on in allowed, name, f"refuse_on is {profile.refuse_on!r}", f"Use {', '.join(allowed)}.")
    _must(profile.newer in ("refuse", "warn"), name, f"newer is {profile.newer!r}", "Use refuse or warn.")
    for one in profile.collection:
        known = f"Known are: {', '.join(_COLLECTION)}."
        _must(one in _COLLECTION, name, f"a collection has nothing called {one!r}", known)
    return profile


def _list(found: Any, key: str, name: str) -> tuple[str, ...]:
    _must(isinstance(found, list) and all(isinstance(one, str) for one in found), name, f"{key!r} is no list of words")
    return tuple(found)


def _must(holds: bool, name: str, problem: str, hint: str = "") -> None:
    if not holds:
        raise InputError(f"{name}: {problem}.", hint)
