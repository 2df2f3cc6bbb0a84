"""From a word to the targets that have it as a name: exactly, normalised, by abbreviation, or by another name.

::

    exact        same letters but for case          "Right Aortic Arch"      "right aortic arch"
    normalised   same words but for order, ...      "arches, aortic right"   "right aortic arch"
    abbreviation a short form of one school         "AIVA"                   "anterior interventricular artery"
    other name   the vocabulary has both as names   "LAD"                    "AIVA" among the names of an ontology

An abbreviation of several meanings gives a question, not a target.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, TypeAlias

from chordae import friends
from chordae.friends import FalseFriend, Meaning
from chordae.match.opposites import clash_of_words
from chordae.match.own import Rephrasing
from chordae.match.targets import Index, Name
from chordae.match.words import all_words, key

__all__ = ["STAGES", "SURE", "Stage", "Staged", "cautions_about", "named", "questions_about"]

Stage = Literal["exact", "normalised", "abbreviation", "other name", "near"]
STAGES: tuple[Stage, ...] = ("exact", "normalised", "abbreviation", "other name", "near")
"""Stages, most certain first."""
SURE: tuple[Stage, ...] = ("exact", "normalised")
"""Stages of which an answer with one target may be taken without asking."""

Staged: TypeAlias = Mapping[int, tuple[Stage, str]]
"""Position of a target -> the stage at which it was found, and why."""


def named(index: Index, word: str, others: Sequence[Rephrasing]) -> dict[int, tuple[Stage, str]]:
    """Find the targets that have a word as a name.

    Parameters
    ----------
    index
        The targets.
    word
        The local word.
    others
        The same in other words (:func:`chordae.match.own.rephrase`).
    """
    found: dict[int, tuple[Stage, str]] = {}
    for at in index.by_text.get(word.casefold().strip(), ()):
        name = index.texts[at]
        if name.kind == "abbreviation" or len(name.text) == 1:
            found.setdefault(index.owner[at], ("abbreviation", f"'{name.text}' is a short form{_school(name)}"))
        elif name.kind == "local":
            found.setdefault(index.owner[at], ("other name", f"the crosswalk has '{name.text}' for it"))
        elif name.scope == "exact":
            found[index.owner[at]] = ("exact", f"same words as '{name.text}'")
    words, folded = frozenset(all_words(word)), key(word)
    # A dash, a question mark or an article alone leaves no word: it is like no other one, and names nothing.
    for at in index.by_key.get(folded, ()) if folded else ():
        name = index.texts[at]
        if name.kind in ("abbreviation", "local") or clash_of_words(words, index.whole[at]) is not None:
            continue
        if name.scope == "exact":
            why = f"same as '{name.text}' but for order, spelling, plural or hyphen"
            found.setdefault(index.owner[at], ("normalised", why))
        else:
            found.setdefault(index.owner[at], ("other name", f"'{name.text}' is {_SCOPES[name.scope]}"))
    for friend in friends.ask(word):
        for meaning in friend.meanings if friend.context else ():
            if (place := index.place_of.get(meaning.term)) is not None:
                found.setdefault(place, ("other name", f"'{word}' may mean it: {meaning.gloss}"))
    for other in others:
        for at in index.by_key.get(key(other.text), ()):
            name = index.texts[at]
            if name.kind not in ("abbreviation", "local") and not other.clashes(name.text):
                found.setdefault(index.owner[at], ("other name", f"{other.why}, which is also called '{name.text}'"))
    return found


def questions_about(index: Index, word: str, found: Staged) -> tuple[FalseFriend, ...]:
    """Return the questions to be answered before a word may be matched at all; ``()`` for most words.

    A word is asked about when it is a false friend wherever it stands, or an abbreviation of several targets and the
    name of none.
    """
    if asked := tuple(one for one in friends.ask(word) if not one.context):
        return asked
    stages = {stage for stage, _ in found.values()}
    short = [target for target, (stage, _) in found.items() if stage == "abbreviation"]
    if len(short) < 2 or stages & set(SURE):
        return ()
    labels = [index.targets[target].label for target in short]
    meanings = tuple(Meaning(index.targets[at].id, "european", index.targets[at].label) for at in short)
    ask = f"Which is meant: {', '.join(labels[:-1])} or {labels[-1]}?"
    return (FalseFriend(word, (), meanings, (), "", ask, "common practice", ()),)


_SCOPES = {
    "broad": "a wider name for it",
    "narrow": "a narrower name for it",
    "related": "a related name",
    "unstated": "a name of it; whether its own or a wider or narrower one, the ontology as installed does not say",
}


def cautions_about(word: str) -> list[str]:
    """Return what has to be asked of a word that is a trap in some context only."""
    return [f"to be asked {one.context}: {one.ask}" for one in friends.ask(word) if one.context]


def _school(name: Name) -> str:
    return f" of the {name.school.replace('_', ' ').title()} school" if name.school else ""
