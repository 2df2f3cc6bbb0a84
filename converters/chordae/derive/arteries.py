"""From coronary orifices and the arch to the coronary code, the branching of the arch and the type of interruption."""

from __future__ import annotations

from typing import Any

from chordae import leiden
from chordae.conditions import SILENT, Facts
from chordae.derive.heart import Heart
from chordae.derive.identities import Identities
from chordae.derive.tables import look_up

__all__ = ["compare_arteries", "describe_arch", "describe_coronaries"]

_FACTS = {"R": "right_coronary_sinus", "L": "left_coronary_sinus"}
_ORIGINS = {"R": "right_coronary_origin", "L": "left_coronary_origin", "Cx": "circumflex_origin"}


def describe_coronaries(heart: Heart) -> dict[str, Any] | None:
    """Describe the coronary arteries.

    Returns
    -------
    dict or None
        ``code`` in the Leiden convention with ``origin`` (``stated`` where the observer gave the code, ``evidence``
        where it was made of recorded orifices), ``view``, ``usual_for`` (the connection with which this code is the
        usual one), ``agrees`` (code against recorded orifices, where both were given).
    """
    part = heart.roles.get("coronary_arteries")
    if part is None:
        return None
    by_orifice = {artery: part.get(name) for artery, name in _ORIGINS.items() if part.get(name) not in SILENT}
    made = leiden.from_origins(by_orifice)
    text = part.get("leiden_code")
    given = leiden.read(text) if isinstance(text, str) else None
    code = made if made and len(by_orifice) == len(_ORIGINS) else given or made
    if code is None:
        return None
    for artery, name in _FACTS.items():
        heart[name] = code.sinus_of(artery)
    found: dict[str, Any] = {"code": leiden.format(code), "origin": "stated" if code is given else "evidence"}
    if part.get("viewing_convention"):
        found["view"] = part["viewing_convention"]
    usual = look_up("coronary_usual", Facts(va_connection=heart["va_connection"], leiden=found["code"]))
    if usual:
        found["pattern"] = usual
    if given and by_orifice:
        found["agrees"] = all(given.sinus_of(artery) == origin for artery, origin in by_orifice.items())
    return found


def compare_arteries(
    heart: Heart, arch: dict[str, Any] | None, coronary: dict[str, Any] | None
) -> list[dict[str, Any]]:
    """Compare the stated type of interruption and the stated coronary code with what was recorded."""
    compared = []
    stated = heart["aortic_arch.stated_interruption_type"]
    if stated not in SILENT:
        seen = arch["interruption_type"] if arch and arch.get("interruption_origin") == "evidence" else None
        row = {"what": "aortic_arch.interruption", "stated": stated, "derived": seen}
        if seen is None:
            row.update(verdict="cannot_be_judged", because="where the arch is interrupted is not recorded")
        else:
            row["verdict"] = "agrees" if seen == stated else "contradicts"
            if seen != stated:
                row["because"] = f"interruption = {heart['aortic_arch.interruption']}"
        compared.append(row)
    if coronary and "agrees" in coronary:
        made = leiden.from_origins({artery: heart[f"coronary_arteries.{name}"] for artery, name in _ORIGINS.items()})
        row = {"what": "coronary_arteries.leiden_code", "stated": heart["coronary_arteries.leiden_code"]}
        row["derived"] = leiden.format(made) if made else None
        row["verdict"] = "agrees" if coronary["agrees"] else "contradicts"
        compared.append(row)
    return compared


def describe_arch(heart: Heart, identities: Identities) -> dict[str, Any] | None:
    """Describe the arch.

    Returns
    -------
    dict or None
        ``side`` with ``side_origin`` (evidence or stated), ``branching``, ``interruption_type``; a key is missing where
        nothing gives it.
    """
    part = heart.roles.get("aortic_arch")
    identity = next(identities.of_kind("arch"), None)
    if part is None or identity is None:
        return None
    found: dict[str, Any] = {}
    if identity.best:
        found["side"] = identity.best
        found["side_origin"] = "evidence" if identity.answer else "stated"
        heart["arch_side"] = identity.best
    branches = part.get("arch_branches")
    if isinstance(branches, list) and branches:
        facts = Facts(branches=" ".join(str(one) for one in branches))
        if branching := look_up("branching", facts):
            found["branching"] = heart["arch_branching"] = branching
    if interruption := look_up("interruption", Facts(interruption=part.get("interruption"))):
        found["interruption_type"] = interruption
        found["interruption_origin"] = "evidence"
    elif part.get("stated_interruption_type") not in SILENT:
        found["interruption_type"] = part["stated_interruption_type"]
        found["interruption_origin"] = "stated"
    heart["interruption_type"] = found.get("interruption_type")
    return found
