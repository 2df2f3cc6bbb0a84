"""Read a profile and say every mistake in it: YAML text in, a profile or issues with line, column and suggestion out.

::

    registry.yaml:4:3   There is no rule R-TOP-01. Did you mean "R-TOPO-01"?
    registry.yaml:9:12  StatedConclusions has nothing called "topologie". Did you mean "topology"?

A profile may stand in the file of a registry: keys that only a registry reads are passed over.
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, cast

from chordae import resources
from chordae.errors import InputError, ResourceError
from chordae.files import read_input
from chordae.intake.found import Found, pointer
from chordae.intake.scalars import bad_characters
from chordae.intake.yaml_text import find_records
from chordae.issues import SEVERITIES, Issue, Location, Severity, issue, nearest, shown
from chordae.model import class_slots, part_type, tables
from chordae.shapes.load import load_rules
from chordae.shapes.profile import OFF, SECTIONS, Profile
from chordae.shapes.set_rules import load_set_rules

__all__ = ["FOLDER", "find_profile", "parse_profile", "read_profile"]

FOLDER = "schema/profiles"
_LIMIT = 1024 * 1024
_TEXTS = ("id", "title", "description")
_KEYS = (*_TEXTS, "rules", "require", "missing")
_OF_REGISTRY = frozenset({"refuse_on", "licences", "newer", "collection"})
_PARTS = "parts"
_NOT_REQUIRED = frozenset({"derived"})


def read_profile(name: str | os.PathLike[str]) -> Profile:
    """Read a profile by the path of its file, or by the name of one that comes with the package.

    Raises
    ------
    InputError
        There is no such profile, or it has mistakes; the message lists every one with its place.
    """
    data, shown_as = find_profile(name)
    profile, issues = parse_profile(data, shown_as)
    if issues or profile is None:
        lines = [f"{one.location}  {one.message} {one.hint}".rstrip() for one in issues]
        many = "a mistake" if len(lines) == 1 else f"{len(lines)} mistakes"
        raise InputError(f"The profile {shown_as} has {many}; nothing was checked.\n" + "\n".join(lines))
    return profile


def find_profile(name: str | os.PathLike[str]) -> tuple[bytes, str]:
    """Return the bytes of a profile, not checked, and the name of its file; see :func:`read_profile`."""
    path = Path(name)
    if not path.exists() and path.name == os.fspath(name) and not path.suffix:
        return _shipped(path.name), f"{path.name}.yaml"
    return read_input(path, _LIMIT), os.fspath(name)


def parse_profile(data: bytes, name: str = "profile") -> tuple[Profile | None, list[Issue]]:
    """Return the profile that a YAML text gives, or ``None`` with every mistake in it.

    Parameters
    ----------
    data
        The file.
    name
        Its name, for the places.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return None, [issue("I-PRO-07", location=Location(name), what="the file", expected="text in UTF-8", value="")]
    found = list(find_records(text))
    if len(found) != 1 or not isinstance(found[0].value, dict):
        faults = [one for item in found for one in _faults(item, name)]
        expected = "one mapping of keys with values"
        return None, faults or [issue("I-PRO-07", location=Location(name, 1, 1), what="the file", expected=expected)]
    reading = _Profile(found[0], name)
    profile = reading.read()
    profile_issues = sorted(reading.issues, key=lambda one: (one.location.line or 0, one.location.column or 0))
    if profile_issues:
        return None, profile_issues
    return Profile(**profile, digest=hashlib.sha256(data).hexdigest()), []


