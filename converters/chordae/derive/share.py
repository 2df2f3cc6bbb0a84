"""From recorded commitments to the ventricle that holds most of a junction or root.

::

    opens_into: [{ventricle: v1, per_cent: 60}, {ventricle: v2, per_cent: 40}]     to v1, shared
    opens_into: [{ventricle: v1}]  override_per_cent: 70                           to the other one, shared
    opens_into: [{ventricle: v1, per_cent: 50}, {ventricle: v2, per_cent: 50}]     half and half: to neither
    override_per_cent: 70, its own ventricle known by rule                         to the other one, shared

More than half of the circumference decides; an exact half is balanced and is never forced. Limits are data
(``schema/criteria.yaml``, ``shares``).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache, lru_cache
from typing import Any, NamedTuple, TypeAlias

from chordae.derive.heart import part_words, words
from chordae.derive.tables import other_ventricle
from chordae.knowledge import table

__all__ = ["NOTHING", "Named", "Share", "number", "share_of"]

Named: TypeAlias = Callable[[Any], tuple[str | None, bool]]
"""From the id of a ventricle to its identity, and whether that identity rests on features."""

WHOLE = 100
_KEPT = 16384
_Commitment: TypeAlias = tuple[str, str | None, bool, float | None]
"""Id of the ventricle, its identity, whether that rests on features, per cent."""


class Share(NamedTuple):
    """Where most of a junction or root belongs.

    ``to`` is the identity of a ventricle or ``None``; ``per_cent`` maps identity to share; ``shared`` is ``None``
    where it is not recorded; ``half`` marks exact halves; ``why`` says why ``to`` is not known.
    """

    to: str | None = None
    per_cent: Mapping[str, float] | None = None
    shared: bool | None = None
    half: bool = False
    firm: bool = True
    premises: tuple[str, ...] = ()
    why: str = ""
    touched: bool = False

    @property
    def over_septum(self) -> str | None:
        """Whether it belongs to both ventricles: ``shared_equally``, ``overriding``; ``None`` if not, or not known."""
        return "shared_equally" if self.half else "overriding" if self.shared else None

    @property
    def there(self) -> str | None:
        """Whether there is one: ``absent``, ``present``; ``None`` where nothing tells."""
        if self.to == "absent":
            return "absent"
        return "present" if self.to or self.per_cent or self.shared else None

    @property
    def whose(self) -> str | None:
        """The ventricle that holds most of it, or ``both_equally``."""
        return "both_equally" if self.half else self.to


NOTHING = Share()


def share_of(
    place: str,
    commitments: Any,
    override: Any,
    overriding: Any,
    named: Named,
    own: str | None = None,
    near_half: bool = False,
) -> Share:
    """Find the ventricle that holds most of one junction or root.

    Parameters
    ----------
    place
        Id of the part, for the premises.
    commitments
        ``opens_into`` or ``arises_from`` as recorded, or ``None``.
    override
        ``override_per_cent``: share over the ventricle that is not its own, in per cent of the circumference.
    overriding
        ``present`` or ``absent`` if recorded.
    named
        Gives the identity of a ventricle by its id.
    own
        Its own ventricle by rule, used where no commitment is recorded.
    near_half
        Whether about a half counts as a half.
    """
    listed = [one for one in commitments or () if isinstance(one, Mapping)]
    if listed:
        ventricles = [one.get("ventricle") for one in listed]
        ground = tuple(
            [(str(to), *named(to), number(one.get("per_cent"))) for to, one in zip(ventricles, listed, strict=True)]
        )
        return _from_commitments(place, ground, number(override), overriding == "present", near_half)
    per_cent = number(override)
    if per_cent is None:
        return (
            Share(touched=True, shared=True, why="its shares are not recorded") if overriding == "present" else NOTHING
        )
    premise = f"{place}.override_per_cent = {per_cent:g}"
    other = other_ventricle(own)
    if own is None or other is None:
        shared = 0 < per_cent < WHOLE
        return Share(shared=shared, premises=(premise,), touched=True, firm=False, why="its own ventricle is not known")
    return _weigh(
        {own: WHOLE - per_cent, other: per_cent}, False, (premise, f"its own ventricle: {words(own)}"), near_half
    )


def number(value: Any) -> float | None:
    """Return a recorded number, ``None`` for anything else."""
    return float(value) if isinstance(value, (int, float)) and not isinstance(value, bool) else None


@lru_cache(maxsize=_KEPT)
def _from_commitments(
    place: str, listed: tuple[_Commitment, ...], override: float | None, overriding: bool, near_half: bool
) -> Share:
    found: dict[str, float | None] = {}
    firm, premises, nameless = True, [], []
    for ventricle, identity, certain, per_cent in listed:
        shown = f" {per_cent:g} %" if per_cent is not None else ""
        premises.append(f"{place} to {ventricle}{shown}" + (f" ({words(identity)})" if identity else ""))
        firm = firm and certain
        if identity is None:
            nameless.append(ventricle)
        else:
            before = found.get(identity, 0.0)
            found[identity] = None if per_cent is None or before is None else before + per_cent
    if nameless:
        return Share(
            premises=tuple(premises), touched=True, shared=len(listed) > 1,
            why=f"the identity of {' and '.join(part_words(one) for one in nameless)} is not known",
        )  # fmt: skip
    known = _complete(found, override, overriding)
    if known is None:
        why = "its shares are not recorded"
        return Share(premises=tuple(premises), touched=True, shared=True, firm=firm, why=why)
    if override is not None:
        premises.append(f"{place}.override_per_cent = {override:g}")
    return _weigh(known, firm, tuple(premises), near_half)


def _complete(found: Mapping[str, float | None], override: float | None, overriding: bool) -> dict[str, float] | None:
    """Fill in the share that follows from the others; ``None`` if one stays open."""
    known = {name: share for name, share in found.items() if share is not None}
    silent = [name for name, share in found.items() if share is None]
    if len(found) == 1 and silent:
        other = other_ventricle(silent[0])
        if override is not None and other is not None:
            return {silent[0]: WHOLE - override, other: override}
        return {silent[0]: float(WHOLE)} if not overriding else None
    if len(silent) == 1:
        return {**known, silent[0]: WHOLE - sum(known.values())}
    if silent:
        return None
    if len(known) == 1:
        name, share = next(iter(known.items()))
        other = other_ventricle(name)
        return {name: share, other: WHOLE - share} if other and share < WHOLE else known
    return known


@cache
def _limits() -> tuple[float, float, float]:
    """Return, in per cent: an exact half, how far from it still counts as about a half, and what a majority exceeds."""
    limits = table("criteria")["shares"]
    return limits["halves"]["exact"], limits["near_halves"]["within"], limits["majority"]["over"]


def _weigh(known: Mapping[str, float], firm: bool, premises: tuple[str, ...], near_half: bool) -> Share:
    half, near, majority = _limits()
    room = near if near_half else 0
    shared = sum(share > 0 for share in known.values()) > 1
    if sum(known.values()) > WHOLE:
        total = sum(known.values())
        return Share(
            per_cent=known,
            shared=shared,
            firm=firm,
            premises=premises,
            touched=True,
            why=f"the shares add up to {total:g} %",
        )
    if shared and all(abs(share - half) <= room for share in known.values()):
        why = "it is shared by halves, and a half is given to neither ventricle"
        return Share(None, known, shared, True, firm, premises, why, True)
    most = [name for name, share in known.items() if share > majority]
    why = "" if most else "no ventricle holds more than half of it"
    return Share(most[0] if most else None, known, shared, False, firm, premises, why, True)
