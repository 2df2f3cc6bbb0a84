"""From a word to a text that says what it is: a term, a word of several meanings, or neither and what is near it.

::

    explain_word("L-TGA")            what it may mean, what it never implies, what to ask
    explain_word("tricuspid valve")  labels of both schools, definition, source, codes and whether anyone reviewed them
    explain_word("HP:0001719")       the terms of ours that the outside code was mapped to
    explain_word("tricuspit valve")  the nearest terms
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from dataclasses import dataclass

from chordae import mapping
from chordae.friends import FalseFriend, ask
from chordae.terms import SCHOOLS, Term, vocabulary

__all__ = ["Lookup", "explain_term", "explain_word", "look_up"]

_WIDTH = 100
_MANY = 12
_SCHOOL = {"european": "European school", "north_american": "North American school"}
_MATCH = {"exact": "same", "close": "close", "broad": "wider", "narrow": "narrower", "related": "related"}


@dataclass(frozen=True, slots=True)
class Lookup:
    """What was found for a text: false friends, terms that bear the name, and near terms when there is neither."""

    text: str
    friends: tuple[FalseFriend, ...]
    terms: tuple[Term, ...]
    nearest: tuple[Term, ...]

    @property
    def known(self) -> bool:
        """Whether the vocabulary knows the word at all."""
        return bool(self.friends or self.terms)


def look_up(text: str) -> Lookup:
    """Look a text up as slug, name of either school, or outside code, and among the false friends."""
    words = " ".join(text.split())[:200]
    table = vocabulary()
    if by_slug := table.get(words):
        return Lookup(words, (), (by_slug,), ())
    friends = tuple(ask(words))
    terms = table.by_label(words) or _by_code(words)
    nearest = () if terms or friends else tuple(table.nearest(words, 5))
    return Lookup(words, friends, terms, nearest)


def explain_word(text: str) -> str:
    """Return the explanation of a word, in lines of about 100 characters, without a line break at the end."""
    found = look_up(text)
    if not found.known:
        return "\n".join(_unknown(found))
    blocks = [_friend(found.text, friend) for friend in found.friends]
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
        lines += _field(_SCHOOL[school], term.label(school) + (f" ({', '.join(short)})" if short else ""))
    lines += _field("In plain words", term.plain)
    lines += _field("Also", ", ".join(term.synonyms))
    lines += _field("Definition", term.definition)
    lines += _field("Note", term.scope_note)
    lines += _field("A kind of", _labels(term.broader))
    below = table.narrower(term.slug)
    rest = f", and {len(below) - _MANY} more" if len(below) > _MANY else ""
    lines += _field("Kinds of it", _labels(below[:_MANY]) + rest)
    lines += _field("See also", _labels(term.related))
    lines += _field("Source", _source(term.source))
    lines += _field("Term", f"{term.slug}, since version {term.since}")
    if term.deprecated:
        successor = table.successor(term.slug)
        instead = f"; use {successor.european}" if successor else ""
        lines += _field("Given up", f"in version {term.deprecated}{instead}")
    return "\n".join(lines + _codes(term))


def _by_code(code: str) -> tuple[Term, ...]:
    """Terms that an outside code was mapped to; those that match it best only."""
    found = mapping.terms_for(code) if ":" in code else []
    return tuple(vocabulary()[slug] for slug, match in found if match == found[0][1])


def _friend(text: str, friend: FalseFriend) -> list[str]:
    table = vocabulary()
    where = f" {friend.context}" if friend.context else ""
    lines = [text if text == friend.word else f"{text} (see {friend.word})"]
    lines += _wrapped(f"Several meanings{where}: never translated without the question below.", "  ")
    lines.append("  It may mean")
    for meaning in friend.meanings:
        lines += _bullet(f"{table[meaning.term].european} ({_SCHOOL[meaning.school]}): {meaning.gloss}")
    if friend.never_implies:
        lines.append("  It never implies")
        for slug in friend.never_implies:
            lines += _bullet(table[slug].european)
    lines += _field("Ask", friend.ask)
    return lines + _field("Source", _source(friend.source))


def _unknown(found: Lookup) -> list[str]:
    lines = [f"The vocabulary has no word '{found.text}'."]
    if found.nearest:
        lines.append("Nearest:")
        for term in found.nearest:
            lines += _bullet(f"{term.european}: {term.definition}")
    else:
        lines.append("Nothing in it is spelt nearly so.")
    return lines


def _codes(term: Term) -> list[str]:
    codes = mapping.codes_for(term.slug)
    if not codes:
        return []
    reviewed = all(code.reviewed for code in codes)
    lines = [f"  Codes in open vocabularies (reviewed: {'yes' if reviewed else 'no'})"]
    for code in codes:
        match = "same" if code.same else _MATCH[code.predicate]
        signed = ", reviewed" if code.reviewed and not reviewed else ""
        release = f" [{code.release}]" if code.release else ""
        lines += _bullet(f"{match}: {code.curie} {code.label}{release}{signed}")
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


def _field(name: str, text: str) -> list[str]:
    return _wrapped(f"{name}: {text}", "  ") if text else []


def _bullet(text: str) -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent="    - ", subsequent_indent="      ", break_long_words=False)


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent=indent, subsequent_indent=indent + "  ", break_long_words=False)
