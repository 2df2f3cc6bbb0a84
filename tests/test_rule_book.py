"""What a rule says of itself, for the terminal, as data and as a page, with two hearts to see it by."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from chordae.cli import main
from chordae.errors import ShapesError
from chordae.shapes.explain import examples, explain_rule, rule_facts
from chordae.shapes.load import load_rules
from chordae.shapes.rulebook import rule_book
from chordae.shapes.set_rules import load_set_rules
from rule_cases import cases, full, spoke_of


def test_the_flagship_rule_is_explained() -> None:
    text = explain_rule("R-AV-13")
    flat = " ".join(text.split())
    assert text.startswith("R-AV-13 (violation): A tricuspid valve has septal cords\n")
    said = ("Rule: A tricuspid valve with a normal septal leaflet", "Do: Look again", "Exception: A septal leaflet")
    for words in said:
        assert words in flat
    assert "Source: EMED: " in flat
    assert "A heart that passes: tricuspid valve with septal cords" in flat
    assert "septal_chordal_attachment: absent" in flat
    assert max(map(len, text.splitlines())) <= 100


@pytest.mark.parametrize("rule", load_rules().rules)
def test_every_rule_has_two_hearts_that_do_what_they_say(rule: str) -> None:
    kinds = examples()[rule]
    assert rule not in spoke_of(full(dict(kinds["passing"].record)))
    assert rule in spoke_of(full(dict(kinds["failing"].record)))
    assert kinds["failing"].says in {case.says for case in cases() if case.rule == rule}
    assert explain_rule(rule).count("A heart that") == 2


def test_an_unknown_rule_is_an_error_with_words() -> None:
    with pytest.raises(ShapesError, match="no rule R-AV-99"):
        explain_rule("R-AV-99")


def test_rule_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "r-topo-01", "--report", "json"]) == 0
    (found,) = json.loads(capsys.readouterr().out)
    assert found == json.loads(json.dumps(rule_facts("R-TOPO-01")))
    assert found["examples"]["failing"]["record"]["stated"]["topology"] == "left_hand"


def test_rule_book_is_one_page_that_asks_nothing_of_the_network(tmp_path: Path) -> None:
    assert main(["explain", "--rule-book", str(tmp_path / "rules.html")]) == 0
    page = (tmp_path / "rules.html").read_text(encoding="utf-8")
    assert page == rule_book()
    assert re.findall(r"(?:src|href)=\"(?!#)", page) == []
    assert not re.search(r"@import|url\(|<script.+src|<link|<img|fetch\(|XMLHttp|import\(", page)
    assert "default-src 'none'" in page
    assert "not for diagnosis" in " ".join(page.split())


def test_rule_book_holds_every_rule_once_and_its_links_lead_somewhere() -> None:
    class Page(HTMLParser):
        def __init__(self) -> None:
            super().__init__()
            self.ids: list[str] = []
            self.links: list[str] = []
            self.open: list[str] = []

        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            found = dict(attrs)
            self.ids += [found["id"] or ""] if "id" in found else []
            self.links += [(found["href"] or "").removeprefix("#")] if "href" in found else []
            if tag not in {"meta", "input"}:
                self.open.append(tag)

        def handle_endtag(self, tag: str) -> None:
            assert self.open.pop() == tag

    page = Page()
    page.feed(rule_book())
    assert page.open == []
    assert len(page.ids) == len(set(page.ids))
    assert set(load_rules().rules) | set(load_set_rules()) <= set(page.ids)
    assert set(page.links) <= set(page.ids)


def test_rule_book_shows_hearts_in_words_by_segment_and_can_be_searched() -> None:
    page = rule_book()
    start = page.index('<article id="R-AV-02"')
    article = page[start : page.index("</article>", start)]
    assert "<b>Stated by the observer</b>" in article
    assert "atrioventricular connection: mixed atrioventricular connections" in article
    assert article.index("A heart that passes") < article.index("A heart that fails")
    assert page.count("A heart that passes") == page.count("A heart that fails") == len(load_rules().rules) + len(
        load_set_rules()
    )
    headings = [re.sub("<[^>]*>", "", one) for one in re.findall(r"<h2>.*?</h2>", page)]
    places = [headings.index(one) for one in ("Arrangement, veins, atria", "Ventricles", "Aortic arch and duct")]
    assert places == sorted(places)
    assert headings[-1] == "Across records"
    assert 'type="search"' in page and '<option value="north_american">' in page


@pytest.mark.parametrize("rule", load_set_rules())
def test_rules_across_records_are_explained(rule: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", rule]) == 0
    text = capsys.readouterr().out
    assert text.startswith(f"{rule} (") and text.count("\n  A heart that ") == 2
    assert "records:" in text


def test_nothing_asked_is_an_error(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain"]) == 2
    assert "Nothing is asked" in capsys.readouterr().err
