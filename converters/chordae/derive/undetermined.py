"""What a description leaves open, each with its reason: conclusions, the third letter of the notation, identities."""

from __future__ import annotations

from collections.abc import Mapping

from chordae import notation
from chordae.derive.conclusion import OUT, Conclusion
from chordae.derive.criteria import Identity
from chordae.derive.heart import Heart, part_words, words
from chordae.derive.identities import Identities
from chordae.derive.tables import look_up
from chordae.knowledge import table

__all__ = ["undetermined"]


def undetermined(
    steps: Mapping[str, Conclusion], identities: Identities, written: notation.Notation, heart: Heart
) -> list[dict[str, str]]:
    """Return what is not determined: ``what`` (a conclusion, a letter, an identity) and ``why``."""
    found = [
        {"what": OUT.get(name, name), "why": one.why or "nothing is recorded from which it follows"}
        for name, one in steps.items()
        if one.value is None
    ]
    if written.relation == "?":
        relation = heart["aorta_relation"]
        why = (
            f"the letters do not hold {words(relation)} with this connection" if relation
            else table("phrases")["reasons"]["one_trunk" if look_up("one_trunk", heart) else "relation_not_seen"]
        )  # fmt: skip
        found.append({"what": "notation, letter 3", "why": why})
    for one in identities.values():
        if one.confidence == "conflict" or (one.confidence == "undetermined" and (one.looked_at or not one.stated)):
            found.append({"what": f"{one.part}.identity", "why": _why(one)})
    return found


def _why(one: Identity) -> str:
    name = part_words(one.part)
    if one.confidence == "conflict":
        return f"{name}: features contradict each other ({', '.join((*one.used, *one.against))})"
    text = f"{name}: not seen {', '.join(one.unseen)}" if one.unseen else f"{name}: no deciding feature is recorded"
    return text + (f"; {'; '.join(one.would)}" if one.would else "")
