"""What a registry asks of a deposit: a YAML file that its curators write, read and checked.

::

    refuse_on: violation              a deposit with an issue of this severity or worse is refused
    require: {collection: [...], specimen: [...]}
    licences: []                      identifiers that are taken; empty: any that is stated
    newer: refuse                     what becomes of a deposit of a newer version than the registry: refuse or warn
    rules: {R-ASS-08: "off"}          another severity for a rule, or off

Only rules of morphology can be changed: what tells a broken package, a broken record or a wrong owner stays.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, cast

import yaml

from chordae import files
from chordae.errors import InputError
from chordae.issues import SEVERITIES, Issue, Severity
from chordae.model import class_slots

__all__ = ["EXAMPLE", "Profile", "parse_profile", "read_profile"]

EXAMPLE = """\
# What this registry asks of a deposit. Change it to fit your registry; lines after # are notes.
# A deposit with an issue of this severity or worse is refused: violation, warning or never.
refuse_on: violation
# What must be said of the collection, and of each specimen.
require:
  collection: [id, name, custodian, licence, base_iri]
  specimen: [accession, consent]
# Licences that are taken, as SPDX identifiers; an empty list takes any that is stated.
licences: []
# What becomes of a deposit made with a newer version than this registry has: refuse or warn.
newer: refuse
# Another severity for a rule (violation, warning, info), or "off".
rules: {}
"""

_KEYS = ("refuse_on", "require", "licences", "newer", "rules")
_COLLECTION = ("id", "name", "custodian", "licence", "base_iri", "note")
_LIMIT = 1024 * 1024


@dataclass(frozen=True, slots=True)
class Profile:
    """See the module; ``digest`` is the SHA-256 of the file."""

    refuse_on: str = "violation"
    collection: tuple[str, ...] = ("id", "name", "custodian", "licence", "base_iri")
    specimen: tuple[str, ...] = ("accession", "consent")
    licences: tuple[str, ...] = ()
    newer: str = "refuse"
    rules: Mapping[str, str] = field(default_factory=dict)
    digest: str = ""
    text: str = ""

    def apply(self, issue: Issue) -> Issue | None:
        """Return the issue with the severity that this registry gives it; ``None`` if it is off."""
        wanted = self.rules.get(issue.rule)
        if wanted is None or wanted == issue.severity:
            return issue
        return None if wanted == "off" else replace(issue, severity=cast(Severity, wanted))


def read_profile(path: Path) -> Profile:
    """Read a profile; see :func:`parse_profile`."""
    return parse_profile(files.read_input(path, _LIMIT), str(path))


def parse_profile(data: bytes, name: str = "profile") -> Profile:
    """Return the profile that a YAML text gives.

    Raises
    ------
    InputError
        It is not a profile; the message names the line of it that is not understood.
    """
    try:
        text = data.decode("utf-8")
        if "&" in text or "*" in text:
            raise InputError(f"{name} holds an anchor or alias.", "Write the value out.")
        found = yaml.safe_load(text) or {}
    except (UnicodeDecodeError, yaml.YAMLError) as error:
        raise InputError(f"{name} cannot be read: {' '.join(str(error).split())[:200]}.") from None
    if not isinstance(found, dict):
        raise InputError(f"{name} is not a profile: keys with values were expected.")
    for key in found:
        _must(key in _KEYS, name, f"the key {key!r} is not known", f"Keys are: {', '.join(_KEYS)}.")
    require = found.get("require") or {}
    _must(isinstance(require, dict), name, "'require' holds no lists", "Write collection: [...] and specimen: [...].")
    standard = Profile()
    profile = Profile(
        refuse_on=str(found.get("refuse_on", standard.refuse_on)),
        collection=_names(require, "collection", standard.collection, _COLLECTION, name),
        specimen=_names(require, "specimen", standard.specimen, class_slots("Specimen"), name),
        licences=_list(found.get("licences") or [], "licences", name),
        newer=str(found.get("newer", standard.newer)),
        rules=_rules(found.get("rules") or {}, name),
        digest=hashlib.sha256(data).hexdigest(),
        text=text,
    )
    allowed = (*SEVERITIES[:2], "never")
    _must(profile.refuse_on in allowed, name, f"refuse_on is {profile.refuse_on!r}", f"Use {', '.join(allowed)}.")
    _must(profile.newer in ("refuse", "warn"), name, f"newer is {profile.newer!r}", "Use refuse or warn.")
    return profile


def _rules(found: Any, name: str) -> dict[str, str]:
    from chordae.shapes.load import load_rules

    _must(isinstance(found, dict), name, "'rules' is no mapping", 'Write lines such as R-ASS-08: "off".')
    known = load_rules().rules
    result = {}
    for rule, severity in found.items():
        told = "off" if severity is False else str(severity)  # YAML reads a bare off as false
        _must(rule in known, name, f"there is no rule {rule!r}", "chordae explain tells what a rule is.")
        _must(told in (*SEVERITIES, "off"), name, f"{rule} is {told!r}", f"Use {', '.join(SEVERITIES)} or off.")
        result[str(rule)] = told
    return result


def _names(require: Any, key: str, standard: tuple[str, ...], known: tuple[str, ...], name: str) -> tuple[str, ...]:
    if key not in require:
        return standard
    found = _list(require[key] or [], key, name)
    for one in found:
        _must(one in known, name, f"{key} has nothing called {one!r}", f"Known are: {', '.join(known)}.")
    return found


def _list(found: Any, key: str, name: str) -> tuple[str, ...]:
    _must(isinstance(found, list) and all(isinstance(one, str) for one in found), name, f"{key!r} is no list of words")
    return tuple(found)


def _must(holds: bool, name: str, problem: str, hint: str = "") -> None:
    if not holds:
        raise InputError(f"{name}: {problem}.", hint)
