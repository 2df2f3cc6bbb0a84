"""One conclusion on a heart: its value, where it comes from, what it rests on, or why there is none.

::

    origin     evidence   follows from recorded features and shares alone
               inferred   follows by a table from other conclusions, or from shares whose chambers were only named
               stated     taken over from the observer, because nothing else gives it

    value      evidence, else inferred from recorded shares, else stated, else expected from other conclusions

A stated value is never turned into evidence, and one that the recorded features exclude does not stand; a recorded
share outranks a stated conclusion, because the rule of half of the circumference is a rule on shares.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, NamedTuple, TypeAlias

from chordae.conditions import SILENT

__all__ = ["OUT", "Conclusion", "Found", "Origin", "stated_value"]

OUT = {"atrial_arrangement": "arrangement"}
"""Names under which conclusions are given out, where they differ."""

Origin: TypeAlias = Literal["evidence", "inferred", "stated"]


class Found(NamedTuple):
    """What recorded features give: a value with its premises, or the values that stay possible and the reason.

    ``firm`` is false where a chamber or trunk was only named by the observer. ``touched`` says that something was
    recorded, even if it decides nothing. ``halves`` names junctions or roots that are shared exactly by halves.
    """

    value: str | None = None
    firm: bool = True
    premises: tuple[str, ...] = ()
    possible: tuple[str, ...] = ()
    why: str = ""
    touched: bool = False
    halves: tuple[str, ...] = ()
    source: str = ""

    def excludes(self, stated: str) -> bool:
        """Whether what was recorded leaves only other values open."""
        return self.value is None and self.touched and bool(self.possible) and stated not in self.possible


class Conclusion(NamedTuple):
    """A conclusion as it is given out."""

    name: str
    value: str | None
    origin: Origin | None
    premises: tuple[str, ...]
    why: str
    found: Found
    stated: str | None
    expected: str | None = None
    expected_premises: tuple[str, ...] = ()

    @classmethod
    def resolve(
        cls,
        name: str,
        found: Found,
        stated: str | None,
        stated_premise: str,
        expected: tuple[str, tuple[str, ...]] | None = None,
    ) -> Conclusion:
        """Choose between what was found, what was stated and what other conclusions let expect."""
        wanted, reasons = expected if expected else (None, ())
        if found.value is not None:
            origin: Origin = "evidence" if found.firm else "inferred"
            return cls(name, found.value, origin, found.premises, "", found, stated, wanted, reasons)
        if stated is not None and found.excludes(stated):
            why = f"what was stated is excluded by what was recorded: {'; '.join(found.premises)}"
            return cls(name, None, None, (), why, found, stated, wanted, reasons)
        if stated is not None:
            return cls(name, stated, "stated", (stated_premise,), "", found, stated, wanted, reasons)
        if wanted is not None and not found.touched:
            return cls(name, wanted, "inferred", reasons, "", found, None, wanted, reasons)
        return cls(name, None, None, (), found.why, found, None, wanted, reasons)


def stated_value(stated: Mapping[str, Any], name: str) -> str | None:
    """Return what the observer stated, without the states that say nothing of the heart."""
    value = stated.get(name)
    return value if isinstance(value, str) and value not in SILENT else None
