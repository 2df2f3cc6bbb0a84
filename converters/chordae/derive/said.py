"""What the observer stated of the conclusions: in so many words, by notation, or by a label of the heart.

::

    stated.va_connection: discordant         by word
    stated.notation: TGA {S,D,L}             by its letters and prefix, where no word says it
    stated.diagnoses: [congenitally corrected transposition]   what it is by definition, where nothing else says it
    stated.statement: D-transposition        only the place of the aortic valve (schema/phrases.yaml, labels)
"""

from __future__ import annotations

from typing import Any

from chordae import notation
from chordae.conditions import SILENT
from chordae.derive.conclusion import stated_value
from chordae.derive.diagnoses import ancestors, defined_by
from chordae.derive.heart import Heart
from chordae.knowledge import table

__all__ = ["NAMES", "Said"]

NAMES = ("atrial_arrangement", "topology", "av_connection", "va_connection")
"""Conclusions that may be stated."""


class Said:
    """What was stated: ``values`` by name, ``by`` the premise of each, ``relation`` of the trunks and its origin.

    ``named`` holds, by conclusion, the malformation that was named and says it by definition.
    """

    def __init__(self, heart: Heart) -> None:
        self.heart = heart
        self.by: dict[str, str] = {}
        self.named: dict[str, str] = {}
        self.letter_1: str | None = None
        self.values = {name: stated_value(heart.stated, name) for name in NAMES}
        self.by.update({name: f"stated.{name} = {value}" for name, value in self.values.items() if value})
        text = heart.stated.get("notation")
        self.notation = notation.read(text) if isinstance(text, str) else None
        relation = heart["great_arteries.aorta_relation"]
        self.relation = None if relation in SILENT else relation
        self.relation_origin = "evidence" if self.relation else None
        if self.notation is not None:
            self._read_notation(self.notation)
        self._read_malformations()
        if self.relation is None:
            self._read_labels()
        heart["aorta_relation"] = self.relation
        if self.relation_origin:
            heart.origins["aorta_relation"] = self.relation_origin

    def _read_notation(self, written: notation.Notation) -> None:
        meaning = notation.read_conclusions(written)
        for name in NAMES:
            if self.values[name] is None and name in meaning.said:
                self.values[name] = meaning.said[name]
                self.by[name] = f"stated.notation = {notation.format(written)}"
        if self.values["atrial_arrangement"] is None and "atrial_arrangement" in meaning.one_of:
            self.letter_1 = written.arrangement
            self.heart["isomerism"] = True
        if self.relation is None and "aorta_relation" in meaning.said:
            self.relation, self.relation_origin = meaning.said["aorta_relation"], "stated"

    def _read_malformations(self) -> None:
        """Take what the malformations that were named say of the connections by definition, where all agree."""
        named = self.heart.stated.get("diagnoses")
        meant: dict[str, dict[str, str]] = {}
        for term in [one for one in named if isinstance(one, str)] if isinstance(named, list) else ():
            meaning = defined_by(term, {name: value for name, value in self.values.items() if value})
            for name, value in meaning.items():
                meant.setdefault(name, {})[value] = term
        for name, values in meant.items():
            if self.values[name] is None and len(values) == 1:
                ((value, term),) = values.items()
                self.values[name], self.by[name] = value, f"stated.diagnoses = {term}"
                self.named[name] = term

    def _read_labels(self) -> None:
        stated = self.heart.stated
        named = stated.get("diagnoses")
        texts = [stated.get("statement"), *(named if isinstance(named, list) else ())]
        texts += [one.get("text") for one in self.heart.remarks]
        lowered = [one.casefold() for one in texts if isinstance(one, str)]
        for label in table("phrases")["labels"] if lowered else ():
            if any(word in text for word in label["says"] for text in lowered):
                self.relation, self.relation_origin = label["means"]["aorta_relation"], "stated"
                self.by["aorta_relation"] = label["why"]

    @property
    def phenotype(self) -> str | None:
        """What a stated malformation says of the trunks as a whole, where the notation knows it."""
        named = self.heart.stated.get("diagnoses")
        for term in [one for one in named if isinstance(one, str)] if isinstance(named, list) else ():
            for phenotype, terms in table("notation")["phenotypes"].items():
                if term in terms or not ancestors(term).isdisjoint(terms):
                    return str(phenotype)
        return None

    def compare_notation(self, written: notation.Notation) -> list[dict[str, Any]]:
        """Compare the notation stated with the one that was written."""
        if self.notation is None:
            return []
        stated, derived = notation.format(self.notation), notation.format(written)
        row = {"what": "notation", "stated": stated, "derived": derived}
        pairs = list(zip(self.notation.letters, written.letters, strict=True))
        if self.notation.letters == written.letters and self.notation.prefix == written.prefix:
            row["verdict"] = "agrees"
        elif any("?" not in pair and pair[0] != pair[1] for pair in pairs) or (
            self.notation.prefix and written.prefix and self.notation.prefix != written.prefix
        ):
            row["verdict"] = "contradicts"
        else:
            row["verdict"] = "more_specific" if any(two == "?" for _, two in pairs) else "less_specific"
        return [row]
