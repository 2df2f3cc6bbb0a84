"""From the parts of a heart to their identities, by the criteria, in the order in which one leans on another.

::

    atria, ventricles, trunks, arch, holes      from their own features
    valves                                      after the connections: which ventricle, separate or common junction

Each identity gives the part its role in :class:`chordae.derive.heart.Heart` (``morphologically_right_ventricle``,
``aorta``). Where features do not decide, the name that the observer gave fills the role, and the conclusions that
use it know that (``firm`` is false).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from chordae.conditions import SILENT
from chordae.derive.criteria import Identity, identify
from chordae.derive.heart import Heart, Part
from chordae.derive.kinds import kind
from chordae.knowledge import table

__all__ = ["Identities"]


class Identities(dict[str, Identity]):
    """Identity of each part that has criteria, by the id of the part."""

    def __init__(self, heart: Heart) -> None:
        super().__init__()
        self.heart = heart

    def find_chambers(self) -> None:
        """Identify atria and ventricles."""
        for part in self.heart.of_type("Atrium"):
            self._add("atrium", part)
        ventricles = self.heart.of_type("Ventricle")
        for part in ventricles:
            self._add("ventricle", part, {"ventricle_count": len(ventricles)})
        names = {self[part.get("id", "")].best for part in ventricles}
        if names == {"solitary_indeterminate_ventricle"}:
            self.heart["solitary_ventricle"] = True

    def find_trunks(self) -> None:
        """Identify the arterial trunks."""
        trunks = self.heart.by_type.get("ArterialTrunk", ())
        for part in self.heart.of_type("ArterialTrunk"):
            others = [one for one in trunks if one is not part]
            atretic = [one for one in others if one.get("trunk_calibre") == "atretic"]
            gone = [one.get("state") == "absent" or one in atretic for one in others]
            alone = part.get("side") == "solitary" or (bool(others) and all(gone))
            given = {
                "second_trunk": "absent" if alone else "present" if others else None,
                "atretic_trunk": next((one.get("stated_trunk_identity") for one in atretic), None),
            }
            self._add("arterial_trunk", part, given)

    def find_arch(self) -> None:
        """Identify the side of the arch."""
        for part in self.heart.of_type("AorticArch"):
            branches = part.get("arch_branches") or [None]
            self._add("arch", part, {"first_branch": branches[0]})

    def find_holes(self) -> None:
        """Name the holes between the ventricles by their borders."""
        given = {"outlet_septum": self.heart["outflow_tracts.outlet_septum"]}
        for part in self.heart.of_type("InterventricularCommunication"):
            self._add("hole", part, given)

    def find_valves(self, opens_into: Mapping[str, str | None]) -> None:
        """Identify the atrioventricular valves; ``opens_into`` is the ventricle by the side of the valve."""
        heart = self.heart
        for part in heart.of_type("AtrioventricularValve"):
            given = {
                "opens_mostly_into": opens_into.get(part.get("side", "")),
                "junction_pattern": heart["junction_pattern"],
                "valvar_orifices": heart["atrioventricular_junctions.valvar_orifices"],
                "av_connection": heart["av_connection"],
            }
            self._add("atrioventricular_valve", part, given)
            if (side := part.get("side")) not in SILENT:
                heart.give_role(f"{side}_valve", part)

    def best(self, reference: Any) -> tuple[str | None, bool]:
        """Return the identity of a part by its id, derived or else stated, and whether it rests on features.

        A ventricle that is no part of the record but has a conventional id is what that id says.
        """
        identity = self.get(reference) if isinstance(reference, str) else None
        if identity is not None:
            return identity.best, identity.answer is not None
        default = table("parts")["parts"].get(reference, {}).get("default", {})
        return next((value for name, value in default.items() if name.startswith("stated_")), None), False

    def of_kind(self, name: str) -> Iterator[Identity]:
        """Yield the identities of one kind of structure."""
        return (one for one in self.values() if one.kind == name)

    def _add(self, name: str, part: Part, given: Mapping[str, Any] | None = None) -> None:
        of = kind(name)
        if of.not_for and any(part.get(feature) in values for feature, values in of.not_for):
            return
        found = identify(of, part, given, self.heart.material)
        self[found.part] = found
        if found.best:
            self.heart.give_role(found.best, part)
