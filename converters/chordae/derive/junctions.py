"""From the atrioventricular junctions to the type of connection, by shares and the tables in the data.

::

    junction (or valve) of each side --> the ventricle that holds most of it --+
    atrial arrangement -------------------------------------------------------+--> concordant, double inlet, ...
    common junction: share over the left ventricle ---------------------------+

Decisions:

* A junction goes to the ventricle with more than half of its circumference; an exact half goes to neither, the
  connection stays open, and a stated one stands.
* A side on which nothing is recorded is taken from the stated connection only where the other side was recorded and
  agrees with it, or is shared by both ventricles; the result is then *inferred*. Silence is never a normal junction.
* One junction absent and the other shared by both ventricles (or its valve straddling) is uniatrial but biventricular.
* Criss-cross, superoinferior or any other relation of the ventricles is never looked at.
* The valve of a side stands for its junction where only the valve was described.
"""

from __future__ import annotations

from chordae.conditions import SILENT, Facts
from chordae.derive.conclusion import Found
from chordae.derive.heart import Heart, Part, words
from chordae.derive.identities import Identities
from chordae.derive.share import NOTHING, Share, number, share_of
from chordae.derive.tables import decide, look_up, rows
from chordae.knowledge import table

__all__ = ["Junctions"]

_SIDES = {"right_to": "right_sided", "left_to": "left_sided"}
_JUNCTIONS = {"right_to": "right_junction", "left_to": "left_junction"}
_THERE = {"right_to": "right_there", "left_to": "left_there"}
_SHARED = {"right_to": "right_shared", "left_to": "left_shared"}


