"""The vocabulary as TBX-Core (ISO 30042:2019), for translators: one concept entry a term, one term section a name.

::

    <conceptEntry id="left_hand_topology">
      <note>Definition: ...</note>
      <langSec xml:lang="en">
        <termSec><term>left-hand topology</term><note>Usage: preferred in the European school</note></termSec>
        <termSec><term>L-loop ventricles</term><note>Usage: preferred in the North American school</note></termSec>
        <termSec><term>L-TGA</term><note>Ask before translating: ...</note></termSec>

TBX-Core has no other place for definitions and usage than ``note``: the category stands before the colon. A name that
several schools or lists share stands once, with one note for each. Hierarchy and mappings have no place in the Core;
terms above are named in a note. Words of several meanings carry the question that settles them.

Source: ISO 30042:2019 (TBX), dialect TBX-Core in DCA style; structure read in the published RelaxNG schema of the
dialect (LTAC Global, TBX-Core 1.0).
"""

from __future__ import annotations

from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from chordae.friends import ask
from chordae.terms import Term, Vocabulary
from chordae.vocabulary.skos import CAUTION, LICENCE, TITLE

__all__ = ["NAMESPACE", "render_tbx"]

NAMESPACE = "urn:iso:std:iso:30042:ed:3.0"
_SCHOOLS = {"european": "European", "north_american": "North American"}


def render_tbx(known: Vocabulary) -> str:
    """Return the whole vocabulary as one TBX document, entries sorted by slug."""
    return "\n".join(_lines(known)) + "\n"


def _lines(known: Vocabulary) -> Iterator[str]:
    yield '<?xml version="1.0" encoding="UTF-8"?>'
    yield f'<tbx xmlns="{NAMESPACE}" type="TBX-Core" style="dca" xml:lang="en">'
    yield "<tbxHeader><fileDesc>"
    yield f"<titleStmt><title>{escape(TITLE)}</title></titleStmt>"
    yield f"<publicationStmt><p>Version {escape(known.version)}. Licence: {escape(LICENCE)}</p></publicationStmt>"
    yield f"<sourceDesc><p>{escape(CAUTION)}</p></sourceDesc>"
    yield "</fileDesc></tbxHeader>"
    yield "<text><body>"
    for term in sorted(known, key=lambda one: one.slug):
        yield f"<conceptEntry id={quoteattr(term.slug)}>"
        for note in _notes(term, known):
            yield f"  <note>{escape(_flat(note))}</note>"
        yield '  <langSec xml:lang="en">'
        for name, usage in _names(term).items():
            notes = "".join(f"<note>{escape(_flat(one))}</note>" for one in usage)
            yield f"    <termSec><term>{escape(_flat(name))}</term>{notes}</termSec>"
        yield "  </langSec>"
        yield "</conceptEntry>"
    yield "</body></text>"
    yield "</tbx>"


def _notes(term: Term, known: Vocabulary) -> Iterator[str]:
    yield f"Definition: {term.definition}"
    if term.scope_note:
        yield f"Scope: {term.scope_note}"
    source = known.source(term.source)
    yield f"Source: {source.citation if source else term.source}"
    if term.broader:
        yield "Kind of: " + "; ".join(known[slug].european for slug in term.broader)
    if term.part_of:
        yield "Part of: " + "; ".join(known[slug].european for slug in term.part_of)
    if term.deprecated:
        successor = known.get(term.replaced_by)
        instead = f"; use: {successor.european}" if successor else ""
        yield f"Deprecated since version {term.deprecated}{instead}"


def _names(term: Term) -> dict[str, list[str]]:
    """Name -> notes on its usage; the preferred names first."""
    names: dict[str, list[str]] = {}
    for school, words in _SCHOOLS.items():
        preferred = term.european if school == "european" else term.north_american
        names.setdefault(preferred, []).append(f"Usage: preferred in the {words} school")
    for name in term.synonyms:
        names.setdefault(name, []).append("Usage: synonym")
    for school, words in _SCHOOLS.items():
        for name in term.european_abbreviations if school == "european" else term.north_american_abbreviations:
            names.setdefault(name, []).append(f"Usage: short form in the {words} school")
    names.setdefault(term.plain, []).append("Usage: plain words for laypeople")
    for name, usage in names.items():
        usage += [f"Ask before translating: {friend.ask}" for friend in ask(name)]
    return names


def _flat(text: str) -> str:
    return " ".join(text.split())
