"""What a registry asks for beyond the rules: a YAML file that its curators write, applied to the issues of a record.

::

    id: strict_registry                      title, description: words for people
    rules: {R-TOPO-01: violation,            another severity for a rule of morphology,
            R-ATR-13: "off"}                 or off
    require:                                 what has to be recorded
      stated: [topology]                       conclusions; also record, specimen, description
      parts:
        AtrioventricularValve: [leaflet_count]   of each part of a class that is there and not absent
        heart_position: [apex]                   of a part with this conventional id, which has to be there
    missing: violation                       how a missing value is called (default: warning)

*Recorded* is any state: not assessable and not examined say that the observer thought of it.
What the rule base calls a violation is a contradiction, and no profile makes it less: only rules that belong to one
school can be lowered or turned off by a registry of the other one. The file is checked by :mod:`profile_file`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from chordae.issues import Issue, Severity, issue
from chordae.model import part_type
from chordae.record import Reading, feature_state, find_part, parts_of, pointer, say

__all__ = ["DEFAULT", "OFF", "SECTIONS", "Profile"]

OFF = "off"
SECTIONS: Mapping[str, str] = {
    "record": "Record",
    "specimen": "Specimen",
    "description": "Description",
    "stated": "StatedConclusions",
}
"""Sections of ``require`` beside ``parts``, with the class of the schema whose slots they name."""

_WORDS = {"record": "record", "specimen": "specimen", "description": "description", "stated": "observer's conclusions"}
_RULE = "I-PRO-01"


@dataclass(frozen=True, slots=True)
class Profile:
    """See the module. ``digest`` is the SHA-256 of the file in hex; ``rules`` maps ids to a severity or ``off``.

    Examples
    --------
    >>> profile = Profile("p", rules={"R-TOPO-01": "violation"}, require={"stated": ("topology",)})
    >>> [found.message for found in profile.missing_in(Reading({"id": "7"}))]
    ['The topology of the observer\\'s conclusions is not recorded; the profile "p" asks for it.']
    """

    id: str
    title: str = ""
    rules: Mapping[str, str] = field(default_factory=dict)
    require: Mapping[str, Sequence[str]] = field(default_factory=dict)
    parts: Mapping[str, Sequence[str]] = field(default_factory=dict)
    missing: Severity = "warning"
    digest: str = ""

    def apply(self, found: Issue) -> Issue | None:
        """Return an issue with the severity that counts here; ``None`` if its rule is off."""
        wanted = self.rules.get(found.rule)
        if wanted is None or wanted == found.severity:
            return found
        return None if wanted == OFF else replace(found, severity=_severity(wanted))

    def is_off(self, rule: str) -> bool:
        """Say whether a rule is not to be heard."""
        return self.rules.get(rule) == OFF

    def missing_in(self, reading: Reading) -> Iterator[Issue]:
        """Yield an issue for everything required that a record does not say.

        Parameters
        ----------
        reading
            A full record, sound in structure, with its places.
        """
        record = reading.record
        for section, names in self.require.items():
            node = record if section == "record" else record.get(section) or {}
            head = "" if section == "record" else pointer(section)
            for name in names:
                if node.get(name) in (None, "", [], {}):
                    yield self._say(reading, f"{_plain(name)} of the {_WORDS[section]}", head + pointer(name))
        for key, names in self.parts.items():
            yield from self._of_parts(reading, key, names)

    def _of_parts(self, reading: Reading, key: str, names: Sequence[str]) -> Iterator[Issue]:
        record = reading.record
        if part_type(key) is not None:
            part = find_part(record, key)
            if part is None:
                yield self._say(reading, say(key), "/parts", key)
            parts = [part] if part is not None else []
        else:
            parts = list(parts_of(record, key))
        for part in parts:
            if part.get("state") == "absent":
                continue
            for name in names:
                if feature_state(part, name, record).state is None:
                    path = pointer("parts", record["parts"].index(part), name)
                    yield self._say(reading, f"{_plain(name)} of the {say(part)}", path, part["id"])

    def _say(self, reading: Reading, what: str, path: str, part: str | None = None) -> Issue:
        record: Mapping[str, Any] = reading.record
        return issue(
            _RULE,
            severity=self.missing,
            location=reading.place(path),
            record=str(record.get("id")),
            part=part,
            path=path,
            what=what,
            profile=self.id,
        )


DEFAULT = Profile("default")


def _severity(word: str) -> Severity:
    found: dict[str, Severity] = {"violation": "violation", "warning": "warning", "info": "info"}
    return found[word]


def _plain(name: str) -> str:
    return name.replace("_", " ")