class Junctions:
    """The junctions of one heart: :attr:`found` is the connection, :attr:`opens_into` the ventricle by side."""

    def __init__(self, heart: Heart, identities: Identities, stated: str | None) -> None:
        self.heart = heart
        self.identities = identities
        self.stated = stated
        self.opens_into: dict[str, str | None] = {}
        self.absent: set[str] = set()
        heart["junction_pattern"] = self._pattern()
        self.shares = {name: self._side(name, side) for name, side in _SIDES.items()}
        self.found = self._find()

    def _pattern(self) -> str | None:
        recorded = self.heart["atrioventricular_junctions.junction_pattern"]
        if recorded in SILENT and self.heart.on_side("AtrioventricularJunction", "common"):
            return "common"
        return None if recorded in SILENT else str(recorded)

    def _side(self, name: str, side: str) -> Share:
        heart = self.heart
        junction = heart.on_side("AtrioventricularJunction", side)
        if junction is not None and junction.get("state") == "absent":
            self.absent.add(name)
            return Share("absent", premises=(f"{junction.get('id', side)} absent",), touched=True)
        valve: Part = {}
        for one in heart.of_type("AtrioventricularValve"):
            if self._guards(one, junction, side):
                valve = one
                break
        override, overriding = (
            junction[name] if junction and name in junction else valve.get(name)
            for name in ("override_per_cent", "overriding")
        )
        place = str((junction or valve).get("id", side))
        own = look_up(f"own_ventricle.{name}", self._known()) if override is not None else None
        commitments = junction.get("opens_into") if junction else None
        share = share_of(place, commitments, override, overriding, self.identities.best, own)
        heart[_JUNCTIONS[name]] = share.over_septum
        if valve.get("straddling") == "present":
            grounds = (*share.premises, f"{valve.get('id', side)} straddles")
            share = share._replace(shared=True, premises=grounds, touched=True)
        if junction is not None and junction.get("state") in ("not_assessable", "not_examined"):
            why = f"it is {words(str(junction['state']))}"
            share = Share(why=why, touched=True)
        self.opens_into[side] = share.to
        return share

    def _guards(self, valve: Part, junction: Part | None, side: str) -> bool:
        named = valve.get("junction")
        return named == junction.get("id") if named and junction else valve.get("side") == side

    def _known(self) -> Facts:
        heart = self.heart
        names = ("atrial_arrangement", "topology")
        return Facts({name: heart[name] for name in names}, av_connection=self.stated)

    def _find(self) -> Found:
        common = self._common()
        if common is not None:
            return common
        touched = any(one.touched for one in self.shares.values())
        facts = Facts(atrial_arrangement=self.heart["atrial_arrangement"])
        firm = self.heart["atrial_arrangement_firm"] is not False
        premises: list[str] = []
        filled: list[str] = []
        for name, share in self.shares.items():
            to = share.to
            if to is None and touched and share is NOTHING:
                to = self._by_statement(name)
                firm = False
                if to:
                    filled.append(name)
                    premises.append(f"av_connection = {self.stated} (stated)")
            facts[name], facts[_SHARED[name]] = to, self._shared(share, to)
            facts[_THERE[name]] = "absent" if to == "absent" else share.there
            self.heart[name] = to
            firm = firm and share.firm
            premises.extend(share.premises)
        if self.heart["atrial_arrangement"]:
            premises.append(f"atrial_arrangement = {self.heart['atrial_arrangement']}")
        row, possible = decide("av_connection", facts)
        halves = tuple(f"{_SIDES[name]}_junction" for name, share in self.shares.items() if share.half)
        grounds = tuple(premises)
        if filled and (row is None or row.value != self.stated) and not any(one.shared for one in self.shares.values()):
            for name in filled:
                facts[name] = facts[_SHARED[name]] = facts[_THERE[name]] = None
            row, possible = decide("av_connection", facts)
            grounds = tuple(one for one in premises if not one.endswith("(stated)"))
        if row is not None:
            return Found(row.value, firm, grounds, possible, touched=True, halves=halves, source=row.data["source"])
        why = self._why(facts)
        return Found(None, firm, grounds, possible if touched else (), why, touched, halves)

    def _shared(self, share: Share, to: str | None) -> bool | None:
        return share.shared if share.shared is not None or to in (None, "absent") else False

    def _by_statement(self, name: str) -> str | None:
        if not self.stated:
            return None
        known = self._known()
        answers = {
            value
            for row in rows("av_connection")
            if row.value == self.stated
            for fact, _, values in row.when
            if fact == name
            for value in values
        }
        if len(answers) == 1:
            return str(answers.pop())
        return look_up(f"own_ventricle.{name}", known)

    def _common(self) -> Found | None:
        heart = self.heart
        if heart["junction_pattern"] != "common" or any(one.to for one in self.shares.values()):
            return None
        part = heart.on_side("AtrioventricularJunction", "common")
        premises = ["junction_pattern = common"]
        firm = heart["atrial_arrangement_firm"] is not False
        left = number(heart["atrioventricular_junctions.per_cent_to_left_ventricle"])
        if left is not None:
            premises.append(f"atrioventricular_junctions.per_cent_to_left_ventricle = {left:g}")
        elif part is not None:
            share = share_of(
                str(part.get("id")), part.get("opens_into"), None, part.get("overriding"), self.identities.best
            )
            if share.to == "solitary_indeterminate_ventricle":
                return Found("double_inlet_solitary", share.firm, share.premises, touched=True, source="APC")
            left = (share.per_cent or {}).get("morphologically_left_ventricle")
            if left is None and share.per_cent:
                left = 100 - share.per_cent.get("morphologically_right_ventricle", 0)
            firm = firm and share.firm
            premises.extend(share.premises)
        facts = Facts(self._known(), left_share=left)
        row, possible = decide("common_junction", facts)
        premises += [f"{name} = {facts[name]}" for name in ("atrial_arrangement", "topology") if facts[name]]
        if row is not None:
            firm = firm and "topology" not in {name for name, _, _ in row.when}
            return Found(row.value, firm, tuple(premises), possible, touched=True, source=row.data["source"])
        why = (
            "how the common junction is shared between the ventricles is not recorded"
            if left is None
            else self._why(facts)
        )
        return Found(None, firm, tuple(premises), possible, why, True)

    def _why(self, facts: Facts) -> str:
        if all(share.to == "absent" for share in self.shares.values()):
            return str(table("phrases")["reasons"]["both_absent"])
        reasons = [
            f"{words(side).replace(' ', '-')} junction: {share.why or 'not recorded'}"
            for (name, side), share in zip(_SIDES.items(), self.shares.values(), strict=True)
            if share.to is None and "left_share" not in facts
        ]
        if not facts["atrial_arrangement"]:
            reasons.append("the atrial arrangement is not known")
        if "left_share" in facts and not facts["topology"]:
            reasons.append("the ventricular topology is not known")
        return "; ".join(reasons)