@dataclass(slots=True)
class _Profile:
    item: Found
    name: str
    issues: list[Issue] = field(default_factory=list)

    def read(self) -> dict[str, Any]:
        self.issues += _faults(self.item, self.name)
        value = self.item.value
        for key in value:
            if key not in _KEYS and key not in _OF_REGISTRY:
                self._say("I-PRO-02", pointer("", key), value=key, nearest=nearest(key, _KEYS))
        for key in _TEXTS:
            if key in value and (not isinstance(value[key], str) or bad_characters(value[key])):
                self._type(pointer("", key), key, "text in quotes", value[key])
        if not value.get("id"):
            self._type("", "id", "a name of the profile", None)
        missing = value.get("missing", "warning")
        if missing not in SEVERITIES:
            self._choice("/missing", "missing", missing, SEVERITIES)
        require, parts = self._require(value.get("require") or {})
        rules = self._rules(value.get("rules") or {})
        return {
            "id": str(value.get("id")),
            "title": str(value.get("title") or ""),
            "rules": rules,
            "require": require,
            "parts": parts,
            "missing": cast(Severity, missing),
        }

    def _rules(self, value: Any) -> dict[str, str]:
        known = {**load_rules().rules, **load_set_rules()}
        found: dict[str, str] = {}
        if not isinstance(value, dict):
            self._type("/rules", "rules", "lines such as R-TOPO-01: violation", value)
            return found
        for name, wanted in value.items():
            path = pointer("/rules", name)
            word = OFF if wanted is False else wanted
            rule = known.get(name)
            if rule is None:
                self._say("I-PRO-03", path, value=name, nearest=_nearest(name, known))
            elif word not in (*SEVERITIES, OFF):
                self._choice(path, name, wanted, (*SEVERITIES, OFF))
            elif rule.severity == "violation" and rule.school == "both" and word != "violation":
                self._say("I-PRO-05", path, value=word, what=f"{name} ({rule.label})")
            else:
                found[name] = word
        return found

    def _require(self, value: Any) -> tuple[dict[str, tuple[str, ...]], dict[str, tuple[str, ...]]]:
        require: dict[str, tuple[str, ...]] = {}
        parts: dict[str, tuple[str, ...]] = {}
        if not isinstance(value, dict):
            self._type("/require", "require", "lists under " + ", ".join((*SECTIONS, _PARTS)), value)
            return require, parts
        for section, names in value.items():
            path = pointer("/require", section)
            if section in SECTIONS:
                require[section] = self._slots(names, path, SECTIONS[section])
            elif section == _PARTS and isinstance(names, dict):
                for key, inner in names.items():
                    parts[key] = self._part(key, inner, pointer(path, key))
            elif section == _PARTS:
                self._type(path, section, "a list of features for each class or part", names)
            elif section != "collection":
                near = nearest(section, (*SECTIONS, _PARTS))
                self._say("I-PRO-02", path, value=section, nearest=near)
        return require, parts

    def _part(self, key: str, names: Any, path: str) -> tuple[str, ...]:
        known = tables()
        type_name = part_type(key) or key
        if type_name not in known.classes or "Part" not in known.classes[type_name].ancestors:
            of_parts = [one.name for one in known.classes.values() if "Part" in one.ancestors]
            near = _nearest(key, (*known.parts, *of_parts))
            self._say("I-PRO-06", path, value=key, what="The schema", nearest=near)
            return ()
        return self._slots(names, path, type_name)

    def _slots(self, names: Any, path: str, class_name: str) -> tuple[str, ...]:
        if not isinstance(names, list) or not all(isinstance(one, str) for one in names):
            self._type(path, path.rpartition("/")[2], "a list of names in brackets", names)
            return ()
        known = [one for one in class_slots(class_name) if one not in _NOT_REQUIRED]
        for number, one in enumerate(names):
            if one not in known:
                near = nearest(one, known)
                self._say("I-PRO-06", pointer(path, number), value=one, what=_class_words(class_name), nearest=near)
        return tuple(names)

    def _choice(self, path: str, what: str, value: Any, allowed: tuple[str, ...]) -> None:
        near = nearest(str(value), allowed)
        self._say("I-PRO-04", path, what=what, value=value, expected=", ".join(allowed), nearest=near)

    def _type(self, path: str, what: str, expected: str, value: Any) -> None:
        self._say("I-PRO-07", path, what=what, expected=expected, value=None if value is None else shown(value))

    def _say(self, rule: str, path: str, **fields: Any) -> None:
        marks: Mapping[str, tuple[int, int]] = self.item.marks()
        where = path
        while where and where not in marks:
            where = where.rpartition("/")[0]
        self.issues.append(issue(rule, location=Location(self.name, *marks.get(where, self.item.mark)), **fields))


def _nearest(word: str, known: Iterable[str]) -> str:
    """As :func:`chordae.issues.nearest`, for names with capitals."""
    names = {one.casefold(): one for one in known}
    return re.sub(r'"([^"]*)"', lambda one: f'"{names.get(one[1], one[1])}"', nearest(word, names))


def _class_words(name: str) -> str:
    words = "".join(f" {one.lower()}" if one.isupper() else one for one in name).strip()
    return words[:1].upper() + words[1:]


def _faults(item: Found, name: str) -> Iterator[Issue]:
    for one in item.faults:
        yield issue(one.rule, location=Location(name, *one.mark), path=one.path or None, value=one.value, **one.fields)


def _shipped(name: str) -> bytes:
    try:
        return resources.read_bytes(f"{FOLDER}/{name}.yaml")
    except ResourceError:
        names = sorted(entry.name.removesuffix(".yaml") for entry in resources.find(FOLDER).iterdir())
        raise InputError(
            f"There is no profile {name}.{nearest(name, names)}", f"Name a file, or one of: {', '.join(names)}."
        ) from None
