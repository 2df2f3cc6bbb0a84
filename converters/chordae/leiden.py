"""Coronary origins in the Leiden convention: from a code to its origins and back; numbering of sinuses from both views.

::

    "1R-2LCx"  -- parse -->  Code(1: R; 2: L, Cx)  -- format -->  "1R-2LCx"

    sinus 1   at the right hand of one who stands in the non-facing sinus and looks to the pulmonary valve
    sinus 2   at the left hand
    R, RCA    right coronary artery        L, LAD   anterior interventricular artery
    LCA       L and Cx together            Cx       circumflex artery

The surgical view looks down on the valve and goes round counter-clockwise; the imaging view looks up at it, so that
the picture is reversed, and goes round clockwise. Both give the same code (:func:`number_sinuses`). A further sinus
has no number: an origin from the sinus that faces away is written ``non-facing``.

Sources: LEI18, LEI22 (abstracts read); AY24 for codes printed without a hyphen.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, TypeAlias

from chordae.issues import Issue, Location, issue, shown

__all__ = ["ARTERIES", "Code", "Origin", "View", "format", "from_origins", "number_sinuses", "parse", "read"]

View: TypeAlias = Literal["surgical", "imaging"]

ARTERIES = ("R", "L", "Cx")
"""The three arteries that a code accounts for, in the order of writing."""

_SINUS = {"1": "sinus_1", "2": "sinus_2", "non-facing": "non_facing_sinus"}
_MEANS = {"R": ("R",), "RCA": ("R",), "L": ("L",), "LAD": ("L",), "CX": ("Cx",), "LCX": ("L", "Cx"), "LCA": ("L", "Cx")}
_GROUP = re.compile(
    r"\s*[-,;: ]?\s*(?P<sinus>non-facing|[0-9])\s*:?\s*(?P<arteries>(?:RCA|LCA|LAD|Cx|R|L|[ +])+)", re.I
)
_ARTERY = re.compile(r"RCA|LCA|LAD|Cx|R|L", re.I)
_TURN = 360.0


@dataclass(frozen=True, slots=True)
class Origin:
    """The arteries that arise from one sinus, each one of :data:`ARTERIES`."""

    sinus: str
    arteries: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Code:
    """The origins of one heart, in the order written."""

    origins: tuple[Origin, ...]

    def arteries(self) -> tuple[str, ...]:
        """Return every artery as often as it is named."""
        return tuple(artery for one in self.origins for artery in one.arteries)

    def sinus_of(self, artery: str) -> str | None:
        """Return where an artery arises, as a value of the schema; ``None`` if the code does not say."""
        return next((_SINUS[one.sinus] for one in self.origins if artery in one.arteries), None)


def parse(text: str, *, record: str | None = None, location: Location | None = None) -> tuple[Code | None, list[Issue]]:
    """Read a code.

    Returns
    -------
    tuple
        The code, or ``None`` if the text is no code; and the issues: another spelling, an artery named twice, an
        artery not accounted for.

    Examples
    --------
    >>> parse("1LRCA2Cx")[0]
    Code(origins=(Origin(sinus='1', arteries=('R', 'L')), Origin(sinus='2', arteries=('Cx',))))
    """
    path, value = "/parts/coronary_arteries/leiden_code", shown(text)
    code = read(text)
    if code is None:
        return None, [issue("I-COR-01", path=path, value=value, record=record, location=location)]
    issues: list[Issue] = []
    named = code.arteries()
    if format(code) != _stripped(text):
        issues.append(issue("I-COR-02", path=path, value=value, written=format(code), record=record, location=location))
    twice = sorted({one for one in named if named.count(one) > 1})
    if twice:
        names = ", ".join(twice)
        issues.append(issue("I-COR-03", path=path, value=value, arteries=names, record=record, location=location))
    missing = [one for one in ARTERIES if one not in named]
    if missing:
        names = ", ".join(missing)
        issues.append(issue("I-COR-04", path=path, value=value, arteries=names, record=record, location=location))
    return code, issues


@lru_cache(maxsize=4096)
def read(text: str) -> Code | None:
    """Read a code without its issues; ``None`` if the text is no code."""
    origins: dict[str, list[str]] = {}
    position, stripped = 0, _stripped(text)
    while position < len(stripped):
        match = _GROUP.match(stripped, position)
        if match is None or match["sinus"].lower() not in _SINUS:
            return None
        found = [artery for token in _ARTERY.findall(match["arteries"]) for artery in _MEANS[token.upper()]]
        origins.setdefault(match["sinus"].lower(), []).extend(found)
        position = match.end()
    return Code(tuple(Origin(sinus, _sorted(arteries)) for sinus, arteries in origins.items())) if origins else None


def _stripped(text: str) -> str:
    return text.strip().strip("()")


def format(code: Code) -> str:
    """Write a code with a hyphen between the sinuses.

    Examples
    --------
    >>> format(Code((Origin("1", ("L", "Cx")), Origin("2", ("R",)))))
    '1LCx-2R'
    """
    return "-".join(one.sinus + (" " if len(one.sinus) > 1 else "") + "".join(one.arteries) for one in code.origins)


def from_origins(origins: Mapping[str, str | None]) -> Code | None:
    """Make a code of where each artery arises.

    Parameters
    ----------
    origins
        ``R``, ``L``, ``Cx`` to a value of the schema (``sinus_1``, ``sinus_2``, ``non_facing_sinus``); an artery that
        arises elsewhere, or of which nothing is recorded, is left out.

    Examples
    --------
    >>> format(from_origins({"R": "sinus_1", "L": "sinus_2", "Cx": "sinus_2"}))
    '1R-2LCx'
    """
    return _from_origins(tuple(origins.get(one) for one in ARTERIES))


@lru_cache(maxsize=4096)
def _from_origins(values: tuple[str | None, ...]) -> Code | None:
    arises = list(zip(ARTERIES, values, strict=True))
    groups = [Origin(sinus, tuple(one for one, at in arises if at == value)) for sinus, value in _SINUS.items()]
    found = tuple(one for one in groups if one.arteries)
    return Code(found) if found else None


def number_sinuses(sinuses: Mapping[str, float], pulmonary: float, view: View) -> dict[str, str]:
    """Number the sinuses of an aortic valve seen in a picture.

    Parameters
    ----------
    sinuses
        Name of each of three sinuses to the direction of its middle from the centre of the valve, in degrees
        counter-clockwise in the picture.
    pulmonary
        Direction of the pulmonary valve in the same picture, in degrees.
    view
        ``surgical``: the picture looks down on the valve. ``imaging``: it looks up at it from the ventricle.

    Returns
    -------
    dict
        Name of each sinus to ``1``, ``2`` or ``non-facing``.

    Raises
    ------
    ValueError
        There are not three sinuses.

    Examples
    --------
    >>> number_sinuses({"right": 90, "left": 210, "non": 330}, 150, "surgical")
    {'right': '1', 'left': '2', 'non': 'non-facing'}
    >>> number_sinuses({"right": 90, "left": 330, "non": 210}, 30, "imaging")
    {'right': '1', 'left': '2', 'non': 'non-facing'}
    """
    if len(sinuses) != len(ARTERIES):
        raise ValueError(f"three sinuses are numbered, {len(sinuses)} were given")
    turn = 1.0 if view == "surgical" else -1.0
    angle = {name: (turn * (direction - pulmonary)) % _TURN for name, direction in sinuses.items()}
    away = max(angle, key=lambda name: min(angle[name], _TURN - angle[name]))
    # Seen from above and looking along the way to the pulmonary valve, the right hand is on the clockwise side.
    facing = sorted((name for name in sinuses if name != away), key=lambda name: angle[name])
    numbers = {away: "non-facing", facing[0]: "2", facing[-1]: "1"}
    return {name: numbers[name] for name in sinuses}


def _sorted(arteries: list[str]) -> tuple[str, ...]:
    return tuple(sorted(arteries, key=ARTERIES.index))
