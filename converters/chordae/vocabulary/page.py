"""The vocabulary as one page to browse: terms in, HTML out. It opens offline and asks nothing of the network.

Every term stands in the page with the words of both schools, its definition, its neighbours and its outside codes, each
with what the code is to it; every word of several meanings stands between them with the question that settles it. A
search box and two lists narrow and sort them. Without scripts the page is a plain list.
The frame is ``page.html``; everything put into it is escaped.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from html import escape
from string import Template

from chordae import resources
from chordae.friends import FalseFriend
from chordae.identifiers import slug_of
from chordae.mapping import Code, Searched, sets
from chordae.terms import Term, Vocabulary, key_of
from chordae.vocabulary.skos import CAUTION, TITLE, other_labels

__all__ = ["render_page"]

FRAME = "vocabulary/page.html"
_TRAP = "word of several meanings"
_SCHOOL = {"european": "European school", "north_american": "North American school"}
_SAID = {
    "exact": "exact match",
    "close": "close",
    "broad": "wider than ours",
    "narrow": "narrower than ours",
    "related": "related",
}


def render_page(
    known: Vocabulary,
    codes: Callable[[str], Sequence[Code]],
    never: Callable[[str], Sequence[Code]],
    searched: Callable[[str], Sequence[Searched]],
    traps: Sequence[FalseFriend] = (),
) -> str:
    """Return the page.

    Parameters
    ----------
    known
        The vocabulary.
    codes, never, searched
        From a term to its codes, to codes that look right and are not, and to the sets searched in vain
        (:mod:`chordae.mapping`).
    traps
        Words of several meanings.
    """
    terms = list(known)
    words: dict[str, list[FalseFriend]] = {}
    for trap in traps:
        for word in dict.fromkeys(key_of(one) for one in (trap.word, *trap.also)):
            words.setdefault(word, []).append(trap)
    found = [
        (
            term.european.casefold(),
            _article(term, known, codes(term.slug), never(term.slug), searched(term.slug), words),
        )
        for term in terms
    ]
    found += [(trap.word.casefold(), _trap(trap, known)) for trap in traps]
    signed = all(code.reviewed for term in terms for code in codes(term.slug))
    return Template(resources.read_text(FRAME)).substitute(
        title=escape(TITLE),
        caution=escape(CAUTION),
        version=escape(known.version),
        count=len(terms),
        reviewed="signed by a morphologist" if signed else "not yet signed by a morphologist",
        traps=len(traps),
        kinds="".join(f"<option>{escape(kind)}</option>" for kind in _kinds(terms, traps)),
        terms="\n".join(block for _, block in sorted(found)),
    )


def _kinds(terms: Sequence[Term], traps: Sequence[FalseFriend]) -> list[str]:
    return sorted({term.kind for term in terms}) + [_TRAP] * bool(traps)


def _trap(trap: FalseFriend, known: Vocabulary) -> str:
    means = "".join(
        f"<li>{_link(one.term, known)} ({_SCHOOL[one.school]}): {escape(one.gloss)}</li>" for one in trap.meanings
    )
    never = "".join(f"<li>{_link(slug, known)}</li>" for slug in trap.never_implies)
    rows = [
        ("May mean", f"<ul>{means}</ul>"),
        ("Never implies", f"<ul>{never}</ul>"),
        ("Ask", f"<strong>{escape(trap.ask)}</strong>"),
        ("Also", escape(", ".join(trap.also))),
        ("Source", escape(_cited(trap.source, known))),
    ]
    where = f" {trap.context}" if trap.context else ""
    lead = f"Several meanings{where}: never translated without the question below."
    words = " | ".join((trap.word, *trap.also))
    return _block(_word_id(trap.word), _TRAP, (trap.word, trap.word), words, f"<p>{escape(lead)}</p>", rows)


def _word_id(word: str) -> str:
    return f"word-{slug_of(word)}"


def _article(
    term: Term,
    known: Vocabulary,
    codes: Sequence[Code],
    never: Sequence[Code],
    searched: Sequence[Searched],
    traps: Mapping[str, Sequence[FalseFriend]],
) -> str:
    names = [term.european, *other_labels(term)]
    beware = dict.fromkeys(trap.word for name in names for trap in traps.get(key_of(name), ()))
    words = [*names, term.plain, term.slug.replace("_", " ")]
    words += [text for code in (*codes, *never) for text in (code.curie, code.label)]
    gone = ""
    if term.deprecated:
        successor = f"; use {_link(term.replaced_by, known)}" if term.replaced_by else ""
        gone = f'<p class="never">Given up in {escape(term.deprecated)}{successor}.</p>'
    rows = [
        ("European school", _names(term.european, term.european_abbreviations)),
        ("North American school", _names(term.north_american, term.north_american_abbreviations)),
        ("Plain words", escape(term.plain)),
        ("Also", escape(", ".join(term.synonyms))),
        ("Note", escape(term.scope_note.strip())),
        ("Kind of", ", ".join(_link(slug, known) for slug in term.broader)),
        ("Kinds", ", ".join(_link(slug, known) for slug in known.narrower(term.slug))),
        ("Part of", ", ".join(_link(slug, known) for slug in term.part_of)),
        ("Parts", ", ".join(_link(slug, known) for slug in known.parts(term.slug))),
        ("See also", ", ".join(_link(slug, known) for slug in term.related)),
        ("Beware", ", ".join(f'<a href="#{_word_id(word)}">{escape(word)}</a>' for word in beware)),
        ("Outside", _codes(codes)),
        ("Never", _never(never)),
        ("Not found in", _searched(searched)),
        ("Source", escape(_cited(term.source, known))),
        ("Since", escape(term.since)),
    ]
    lead = f"{gone}<p>{escape(term.definition.strip())}</p>"
    return _block(term.slug, term.kind, (term.european, term.north_american), " | ".join(words), lead, rows)


def _block(name: str, kind: str, labels: tuple[str, str], words: str, lead: str, rows: list[tuple[str, str]]) -> str:
    european, american = (escape(label) for label in labels)
    items = "".join(f"<dt>{head}</dt><dd>{text}</dd>" for head, text in rows if text)
    return (
        f'<article id="{escape(name)}" data-kind="{escape(kind)}" data-european="{european}" '
        f'data-american="{american}" data-words="{escape(words)}">'
        f'<h2><a href="#{escape(name)}">{european}</a><small>{escape(kind)}</small></h2>'
        f"{lead}<dl>{items}</dl></article>"
    )


def _names(label: str, short: Sequence[str]) -> str:
    return escape(label + (f" ({', '.join(short)})" if short else ""))


def _link(slug: str, known: Vocabulary) -> str:
    term = known.get(slug)
    return f'<a href="#{escape(slug)}">{escape(term.european if term else slug)}</a>'


def _codes(codes: Sequence[Code]) -> str:
    if not codes:
        return ""
    items = "".join(
        f"<li>{escape(code.curie)} {escape(code.label)}: {_said(code)}"
        + (f". <span class=soft>{escape(code.comment)}</span>" if code.comment and not code.same else "")
        + "</li>"
        for code in codes
    )
    return f"<ul>{items}</ul>"


def _said(code: Code) -> str:
    return "same meaning" if code.same and code.predicate != "exact" else _SAID[code.predicate]


def _never(never: Sequence[Code]) -> str:
    items = "".join(f"<li>{escape(one.curie)} {escape(one.label)}. {escape(one.comment)}</li>" for one in never)
    return f'<ul class="never">{items}</ul>' if items else ""


def _searched(searched: Sequence[Searched]) -> str:
    titles = {one["file"]: str(one["title"]).removeprefix("chordae terms and ") for one in sets()}
    reasons: dict[str, list[str]] = {}
    for one in searched:
        reasons.setdefault(one.comment, []).append(titles[one.source])
    items = "".join(f"<li>{escape(', '.join(names))}: {escape(why)}</li>" for why, names in reasons.items())
    return f"<ul>{items}</ul>" if items else ""


def _cited(key: str, known: Vocabulary) -> str:
    found = known.source(key)
    return f"{found.citation} ({found.status})" if found else key
