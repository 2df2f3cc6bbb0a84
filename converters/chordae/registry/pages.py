"""The pages of a registry: collections, hearts with the picture of their segments, terms with their codes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any
from urllib.parse import quote

from chordae.issues import Issue
from chordae.mapping import codes_for
from chordae.registry.entry import Entry
from chordae.registry.ledger import HeartRow
from chordae.registry.page_frame import page
from chordae.registry.questions import questions
from chordae.report import Heart
from chordae.report.heart import heart_section
from chordae.report.markup import join, table, tag, text
from chordae.report.words import texts
from chordae.terms import Term, vocabulary

__all__ = ["PAGE", "collection_page", "heart_page", "home_page", "terms_page"]

PAGE = 100
"""Rows of a page."""
_MATCH = {"exact": "exact", "close": "near", "broad": "wider", "narrow": "narrower", "related": "related"}


def home_page(name: str, heads: Sequence[Entry]) -> str:
    """Return the first page: the collections and the ready questions."""
    rows = [
        [
            tag("a", text(one.body.get("name") or one.collection), href=f"/collections/{quote(one.collection)}"),
            text(one.body.get("custodian") or "not stated"),
            text(one.body.get("licence") or "not stated"),
            text(f"{one.body['counts']['records']:,}"),
            text(one.outcome.replace("_", " ")),
            text(str(one.body["at"])[:10]),
        ]
        for one in heads
    ]
    head = ("Collection", "Kept by", "Licence", "Descriptions", "Taken in", "On")
    shown = table(head, rows, caption="Collections", numbers={3}) if rows else tag("p", text("No collection yet."))
    asked = [
        tag(
            "li",
            tag("a", text(one.title), href=f"/questions/{one.name}"),
            tag("span", text(one.say), class_="sub"),
        )
        for one in questions().values()
    ]
    return page(
        name,
        name,
        [
            tag("section", tag("h2", text("Collections")), tag("div", shown, class_="wide")),
            tag("section", tag("h2", text("Ready questions")), tag("ul", *asked, class_="plain")),
        ],
    )


def collection_page(
    registry: str, head: Entry, hearts: Sequence[tuple[HeartRow, Mapping[str, Any]]], more: str | None
) -> str:
    """Return the page of a collection.

    Parameters
    ----------
    hearts
        Rows of the ledger, each with what :func:`chordae.registry.made.read_heart` gives.
    more
        Record id after which the next page begins; ``None`` on the last one.
    """
    base = f"/collections/{quote(head.collection)}"
    rows = [
        [
            tag("a", text(row.record), href=f"{base}/hearts/{quote(row.record)}"),
            text(row.accession),
            tag("span", text(found["derived"].get("notation") or ""), class_="notation"),
            text((found["derived"].get("statement") or {}).get("european") or ""),
            text(f"{len(found['issues']):,}"),
        ]
        for row, found in hearts
    ]
    counts = head.body["counts"]
    about = (
        f"{counts['records']:,} descriptions, taken in on {str(head.body['at'])[:10]} "
        f"({head.outcome.replace('_', ' ')}: {counts['violation']:,} violations, {counts['warning']:,} warnings). "
        f"Licence: {head.body.get('licence') or 'not stated'}. Kept by {head.body.get('custodian') or 'not stated'}."
    )
    told = [
        tag("p", text(about), class_="lead"),
        tag("p", text("Version "), tag("code", text(head.deposit)), class_="where"),
        tag(
            "div",
            table(
                ("Record", "Catalogue number", "Notation", "In European words", "Issues"),
                rows,
                caption="Hearts",
                numbers={4},
            ),
            class_="wide",
        ),
    ]
    if more is not None:
        told.append(tag("p", tag("a", text("More hearts"), href=f"{base}?after={quote(more)}")))
    title = str(head.body.get("name") or head.collection)
    return page(registry, title, [tag("section", tag("h2", text("The hearts")), *told)])


def heart_page(registry: str, collection: str, found: Mapping[str, Any], others: Sequence[HeartRow]) -> str:
    """Return the page of one heart, with the picture of its segments."""
    issues = [Issue.from_json(one) for one in found["issues"]]
    heart = Heart(found["record"], found["derived"], issues)
    links = [
        tag("li", tag("a", text(one.record), href=f"/collections/{quote(collection)}/hearts/{quote(one.record)}"))
        for one in others
    ]
    told = [tag("p", text(f"{texts()['apart'].strip()} {texts()['states'].strip()}"), class_="lead")]
    if links:
        told += [tag("p", text("Other descriptions of the same specimen:")), tag("ul", *links, class_="plain")]
    back = tag("a", text(collection), href=f"/collections/{quote(collection)}")
    return page(
        registry,
        f"Heart {heart.id}",
        [tag("section", tag("p", text("Collection "), back), *told, heart_section(heart))],
    )


def terms_page(registry: str, words: str, start: int) -> str:
    """Return a page of terms with their labels and codes; ``words`` picks those that hold them."""
    wanted = words.casefold().split()
    found = [one for one in vocabulary() if all(word in _names(one).casefold() for word in wanted)]
    rows = [
        [
            tag("span", text(one.european), tag("span", text(one.slug), class_="sub")),
            text(one.north_american),
            join(
                (
                    tag(
                        "span",
                        text(f"{_MATCH.get(each.predicate, each.predicate)}: {each.curie} {each.label}"),
                        class_="sub",
                    )
                    for each in codes_for(one.slug)
                ),
            )
            or text("no code"),
            text("yes" if codes_for(one.slug) and all(each.reviewed for each in codes_for(one.slug)) else "no"),
        ]
        for one in found[start : start + PAGE]
    ]
    form = tag(
        "form",
        tag("label", text("Find"), tag("input", type="search", name="words", value=words)),
        tag("button", text("Show"), type="submit"),
        class_="tools",
        method="get",
        action="/terms",
    )
    shown = table(("Term", "North American words", "Outside codes", "Signed by a morphologist"), rows, caption="Terms")
    told = [form, tag("p", text(f"{len(found):,} terms."), class_="lead"), tag("div", shown, class_="wide")]
    if start + PAGE < len(found):
        told.append(tag("p", tag("a", text("More terms"), href=f"/terms?words={quote(words)}&start={start + PAGE}")))
    return page(registry, "Terms and their outside codes", [tag("section", *told)])


def _names(term: Term) -> str:
    return " ".join((term.slug, term.european, term.north_american, *term.synonyms))
