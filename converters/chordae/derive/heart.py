"""From a record to the facts of one heart, as conditions in data files name them.

::

    parts: [{id: aorta, type: ArterialTrunk, ...}, ...]
        |  look up by id, by type, by side, by role
        v
    heart["aorta.cut_level"]                 feature of the part in this role
    heart["ventricular_septum.septal_integrity"]
    heart["stated.av_connection"]            what the observer stated, whatever was derived
    heart["atrial_arrangement"]              a conclusion, put in by the step that reached it
    heart["interatrial_communication.interatrial_location"]   a set, gathered over all parts of one type

A *role* is a part by what it is: a type that occurs once (``great_arteries``), or an identity that was derived or
stated (``morphologically_right_ventricle``, ``tricuspid_valve``, ``aortic_valve``). A part whose state is *absent*
keeps no features.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Any, TypeAlias

from chordae.conditions import SILENT, Facts
from chordae.knowledge import table
from chordae.record import Record, enum_of

__all__ = ["Heart", "Part", "part_words", "words"]

Part: TypeAlias = Mapping[str, Any]
"""One part of a record."""

_VALVES = {"aortic": "aortic_valve", "pulmonary": "pulmonary_valve", "truncal": "truncal_valve"}
_OUTFLOWS = {"aortic": "aortic_outflow", "pulmonary": "pulmonary_outflow", "truncal": "truncal_outflow"}
_LISTS = frozenset(("opens_into", "arises_from", "obstruction", "arch_branches", "ventricle_position"))
_IN_LISTS = frozenset((str, dict))
_IN_ENTRIES = frozenset((str, list))
_OF_ABSENT = ("id", "state")
_WORDS = frozenset(("id", "type", "side", "state", "state_reason", "note", "observed")) | _LISTS
_GATHERED = (
    ("interatrial_communication.interatrial_location", "InteratrialCommunication", "interatrial_location"),
    ("atrium.appendage_position", "Atrium", "appendage_position"),
    ("atrium.divided_atrium", "Atrium", "divided_atrium"),
    ("atrioventricular_valve.stated_valve_type", "AtrioventricularValve", "stated_valve_type"),
    ("atrioventricular_valve.straddling", "AtrioventricularValve", "straddling"),
    ("atrioventricular_valve.overriding", "AtrioventricularValve", "overriding"),
    ("interventricular_communication.malalignment", "InterventricularCommunication", "malalignment"),
    ("interventricular_communication.commitment", "InterventricularCommunication", "commitment"),
    ("surgical_finding.procedure", "SurgicalFinding", "procedure"),
)


_SPLIT: dict[str, tuple[str, ...]] = {}


class Heart(Facts):
    """The facts of one record; a name with a dot is looked up in the part that has the role."""

    def __init__(self, record: Record) -> None:
        super().__init__()
        self.material = _material(record)
        self.remarks = [one for one in _listed(record.get("remarks")) if isinstance(one, dict)]
        self.parts: list[Part] = [_clean(one) for one in _listed(record.get("parts")) if isinstance(one, dict)]
        stated = record.get("stated")
        self.stated: Mapping[str, Any] = stated if isinstance(stated, dict) else {}
        self.by_type: dict[str, list[Part]] = {}
        self.roles: dict[str, Part] = {}
        self._present: dict[str, list[Part]] = {}
        self.roles["stated"] = {name: one for name, one in self.stated.items() if isinstance(one, str)}
        self.origins: dict[str, str] = {}
        self.stands_for: dict[str, str] = {}
        once = _types_that_occur_once()
        by_type = self.by_type
        for part in self.parts:
            kind = part.get("type", "")
            if kind in by_type:
                by_type[kind].append(part)
            else:
                by_type[kind] = [part]
                if kind in once:
                    self._take(once[kind], part)
        for part in self.by_type.get("ArterialValve", ()):
            self._take(_VALVES.get(part.get("stated_arterial_valve", "")), part)
        for part in self.by_type.get("OutflowTract", ()):
            self._take(_OUTFLOWS.get(part.get("outflow_of", "")), part)

    def __missing__(self, name: str) -> Any:
        split = _SPLIT.get(name)
        if split is None:
            split = _SPLIT[name] = tuple(name.partition("."))
        features = self.roles.get(split[0]) if split[1] else None
        value = features.get(split[2]) if features else None
        self[name] = value
        return value

    def tell(self, name: str, value: Any) -> None:
        """Put in a fact that was said; of a name with a dot, also into the part that has the role."""
        self[name] = value
        role, dot, feature = name.partition(".")
        if dot:
            self.roles[role] = {**self.roles.get(role, {}), feature: value}

    def of_type(self, kind: str) -> list[Part]:
        """Return the parts of one type that were not recorded as absent, in order."""
        found = self._present.get(kind)
        if found is None:
            found = [one for one in self.by_type.get(kind, ()) if one.get("state") != "absent"]
            self._present[kind] = found
        return found

    def on_side(self, kind: str, side: str) -> Part | None:
        """Return the first part of one type on one side, also if recorded as absent."""
        for one in self.by_type.get(kind, ()):
            if one.get("side") == side:
                return one
        return None

    def give_role(self, role: str, part: Part) -> None:
        """Let a part answer to a role that was derived or stated; the first one stays."""
        self._take(role, part)

    def fact(self, name: str) -> str:
        """Return a fact as a premise: its name, its value, and where a conclusion comes from; empty for none.

        A fact that stands for another one (``stands_for``) is given as that one.
        """
        name = self.stands_for.get(name, name)
        if not name:
            return ""
        value = self[name]
        if isinstance(value, (set, frozenset, list)):
            value = ", ".join(sorted(str(one) for one in value))
        origin = self.origins.get(name)
        return f"{name} = {'not recorded' if value is None else value}" + (f" ({origin})" if origin else "")

    def gather(self) -> None:
        """Put in the facts that are gathered over several parts."""
        for name, kind, feature in _GATHERED:
            if kind in self.by_type:
                found = {one[feature] for one in self.of_type(kind) if one.get(feature) not in SILENT}
                if found:
                    role, _, name_of_feature = name.partition(".")
                    first = self.roles.get(role, {})
                    kept = {} if first.get("state") == "absent" else first
                    self.roles[role] = {**kept, name_of_feature: found}
                    self[name] = found
        holes = self.by_type.get("InterventricularCommunication")
        if holes:
            self["hole"] = "absent" if all(one.get("state") == "absent" for one in holes) else "present"
        self["patent_arterial_valves"] = sum(
            one.get("valve_patency") == "patent" for one in self.of_type("ArterialValve")
        )

    def _take(self, role: str | None, part: Part) -> None:
        if role and role not in self.roles:
            absent = part.get("state") == "absent"
            self.roles[role] = {name: part[name] for name in _OF_ABSENT if name in part} if absent else part


def words(name: str) -> str:
    """Return a name of the schema as words.

    Examples
    --------
    >>> words("pectinate_extent")
    'pectinate extent'
    """
    return name.replace("_", " ")


def part_words(identifier: str) -> str:
    """Return how a message names a part.

    Examples
    --------
    >>> part_words("aorta"), part_words("right_sided_ventricle_2"), part_words("x_1")
    ('trunk called aorta', 'right-sided ventricle 2', 'x 1')
    """
    names = table("parts")["parts"]
    if identifier in names:
        return str(names[identifier]["say"])
    stem, _, number = identifier.rpartition("_")
    if number.isdigit() and stem in names:
        return f"{names[stem]['say']} {number}"
    return words(identifier)


def _clean(part: dict[str, Any]) -> Part:
    """Return a part without values whose kind cannot be right; the check of structure reports them."""
    others = [name for name, value in part.items() if value.__class__ is not str]
    if not others and "observed" not in part:
        return part
    if part.get("observed").__class__ is not str:
        for name in others:
            if not _may_be(name, part[name]):
                break
        else:
            return part
    kept = {name: value for name, value in part.items() if isinstance(value, str) or _may_be(name, value)}
    return {**kept, "observed": [one for one in _listed(part.get("observed")) if _is_entry(one)]}


def _may_be(name: str, value: Any) -> bool:
    if isinstance(value, list):
        if name == "observed":
            return all(map(_is_entry, value))
        return name in _LISTS and _IN_LISTS.issuperset(map(type, value))
    return isinstance(value, (int, float)) and _is_measure(name)


@lru_cache(maxsize=1024)
def _is_measure(name: str) -> bool:
    return name not in _WORDS and enum_of(name) is None


def _is_entry(value: Any) -> bool:
    return isinstance(value, dict) and _IN_ENTRIES.issuperset(map(type, value.values()))


def _material(record: Record) -> Record:
    """Return what the record says of the material, as :func:`chordae.record.feature_state` reads it."""
    specimen = record.get("specimen")
    states = _listed(specimen.get("material_states")) if isinstance(specimen, dict) else []
    return {"specimen": {"material_states": [one for one in states if _is_entry(one)]}} if states else {}


def _listed(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


@cache
def _types_that_occur_once() -> dict[str, str]:
    names = table("parts")["parts"]
    count = Counter(one["type"] for one in names.values())
    return {one["type"]: name for name, one in names.items() if count[one["type"]] == 1}
