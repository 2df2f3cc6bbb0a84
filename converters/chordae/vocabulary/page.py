"""The vocabulary as one page to browse: terms in, HTML out. It opens offline and asks nothing of the network.

Every term stands in the page with the words of both schools, its definition, its neighbours and its outside codes, each
with what the code is to it; a search box and two lists narrow and sort them. Without scripts the page is a plain list.
The frame is ``page.html``; everything put into it is escaped.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape
from string import Template

from chordae import resources
from chordae.mapping import Code, Searched, sets
from chordae.terms import Term, Vocabulary
from chordae.vocabulary.skos import CAUTION, TITLE, other_labels

__all__ = ["render_page"]

FRAME = "vocabulary/page.html"
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
) -> str:
    """Return the page.

    Parameters
    ----------
    known
        The vocabulary.
    codes, never, searched
        From a term to its codes, to codes that look right and are not, and to the sets searched in vain
        (:mod:`chordae.mapping`).
    """
    terms = sorted(known, key=lambda term: (term.european.casefold(), term.slug))
    blocks = [_article(term, known, codes(term.slug), never(term.slug), searched(term.slug)) for term in terms]
    signed = all(code.reviewed for term in terms for code in codes(term.slug))
    return Template(resources.read_text(FRAME)).substitute(
        title=escape(TITLE),
        caution=escape(CAUTION),
        version=escape(known.version),
        count=len(terms),
        reviewed="signed by a morphologist" if signed else "not yet signed by a morphologist",
        kinds="".join(f"<option>{escape(kind)}</option>" for kind in sorted({term.kind for term in terms})),
        terms="\n".join(blocks),
    )


def _article(
    term: Term, known: Vocabulary, codes: Sequence[Code], never: Sequence[Code], searched: Sequence[Searched]
) -> str:
    words = [term.european, *other_labels(term), term.plain, term.slug.replace("_", " ")]
    words += [text for code in codes for text in (code.curie, code.label)]
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
        ("See also", ", ".join(_link(slug, known) for slug in term.related)),
        ("Outside", _codes(codes)),
        ("Never", _never(never)),
        ("Not found in", _searched(searched)),
        ("Source", escape(_source(term, known))),
        ("Since", escape(term.since)),
    ]
    items = "".join(f"<dt>{name}</dt><dd>{text}</dd>" for name, text in rows if text)
    return (
        f'<article id="{escape(term.slug)}" data-kind="{escape(term.kind)}" data-european="{escape(term.european)}" '
        f'data-american="{escape(term.north_american)}" data-words="{escape(" | ".join(words))}">'
        f'<h2><a href="#{escape(term.slug)}">{escape(term.european)}</a><small>{escape(term.kind)}</small></h2>'
        f"{gone}<p>{escape(term.definition.strip())}</p><dl>{items}</dl></article>"
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
        + (f" <span class=soft>{escape(code.comment)}</span>" if code.comment and not code.same else "")
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
    titles = {one["file"]: str(one["title"]).rpartition(" and ")[2] for one in sets()}
    reasons: dict[str, list[str]] = {}
    for one in searched:
        reasons.setdefault(one.comment, []).append(titles[one.source])
    items = "".join(f"<li>{escape(', '.join(names))}: {escape(why)}</li>" for why, names in reasons.items())
    return f"<ul>{items}</ul>" if items else ""


def _source(term: Term, known: Vocabulary) -> str:
    found = known.source(term.source)
    return f"{found.citation} ({found.status})" if found else term.source
