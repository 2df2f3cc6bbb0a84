"""From the arterial trunks to the type of ventriculoarterial connection, by shares and the table in the data.

::

    identity of each trunk (branches)  --+
    share of each root (arises_from) ----+--> concordant, discordant, double outlet, four single outlets
    atretic trunk: cord to a ventricle --+

Decisions:

* A root goes to the ventricle with more than half of it. Both roots shared by halves are the double outlet of both
  ventricles; about a half counts only where the outlet septum crosses the crest at a right angle. One root shared by
  halves leaves the connection open.
* ``override_per_cent`` is the share over the ventricle that is not its own: of an aorta the left ventricle, of a
  pulmonary trunk the right one; in a connection stated as discordant the other way round. In a stated double outlet
  less than a half may be counted from either ventricle, and decides nothing.
* A root on which nothing is recorded is taken from the stated connection where the other root agrees with it, or is
  shared by both ventricles (then more than half may change the type). A root that lies wholly over another ventricle
  than was stated refutes the statement, and nothing is taken from it.
* An atretic trunk that can be followed to a ventricle keeps its connection; one that cannot is a single outlet; one
  of which this is not recorded leaves both open.
* The relation of the trunks, their spiral, the infundibulum and fibrous continuity are never looked at.
"""

from __future__ import annotations

from functools import cache

from chordae.conditions import Condition, Facts, compile_when, verdict
from chordae.derive.conclusion import Found
from chordae.derive.criteria import Identity
from chordae.derive.heart import Heart, Part, part_words, words
from chordae.derive.identities import Identities
from chordae.derive.share import NOTHING, Share, share_of
from chordae.derive.tables import decide, look_up, rows
from chordae.knowledge import table

__all__ = ["Outlets"]

_TRUNKS = {"aorta_from": "aorta", "pulmonary_from": "pulmonary_trunk"}
_ONE = ("common_arterial_trunk", "solitary_arterial_trunk")
_ONLY = {"single_outlet_pulmonary_atresia": "aorta_from", "single_outlet_aortic_atresia": "pulmonary_from"}
_OUTFLOWS = {"aorta": "aortic_outflow", "pulmonary_trunk": "pulmonary_outflow"}


@cache
def _near_halves() -> tuple[Condition, ...]:
    return compile_when(table("criteria")["shares"]["near_halves"]["when"])


class Outlets:
    """The trunks of one heart: :attr:`found` is the connection, :attr:`shares` the share of each root."""

    def __init__(self, heart: Heart, identities: Identities, stated: str | None) -> None:
        self.heart = heart
        self.identities = identities
        self.stated = stated
        self.near_half = verdict(_near_halves(), heart) is True
        self.shares = {name: self._root(name, trunk) for name, trunk in _TRUNKS.items()}
        heart["aortic_root"] = self.shares["aorta_from"].over_septum
        heart["pulmonary_root"] = self.shares["pulmonary_from"].over_septum
        self.found = self._find()

    def outlet_from(self, connection: str | None) -> str | None:
        """Return the ventricle from which the only trunk arises mostly, ``both_equally`` for halves."""
        if connection in _ONLY:
            return self.shares[_ONLY[connection]].whose
        part = next((self.heart.roles[name] for name in _ONE if name in self.heart.roles), None)
        if part is None:
            return None
        arises, overriding = part.get("arises_from"), part.get("overriding")
        return share_of(str(part.get("id")), arises, None, overriding, self.identities.best).whose

    def _root(self, name: str, trunk: str) -> Share:
        heart = self.heart
        part = heart.roles.get(trunk)
        if part is None or part.get("state") == "absent":
            return NOTHING
        identity = self.identities.get(part.get("id", ""))
        commitments = part.get("arises_from") or self._by_outflow(trunk)
        if part.get("trunk_calibre") == "atretic":
            cord = part.get("cord_to_ventricle")
            if cord == "absent":
                ground = f"{part.get('id', trunk)} atretic, no cord to a ventricle"
                return Share("not_connected", premises=(ground,), touched=True)
            if cord != "present" and not commitments:
                why = "it is atretic, and whether it can be followed to a ventricle is not recorded"
                return Share(why=why, touched=True)
        told = Facts(va_connection=self.stated, override_per_cent=part.get("override_per_cent"))
        own = look_up(f"own_ventricle.{name}", told)
        found = share_of(
            str(part.get("id")), commitments, part.get("override_per_cent"), part.get("overriding"),
            self.identities.best, own, self.near_half,
        )  # fmt: skip
        named = identity is not None and identity.answer is not None
        if found is NOTHING or named:
            return found
        return found._replace(firm=False)

    def _by_outflow(self, trunk: str) -> list[dict[str, object]]:
        tract: Part = self.heart.roles.get(_OUTFLOWS[trunk], {})
        return [{"ventricle": tract["ventricle"]}] if tract.get("ventricle") else []

    def _find(self) -> Found:
        facts = Facts()
        trunks = list(self.identities.of_kind("arterial_trunk"))
        alone = sorted((one for one in trunks if one.best in _ONE), key=lambda one: _ONE.index(str(one.best)))
        if alone:
            one = alone[0]
            firm = one.answer is not None
            facts["trunk"] = one.best
            premises = tuple(f"{one.part}.{text}" for text in one.used) or (f"{one.part} = {one.best} (stated)",)
            row, _ = decide("va_connection", facts)
            if row is not None:
                return Found(row.value, firm, premises, (row.value,), touched=True, source=row.data["source"])
        unknown = [one for one in trunks if one.best is None]
        touched = bool(unknown) or any(share.touched for share in self.shares.values())
        firm, grounds, filled = True, [], []
        for name, share in self.shares.items():
            to = "both_equally" if share.half else share.to
            if to is None and touched and share is NOTHING and self.stated:
                to = self._by_statement(name)
                firm = False
                if to:
                    filled.append(name)
                    grounds.append(f"va_connection = {self.stated} (stated)")
            facts[name] = to
            firm = firm and share.firm
            grounds.extend(share.premises)
        row, _ = decide("va_connection", facts)
        halves = tuple(_TRUNKS[name] for name, share in self.shares.items() if share.half)
        known = tuple(text for text in grounds if text)
        if filled and (row is None or row.value != self.stated) and not any(one.shared for one in self.shares.values()):
            for name in filled:
                facts[name] = None
            row, known = None, tuple(text for share in self.shares.values() for text in share.premises)
        if row is not None:
            return Found(row.value, firm, known, (row.value,), touched=True, halves=halves, source=row.data["source"])
        for name, share in self.shares.items():
            facts[name] = None if share.half else facts[name]
        _, possible = decide("va_connection", facts)
        return Found(None, firm, known, possible if touched else (), self._why(unknown), touched, halves)

    def _by_statement(self, name: str) -> str | None:
        for row in rows("va_connection"):
            if row.value == self.stated:
                for fact, _, values in row.when:
                    if fact == name and len(values) == 1:
                        return str(next(iter(values)))
        return None

    def _why(self, unknown: list[Identity]) -> str:
        reasons = [f"{part_words(one.part)}: its identity is not known" for one in unknown]
        for name, trunk in _TRUNKS.items():
            share = self.shares[name]
            part = self.heart.roles.get(trunk)
            if share.to is not None:
                continue
            if part is None:
                reasons.append(f"no trunk was identified as the {words(trunk)}")
            else:
                reasons.append(f"{part_words(str(part.get('id')))}: {share.why or 'its origin is not recorded'}")
        return "; ".join(reasons)
