"""From comparisons to one HTML page, side by side: no network, no script, no other file.

What changes the diagnosis stands first; then what differs, segment by segment; what agrees and what is silent can be
opened.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from importlib.resources import files

from chordae.compare.grounds import grounds
from chordae.compare.hearts import Comparison, Item
from chordae.compare.told import VERDICTS, grouped, name_of, place_of, said_words
from chordae.report.markup import Html, table, tag, text
from chordae.report.words import texts
from chordae.resources import VERSION

__all__ = ["make_page"]

_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
_SAID = {"agree": "agree", "differ": "differ", "contradict": "contradict each other"}
_OPEN = ("contradict", "differ", "more_specific", "less_specific")
_MARKS = {"contradict": "violation", "differ": "warning", "more_specific": "info", "less_specific": "info"}


def make_page(found: Sequence[Comparison], unpaired: Sequence[str] = ()) -> str:
    """Return the page.

    Parameters
    ----------
    found
        The comparisons, in the order in which they are shown.
    unpaired
        Sentences on descriptions that found no partner.

    Returns
    -------
    str
        HTML, ending with a newline; the same for the same input.
    """
    caution = [tag("p", text(line)) for line in texts()["caution"]]
    body = tag(
        "div",
        tag(
            "header",
            tag("p", text("Two descriptions of one heart"), class_="over"),
            tag("h1", text(_title(found))),
            tag("aside", *caution, class_="caution", aria_label="Caution"),
        ),
        tag("main", *_overview(found, unpaired), *(_heart(at, one) for at, one in enumerate(found, 1)), id="main"),
        tag("footer", tag("p", text(f"Made with chordae {VERSION}."))),
        class_="frame",
    )
    head = [
        tag("meta", charset="utf-8"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        Html(f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'),
        tag("meta", name="color-scheme", content="light dark"),
        tag("title", text(_title(found))),
        tag("style", Html(_css("chordae.report", "page.css") + _css("chordae.compare", "page.css"))),
    ]
    page = tag("html", tag("head", *head), tag("body", body), lang="en")
    return f"<!doctype html>\n{page}\n"


def _title(found: Sequence[Comparison]) -> str:
    if len(found) == 1:
        return f"{found[0].a.get('id')} and {found[0].b.get('id')} compared"
    return f"{len(found):,} hearts, each described twice"


def _overview(found: Sequence[Comparison], unpaired: Sequence[str]) -> list[Html]:
    made = []
    if len(found) > 1:
        rows = [
            (
                tag("a", text(f"{one.a.get('id')} and {one.b.get('id')}"), href=f"#pair-{at}"),
                _mark(one.verdict, _SAID[one.verdict]),
                text(len(one.diagnostic) or ""),
                text(sum(item.different for item in one.items)),
                text(one.counts().get("agree", 0)),
            )
            for at, one in enumerate(found, 1)
        ]
        head = ("A and B", "verdict", "differences that change the diagnosis", "all differences", "agree")
        made.append(tag("section", tag("h2", text("All pairs")), table(head, rows, caption="Pairs", numbers=(2, 3, 4))))
    if unpaired:
        items = [tag("li", text(one)) for one in unpaired]
        made.append(tag("section", tag("h2", text("Without a partner")), tag("ul", *items)))
    return made


def _heart(number: int, found: Comparison) -> Html:
    head = tag(
        "div",
        *(
            tag("p", tag("strong", text(name)), text(f" {name_of(record)}"), tag("code", text(derived["notation"])))
            for name, record, derived in (("A", found.a, found.derived_a), ("B", found.b, found.derived_b))
        ),
        class_="two",
    )
    lines = [tag("h2", text(f"The two {_SAID[found.verdict]}")), head, _sentences(found)]
    if found.diagnostic:
        told = [_first(items) for items in grouped(found.diagnostic)]
        lines.append(tag("section", tag("h3", text("What changes the diagnosis")), tag("ol", *told), class_="first"))
    for segment, label in grounds().segments:
        items = [one for one in found.items if one.segment == segment]
        if items:
            lines.append(_segment(label, items))
    return tag("section", *lines, class_="pair-of", id=f"pair-{number}")


def _sentences(found: Comparison) -> Html:
    rows = []
    for school, words in (("european", "European words"), ("north_american", "North American words")):
        for name, derived in (("A", found.derived_a), ("B", found.derived_b)):
            said = (derived.get("statement") or {}).get(school)
            rows.append(tag("dt", text(f"{name} in {words}")) + tag("dd", text(said)) if said else text(""))
    body = tag("dl", *(Html(one) for one in rows), class_="said")
    return tag("details", tag("summary", text("Both hearts in sentences, in the words of both schools")), body)


def _first(items: Sequence[Item]) -> Html:
    told: list[Html] = []
    for item in items:
        told += [
            tag("strong", text(place_of(item))),
            text(" "),
            _mark(item.verdict, VERDICTS[item.verdict]),
            _both(item),
        ]
        if item.because:
            told.append(tag("p", text(f"Because of {item.because}."), class_="where"))
    return tag("li", *told, *(tag("p", text(change), class_="to-do") for change in items[0].changes))


def _both(item: Item) -> Html:
    cells = [
        tag("p", tag("b", text(name)), text(" "), text(said_words(item, said)))
        for name, said in (("A", item.a), ("B", item.b))
    ]
    return tag("div", *cells, class_="two")


def _segment(label: str, items: Sequence[Item]) -> Html:
    shown = [one for one in items if one.verdict in _OPEN]
    rest = [one for one in items if one.verdict not in _OPEN]
    made = []
    if shown:
        made += [tag("h3", text(label)), _table(shown, "What differs")]
    if rest:
        agreeing = sum(one.verdict == "agree" for one in rest)
        others = len(rest) - agreeing
        words = f"{agreeing} agree" + (f", {others} recorded or seen by one only" if others else "")
        head = text(words) if shown else tag("span", tag("strong", text(label)), text(f"  {words}"))
        made.append(tag("details", tag("summary", head), _table(rest, "What agrees, what one has only")))
    return tag("section", *made, class_="segment" if shown else "segment quiet")


def _table(items: Iterable[Item], caption: str) -> Html:
    rows = [
        (
            text(place_of(item)),
            text(said_words(item, item.a)),
            text(said_words(item, item.b)),
            _mark(item.verdict, VERDICTS[item.verdict]),
        )
        for item in items
    ]
    return table(("place", "A", "B", "verdict"), rows, caption=caption)


def _mark(verdict: str, words: str) -> Html:
    return tag("span", text(words), class_=f"mark {_MARKS.get(verdict, 'quiet')}")


def _css(package: str, name: str) -> str:
    return files(package).joinpath(name).read_text(encoding="utf-8")
