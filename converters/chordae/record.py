"""The record: one description of one specimen by one observer, as plain data, and where it was read.

::

    {"id": "0012", "specimen": {...}, "description": {...},
     "parts": [{"id": "right_sided_atrium", "type": "Atrium", "pectinate_extent": "to_crux",
                "observed": [{"feature": "pectinate_extent", "certainty": "certain"}]}, ...],
     "stated": {...}, "derived": {...}, "measurements": [...], "evidence": [...]}

A value says its own state: a feature is one of its words, or ``not_assessable``, or ``not_examined``; a key that
is not there was not recorded. :func:`feature_state` reads all places where a state may stand.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias, cast

from chordae.issues import Location
from chordae.model import (
    class_slots,
    conventional,
    enum_of,
    is_a,
    part_defaults,
    part_type,
    tables,
)

__all__ = [
    "Feature",
    "Reading",
    "Record",
    "State",
    "class_slots",
    "ensure_part",
    "enum_of",
    "feature_state",
    "find_part",
    "is_a",
    "part_defaults",
    "part_type",
    "parts_of",
    "pointer",
    "say",
    "state_of",
    "tables",
]

Record: TypeAlias = dict[str, Any]
"""A record as in ``schema/chordae.yaml``: text, numbers, lists and mappings only."""

State = Literal["present", "absent", "not_assessable", "not_examined"]

_ABSENT = ("absent", "none")


@dataclass(frozen=True, slots=True)
class Reading:
    """A record as it was read, with the place of each value by JSON pointer; ``""`` is the record itself."""

    record: Record
    places: Mapping[str, Location] = field(default_factory=dict)

    def place(self, path: str) -> Location:
        """Return the place of a value, or of the nearest value around it."""
        while path and path not in self.places:
            path = path.rpartition("/")[0]
        return self.places.get(path) or Location()


@dataclass(frozen=True, slots=True)
class Feature:
    """What is recorded of one feature of one part.

    ``state`` is one of the four states, or ``None``: not recorded. ``value`` is the word or number, where there is
    one. ``origin`` says where the state stands: with the feature itself (``value``, ``observed``), with the whole
    part (``part``), or with the material of the specimen (``material``).
    """

    state: State | None = None
    value: Any = None
    origin: Literal["value", "observed", "part", "material"] | None = None
    reason: str | None = None
    certainty: str | None = None
    evidence: tuple[str, ...] = ()

    @property
    def seen(self) -> bool:
        """Whether the observer saw the feature: present, or looked for and not found."""
        return self.state in {"present", "absent"}


def feature_state(part: Mapping[str, Any], feature: str, record: Mapping[str, Any] | None = None) -> Feature:
    """Return what is recorded of a feature, wherever it stands.

    The feature's own value comes first, then its entry under ``observed``, then the state of the whole part, then
    what ``specimen.material_states`` says of the structure (only if the record is given). A part that is present
    says nothing about its features. ``absent`` and ``none`` among the words of a feature are *absent*.

    Parameters
    ----------
    part
        A part of a record.
    feature
        A slot of the part.
    record
        The whole record.

    Examples
    --------
    >>> valve = {"id": "tricuspid_valve", "type": "AtrioventricularValve", "leaflet_count": 3, "cleft": "absent",
    ...          "observed": [{"feature": "straddling", "state": "not_assessable", "state_reason": "damaged"}]}
    >>> [feature_state(valve, name).state for name in ("leaflet_count", "cleft", "straddling", "stenosis")]
    ['present', 'absent', 'not_assessable', None]
    """
    value = part.get(feature)
    entry = _observed(part, feature)
    said: dict[str, Any] = {
        "reason": entry.get("state_reason"),
        "certainty": entry.get("certainty"),
        "evidence": tuple(entry.get("evidence_refs") or ()),
    }
    if value is not None and value != []:
        state = state_of(feature, value)
        return Feature(state, value if state in {"present", "absent"} else None, "value", **said)
    if (said_state := entry.get("state")) is not None:
        return Feature(said_state, None, "observed", **said)
    if (whole := part.get("state")) is not None and whole != "present":
        return Feature(whole, None, "part", part.get("state_reason"))
    for condition in _conditions(part, feature, record):
        if (found := condition.get("state")) is not None and found != "present":
            return Feature(found, None, "material", condition.get("state_reason"))
    return Feature(None, None, None, **said)


def state_of(feature: str, value: Any) -> State:
    """Return the state that the value of a feature stands for: ``absent`` and ``none`` are *absent*.

    Examples
    --------
    >>> state_of("septal_leaflet", "displaced"), state_of("septal_leaflet", "absent"), state_of("leaflet_count", 0)
    ('present', 'absent', 'present')
    """
    word = value[0] if isinstance(value, list) and len(value) == 1 else value
    if word in ("not_assessable", "not_examined"):
        return cast(State, word)
    return "absent" if word in _ABSENT and enum_of(feature) is not None else "present"


def parts_of(record: Mapping[str, Any], type: str = "Part") -> Iterator[dict[str, Any]]:
    """Yield the parts of a class, or of one of its descendants, in the order of the record."""
    for part in record.get("parts") or ():
        if isinstance(part, dict) and (type in ("Part", part.get("type")) or is_a(part.get("type"), type)):
            yield part


def find_part(record: Mapping[str, Any], part_id: object) -> dict[str, Any] | None:
    """Return the part with an id, ``None`` if there is none."""
    return next((part for part in parts_of(record) if part.get("id") == part_id), None)


def ensure_part(record: Record, part_id: str) -> dict[str, Any]:
    """Return the part with a conventional id; add it, with what its name states, if it is not there yet.

    Raises
    ------
    KeyError
        The id is not one of ``schema/parts.yaml``, nor one of these followed by ``_2``, ``_3`` and so on.
    """
    found = find_part(record, part_id)
    if found is None:
        kind = conventional(part_id)
        if kind is None:
            raise KeyError(part_id)
        found = {"id": part_id, "type": kind.type, **kind.default}
        record.setdefault("parts", []).append(found)
    return found


def say(part: str | Mapping[str, Any]) -> str:
    """Name a part, or a conventional id, in a morphologist's words.

    Examples
    --------
    >>> say("aorta"), say("interatrial_communication_2"), say({"id": "x1", "type": "AtrialSeptum"})
    ('trunk called aorta', 'communication between the atria (2)', "atrial septum 'x1'")
    """
    part_id = part if isinstance(part, str) else str(part.get("id", ""))
    kind = conventional(part_id)
    if kind is not None:
        return kind.say if kind.id == part_id else f"{kind.say} ({part_id.rpartition('_')[2]})"
    type_name = "" if isinstance(part, str) else str(part.get("type", ""))
    words = "".join(f" {one.lower()}" if one.isupper() else one for one in type_name or "Part").strip()
    return f"{words} {part_id!r}" if part_id else words


def pointer(*keys: str | int) -> str:
    """Return the JSON pointer (RFC 6901) of a value.

    Examples
    --------
    >>> pointer("parts", 3, "a/b")
    '/parts/3/a~1b'
    """
    return "".join("/" + str(key).replace("~", "~0").replace("/", "~1") for key in keys)


def _observed(part: Mapping[str, Any], feature: str) -> Mapping[str, Any]:
    for entry in part.get("observed") or ():
        if entry.get("feature") == feature:
            found: Mapping[str, Any] = entry
            return found
    return {}


def _conditions(part: Mapping[str, Any], feature: str, record: Mapping[str, Any] | None) -> Iterator[Mapping[str, Any]]:
    states = ((record or {}).get("specimen") or {}).get("material_states") or ()
    if states:
        kind = tables().classes.get(part.get("type", ""))
        names = {part.get("id"), f"{part.get('id')}.{feature}", *(kind.related if kind else ())}
        yield from (one for one in states if one.get("structure") in names)
