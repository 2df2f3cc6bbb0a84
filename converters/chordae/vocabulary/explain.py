"""From a word to a text that says what it is: a term, a word of several meanings, or neither and what is near it.

::

    explain_word("L-TGA")            what it may mean, what it never implies, what to ask
    explain_word("tricuspid valve")  labels of both schools, definition, source, codes and whether anyone reviewed them
    explain_word("HP:0001719")       what the outside code is to terms of ours, and the term it matches best
    explain_word("tricuspit valve")  the nearest terms
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from chordae.friends import FalseFriend, ask
from chordae.mapping import terms_for
from chordae.terms import SCHOOLS, Term, key_of, vocabulary
from chordae.vocabulary.codes import code_text, codes_text, find_code
from chordae.vocabulary.lines import bullet, field, wrapped

__all__ = ["Lookup", "explain_term", "explain_word", "look_up"]

_MANY = 12
_SCHOOL = {"european": "European school", "north_american": "North American school"}


@dataclass(frozen=True, slots=True)
class Lookup:
    """What was found for a text: false friends, terms that bear the name, and near terms when there is neither.

    ``code`` is the outside code that the text is, if it is one; ``terms`` are then those that match it best.
    ``near`` are near terms, each with the name of it that looks like the text.
    """

    text: str
    friends: tuple[FalseFriend, ...]
    terms: tuple[Term, ...]
    near: tuple[tuple[Term, str], ...] = ()
    code: str = ""

    @property
    def known(self) -> bool:
        """Whether the vocabulary knows the word at all."""
        return bool(self.friends or self.terms or self.code)

    @property
    def nearest(self) -> tuple[Term, ...]:
        """Near terms."""
        return tuple(term for term, _ in self.near)


def look_up(text: str) -> Lookup:
    """Look a text up as slug, name of either school, or outside code, and among the false friends."""
    words = " ".join(text.split())[:200]
    table = vocabulary()
    if by_slug := table.get(words):
        return Lookup(words, (), (by_slug,))
    friends, terms = tuple(ask(words)), table.by_label(words)
    if terms or friends:
        return Lookup(words, friends, terms)
    if code := find_code(words):
        return Lookup(words, (), _best(code), code=code)
    return Lookup(words, (), (), tuple(table.nearest_names(words, 5)))


def explain_word(text: str) -> str:
    """Return the explanation of a word, in lines of about 100 characters, without a line break at the end."""
    found = look_up(text)
    if not found.known:
        return "\n".join(_unknown(found))
    blocks = [code_text(found.code)] if found.code else []
    blocks += [_friend(found.text, friend) for friend in found.friends]
    if all(friend.context for friend in found.friends):
        if len(found.terms) > 1:
            blocks.append([f"'{found.text}' stands for {len(found.terms)} terms. Say which one is meant."])
        blocks += [explain_term(term).splitlines() for term in found.terms]
    return "\n\n".join("\n".join(block) for block in blocks)


def explain_term(term: Term) -> str:
    """Return what the vocabulary says of one term."""
    table = vocabulary()
    lines = [term.european]
    for school in SCHOOLS:
        short = term.abbreviations(school)
        lines += field(_SCHOOL[school], term.label(school) + (f" ({', '.join(short)})" if short else ""))
    lines += field("In plain words", term.plain)
    lines += field("Also", ", ".join(term.synonyms))
    lines += field("Definition", term.definition)
    lines += field("Note", term.scope_note)
    lines += field("A kind of", _labels(term.broader))
    below = table.narrower(term.slug)
    rest = f", and {len(below) - _MANY} more" if len(below) > _MANY else ""
    lines += field("Kinds of it", _labels(below[:_MANY]) + rest)
    lines += field("Part of", _labels(term.part_of))
    lines += field("Parts", _labels(table.parts(term.slug)))
    lines += field("See also", _labels(term.related))
    lines += field("Source", _source(term.source))
    lines += field("Term", f"{term.slug}, since version {term.since}")
    if term.deprecated:
        successor = table.successor(term.slug)
        instead = f"; use {successor.european}" if successor else ""
        lines += field("Given up", f"in version {term.deprecated}{instead}")
    return "\n".join(lines + codes_text(term.slug))


def _best(code: str) -> tuple[Term, ...]:
    """The terms that an outside code matches best; none if it is merely wider, narrower or related."""
    found = [(slug, match) for slug, match in terms_for(code) if match in ("exact", "close")]
    return tuple(vocabulary()[slug] for slug, match in found if match == found[0][1])


def _friend(text: str, friend: FalseFriend) -> list[str]:
    table = vocabulary()
    where = f" {friend.context}" if friend.context else ""
    lines = [text if text == friend.word else f"{text} (see {friend.word})"]
    lines += wrapped(f"Several meanings{where}: never translated without the question below.", "  ")
    lines.append("  It may mean")
    for meaning in friend.meanings:
        lines += bullet(f"{table[meaning.term].european} ({_SCHOOL[meaning.school]}): {meaning.gloss}")
    if friend.never_implies:
        lines.append("  It never implies")
        for slug in friend.never_implies:
            lines += bullet(table[slug].european)
    lines += field("Ask", friend.ask)
    return lines + field("Source", _source(friend.source))


def _unknown(found: Lookup) -> list[str]:
    lines = [f"The vocabulary has no word '{found.text}'."]
    if found.nearest:
        lines.append("Nearest:")
        for term, name in found.near:
            also = "" if key_of(name) == key_of(term.european) else f" ({name})"
            lines += bullet(f"{term.european}{also}: {term.definition}")
    else:
        lines.append("Nothing in it is spelt nearly so.")
    return lines


def _source(key: str) -> str:
    source = vocabulary().source(key)
    if source is None:
        return key
    where = f", {source.identifier}" if source.identifier else ""
    return f"{key}: {source.citation}{where} ({source.status})"


def _labels(slugs: Iterable[str]) -> str:
    table = vocabulary()
    return ", ".join(table[slug].european for slug in slugs)
