"""From the two atria to their arrangement, by the table in ``schema/combinations.yaml``.

The arrangement follows from the appendages alone: never from the spleen, the lungs, the veins or the position of the
heart. Where one atrium cannot be identified the values that stay possible are kept, so that a stated arrangement can
still be contradicted by the one that was seen.
"""

from __future__ import annotations

from chordae.conditions import Facts
from chordae.derive.conclusion import Found
from chordae.derive.heart import Heart, part_words, words
from chordae.derive.identities import Identities
from chordae.derive.tables import decide

__all__ = ["arrangement_from_atria"]

_SIDES = {"right_atrium": "right_sided", "left_atrium": "left_sided"}


def arrangement_from_atria(heart: Heart, identities: Identities) -> Found:
    """Find the atrial arrangement from the identity of the right-sided and the left-sided atrium."""
    facts, firm, touched = Facts(), True, False
    premises: list[str] = []
    missing: list[str] = []
    for name, side in _SIDES.items():
        part = heart.on_side("Atrium", side)
        identity = identities.get(part.get("id", "")) if part else None
        if identity is None:
            missing.append(f"the {words(side).replace(' ', '-')} atrium is not recorded")
            continue
        facts[name] = identity.best
        if identity.best is None:
            touched = touched or identity.looked_at
            missing.append(_open(identity.part, identity.confidence, identity.unseen, identity.would))
        else:
            touched = touched or identity.answer is not None
            firm = firm and identity.answer is not None
            how = identity.confidence if identity.answer else "named by the observer"
            premises.append(f"{identity.part} = {identity.best} ({how})")
    row, possible = decide("arrangement", facts)
    if row is not None:
        return Found(row.value, firm, tuple(premises), possible, touched=True, source=row.data["source"])
    known = possible if facts else ()
    return Found(None, firm, tuple(premises), known, "; ".join(missing), touched)


def _open(part: str, confidence: str, unseen: tuple[str, ...], would: tuple[str, ...]) -> str:
    if confidence == "conflict":
        return f"{part_words(part)}: the features contradict each other"
    text = f"{part_words(part)}: " + ", ".join(unseen or ("nothing that decides",))
    return text + (f"; {'; '.join(would[:2])}" if would else "")
