"""The pages of a registry: collections, hearts with the picture of their segments, terms with their codes, questions.

Pages only show. They need no script, nothing from another server, and one stylesheet, which is that of the report.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from importlib.resources import files
from typing import Any
from urllib.parse import quote

from chordae.issues import Issue
from chordae.mapping import codes_for
from chordae.registry.entry import Entry
from chordae.registry.ledger import HeartRow
from chordae.registry.questions import Question, questions
from chordae.report import Heart
from chordae.report.drawing import DEFINITIONS
from chordae.report.heart import heart_section
from chordae.report.markup import Html, join, table, tag, text
from chordae.report.words import texts
from chordae.terms import Term, vocabulary

__all__ = [
    "PAGE",
    "answer_page",
    "collection_page",
    "heart_page",
    "home_page",
    "question_page",
    "stylesheet",
    "terms_page",
]

PAGE = 100
"""Rows of a page."""
_WIDE = "\nform.tools { display: flex; } .no-script form.tools { display: flex; }\n.wide { overflow-x: auto; }\n"
_MATCH = {"exact": "exact", "close": "near", "broad": "wider", "narrow": "narrower", "related": "related"}


def stylesheet() -> str:
    """Return the stylesheet of all pages."""
    return files("chordae.report").joinpath("page.css").read_text(encoding="utf-8") + _WIDE


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
    return _page(
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
    return _page(registry, title, [tag("section", tag("h2", text("The hearts")), *told)])


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
    return _page(
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
    return _page(registry, "Terms and their outside codes", [tag("section", *told)])


def question_page(registry: str, one: Question) -> str:
    """Return the form of a ready question."""
    return _page(registry, one.title, [tag("section", tag("p", text(one.say), class_="lead"), _form(one, {}))])


def answer_page(
    registry: str,
    one: Question,
    values: Mapping[str, str],
    head: Sequence[str],
    rows: Iterable[Sequence[str]],
    cut: bool,
) -> str:
    """Return the answer to a ready question."""
    cells = [[_cell(each) for each in row] for row in rows]
    words = f"{len(cells):,} rows{', cut short' if cut else ''}."
    shown = table([each.replace("_", " ") for each in head], cells, caption="Answer") if cells else text("")
    told = [
        tag("p", text(one.say), class_="lead"),
        _form(one, values),
        tag("p", text(words)),
        tag("div", shown, class_="wide"),
    ]
    return _page(registry, one.title, [tag("section", *told)])


def _form(one: Question, values: Mapping[str, str]) -> Html:
    fields = [
        tag(
            "label",
            text(each.say),
            tag("input", name=each.name, value=values.get(each.name, each.default or ""), maxlength="1000"),
        )
        for each in one.parameters
    ]
    button = tag("button", text("Ask"), type="submit", name="ask", value="1")
    return tag("form", *fields, button, class_="tools", method="get", action=f"/questions/{one.name}")


def _cell(value: str) -> Html:
    """Return a cell: a term by its label, a word of the model in plain letters, anything else as it is."""
    slug = value.removeprefix("https://w3id.org/chordae/term/")
    term = vocabulary().get(slug) if slug != value else None
    if term is not None:
        return tag("span", text(term.european), title=value)
    word = value.removeprefix("https://w3id.org/chordae/model/")
    return text(word.replace("_", " ")) if word != value else text(value)


def _names(term: Term) -> str:
    return " ".join((term.slug, term.european, term.north_american, *term.synonyms))


def _page(registry: str, heading: str, sections: Sequence[Html]) -> str:
    links = (("/", "Collections"), ("/terms", "Terms and codes"), ("/v1/openapi.json", "For programs"))
    body = [
        tag("a", text("To the content"), href="#main", class_="skip"),
        Html(DEFINITIONS),
        tag(
            "div",
            tag(
                "header",
                tag("p", text(registry), class_="over"),
                tag("h1", text(heading)),
                tag(
                    "aside",
                    *(tag("p", text(line)) for line in texts()["caution"]),
                    class_="caution",
                    aria_label="Caution",
                ),
            ),
            tag("nav", tag("ul", *(tag("li", tag("a", text(say), href=to)) for to, say in links)), aria_label="Pages"),
            tag("main", *sections, id="main"),
            class_="frame",
        ),
    ]
    head = [
        tag("meta", charset="utf-8"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", name="color-scheme", content="light dark"),
        tag("title", text(f"{heading} - {registry}")),
        Html('<link rel="stylesheet" href="/style.css">'),
    ]
    return f"<!doctype html>\n{tag('html', tag('head', *head), tag('body', *body), lang='en')}\n"
