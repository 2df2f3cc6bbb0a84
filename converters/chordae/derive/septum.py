"""From each hole between the ventricles to its categories by borders and by geography, and what follows from them.

::

    rims, continuity       -->  borders: perimembranous (decided)       two classifications, side by side;
    geography as recorded  -->  geography: inlet                        neither is turned into the other
    commitment             -->  commitment: subaortic                   the root to which the hole opens
    plane of closure       -->  plane_of_closure              what would be closed: not the hole in double outlet
    rim + connection       -->  conduction: axis expected at the rim    information, never a finding
"""

from __future__ import annotations

from typing import Any

from chordae.conditions import SILENT, Facts
from chordae.derive.heart import Heart, Part
from chordae.derive.identities import Identities
from chordae.derive.tables import decide

__all__ = ["describe_holes", "expected_axis"]

_AS_RECORDED = ("geography", "commitment", "plane_of_closure", "malalignment", "restrictive", "between_limbs")


def describe_holes(heart: Heart, identities: Identities) -> list[dict[str, Any]]:
    """Describe every hole between the ventricles that was not recorded as absent.

    Returns
    -------
    list of dict
        ``part``; ``borders`` (category), ``borders_origin`` (evidence or stated), ``borders_confidence``; the
        recorded features of :data:`_AS_RECORDED`; ``conduction`` where an axis can be expected.
    """
    described = []
    for part in heart.of_type("InterventricularCommunication"):
        identity = identities.get(part.get("id", ""))
        category = identity.best if identity else None
        hole: dict[str, Any] = {"part": part.get("id", ""), "borders": category}
        if identity and category:
            hole["borders_origin"] = "evidence" if identity.answer else "stated"
        if identity:
            hole["borders_confidence"] = identity.confidence
        hole.update({name: part[name] for name in _AS_RECORDED if part.get(name) not in SILENT})
        axis = expected_axis(heart, part, category)
        if axis:
            hole["conduction"] = axis
        described.append(hole)
    return described


def expected_axis(heart: Heart, hole: Part, category: str | None) -> dict[str, str] | None:
    """Say where the conduction axis is expected at one hole, with the source; ``None`` if nothing lets expect it."""
    facts = Facts(
        av_connection=heart["av_connection"],
        category=category,
        geography=hole.get("geography"),
        malalignment=hole.get("malalignment"),
        posteroinferior_rim=hole.get("posteroinferior_rim"),
        tricuspid_mitral_continuity=hole.get("tricuspid_mitral_continuity"),
        aortic_tricuspid_continuity=hole.get("aortic_tricuspid_continuity"),
        straddling_tricuspid=heart["tricuspid_valve.straddling"],
    )
    row, _ = decide("conduction", facts)
    if row is None:
        return None
    return {"expected": row.value, "say": row.data["say"], "source": row.data["source"]}
