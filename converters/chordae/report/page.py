"""From counts and hearts to one HTML page that needs nothing else: no network, no script, no other file.

The page is complete without JavaScript; the few lines of it add a search over the hearts. The caution stands at
the top, on paper too.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from importlib.resources import files
from typing import Any

from chordae.report.drawing import DEFINITIONS
from chordae.report.heart import Heart, heart_section
from chordae.report.markup import Html, tag, text
from chordae.report.overview import sections
from chordae.report.words import texts
from chordae.resources import VERSION

__all__ = ["make_page", "page_pieces"]

_KINDS = (
    ("", "all"),
    ("violation", "with violations"),
    ("warning", "with warnings"),
    ("undetermined", "with something not determined"),
)
_DRAWING = (
    "In the drawings the right side of the body is on the left. Dots: morphologically right; fine lines: "
    "morphologically left. A heavy frame is decided by features, a thin one supported by them or only stated, a broken "
    "one not determined. A full line is a recorded commitment, a broken one follows the name of a connection, a "
    "crossed one is closed."
)
_HERE = Html("\0")
"""Where the sections of the hearts come; no text holds it, because it cannot be seen."""
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'"


def make_page(counts: Mapping[str, Any], hearts: Sequence[Heart], versions: Mapping[str, Any]) -> str:
    """Return the page.

    Parameters
    ----------
    counts
        :meth:`chordae.report.summary.Summary.to_json`.
    hearts
        The hearts that get a section, in the order in which they are shown.
    versions
        :func:`chordae.deposit.versions`.

    Returns
    -------
    str
        HTML, ending with a newline; the same for the same input.
    """
    return "".join(page_pieces(counts, hearts, versions))


def page_pieces(counts: Mapping[str, Any], hearts: Sequence[Heart], versions: Mapping[str, Any]) -> Iterator[str]:
    """Yield the page of :func:`make_page` piece by piece, for callers that do not need it whole."""
    before, _, after = _frame(counts, hearts, versions).partition(_HERE)
    yield before
    others = _same_specimen(hearts)
    for heart in hearts:
        yield heart_section(heart, others[heart.id])
    yield after


def _frame(counts: Mapping[str, Any], hearts: Sequence[Heart], versions: Mapping[str, Any]) -> str:
    """Return the page without the sections of the hearts."""
    collection = counts["collection"]
    name = str(collection.get("name") or "Collection without a name")
    linked = {heart.id: f"heart-{heart.id}" for heart in hearts}
    made = list(sections(counts, linked))
    made.append(("hearts", "The hearts one by one", _hearts(counts, hearts)))
    links = [tag("li", tag("a", text(heading), href=f"#{anchor}")) for anchor, heading, _ in made]
    body = [
        tag("a", text("To the content"), href="#main", class_="skip"),
        Html(DEFINITIONS),
        tag(
            "div",
            _header(name, collection),
            tag("nav", tag("ul", *links), aria_label="Contents"),
            tag("main", *(section for _, _, section in made), id="main"),
            _footer(versions),
            class_="frame",
        ),
        tag("script", Html(_file("page.js"))),
    ]
    head = [
        tag("meta", charset="utf-8"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        Html(f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'),
        tag("meta", name="color-scheme", content="light dark"),
        tag("meta", name="generator", content=f"chordae {VERSION}"),
        tag("title", text(f"{name}: hearts described segment by segment")),
        tag("style", Html(_file("page.css"))),
    ]
    page = tag("html", tag("head", *head), tag("body", *body), lang="en", class_="no-script")
    return f"<!doctype html>\n{page}\n"


def _header(name: str, collection: Mapping[str, Any]) -> Html:
    about = [
        f"kept by {collection['custodian']}" if collection.get("custodian") else "",
        f"terms of use: {collection['licence']}" if collection.get("licence") else "terms of use not stated",
        str(collection.get("note") or ""),
    ]
    caution = [tag("p", text(line)) for line in texts()["caution"]]
    return tag(
        "header",
        tag("p", text("Hearts described segment by segment"), class_="over"),
        tag("h1", text(name)),
        tag("p", text(" · ".join(one for one in about if one)), class_="meta"),
        tag("aside", *caution, class_="caution", aria_label="Caution"),
    )


def _hearts(counts: Mapping[str, Any], hearts: Sequence[Heart]) -> Html:
    lead = f"{texts()['apart'].strip()} {texts()['states'].strip()}"
    shown = (
        f"{len(hearts):,} of {counts['records']:,} descriptions are shown, those with the most serious issues; "
        "all stand in records.ndjson and derived.ndjson."
    )
    more = [tag("p", text(shown), class_="lead")] if counts["records"] > len(hearts) else []
    options = [tag("option", text(words), value=value) for value, words in _KINDS]
    tools = tag(
        "div",
        tag("label", text("Find"), tag("input", type="search", id="find", autocomplete="off")),
        tag("label", text("Show"), tag("select", *options, id="kind")),
        tag("p", text(""), id="shown", role="status", class_="where"),
        class_="tools",
    )
    index = [tag("li", tag("a", text(heart.id), href=f"#heart-{heart.id}")) for heart in hearts]
    return tag(
        "section",
        tag("h2", text("The hearts one by one")),
        tag("p", text(lead), class_="lead"),
        tag("p", text(_DRAWING), class_="lead"),
        *more,
        tools,
        tag("ul", *index, class_="index"),
        _HERE,
        id="hearts",
    )


def _same_specimen(hearts: Sequence[Heart]) -> dict[str, list[str]]:
    """Return for each record the ids of the other records of its specimen."""
    groups: dict[str, list[str]] = defaultdict(list)
    named = [
        (heart.id, (heart.record.get("specimen") or {}).get("accession") or f"record {heart.id}") for heart in hearts
    ]
    for name, specimen in named:
        groups[specimen].append(name)
    return {name: [one for one in groups[specimen] if one != name] for name, specimen in named}


def _footer(versions: Mapping[str, Any]) -> Html:
    told = [
        f"{what} {one['version']}" + (f" ({one['sha256'][:12]})" if one.get("sha256") else "")
        for what, one in versions.items()
        if isinstance(one, Mapping) and one.get("version")
    ]
    return tag("footer", tag("p", text("Made with " + ", ".join(told) + ".")))


def _file(name: str) -> str:
    return files("chordae.report").joinpath(name).read_text(encoding="utf-8")
