"""The report: counts, terminal text, page and drawing.

Outside checks: the page is parsed by the standard library's HTML parser; contrast is computed by the formula of
WCAG 2.1 (success criterion 1.4.3); the page is laid out by Chromium at 390 px, where that is installed; joins of
the named connections follow the definitions in Anderson RH et al. and Jacobs JP et al. (2006), as cited in
``schema/conclusions.yaml``.
"""

from __future__ import annotations

import html
import random
import re
import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from chordae.issues import Issue, Location
from chordae.mapping import Code
from chordae.model import STATES, enum_of
from chordae.report import Heart, Summary, make_page, make_text
from chordae.report.chain import drawing_table
from chordae.report.coding import coverage, shown_codes
from chordae.report.drawing import draw, tell
from chordae.report.markup import table, tag, text
from chordae.report.named import make_chain
from chordae.report.recorded import recorded_list, states
from chordae.report.words import basis_words, caution, part_words, value_words

HOSTILE = "<img src=x onerror=alert(1)>\"'&\u202e\x07"
VOID = {"meta", "input", "br", "hr"}


def _heart(name: str, va: str = "discordant", stated: str | None = None, **more: Any) -> Heart:
    record: dict[str, Any] = {
        "id": name,
        "specimen": {"accession": name.partition("-")[0], "consent": "written_consent"},
        "description": {"observer": "Reader A", "school": "european"},
        "parts": [
            {"id": "right_sided_atrium", "type": "Atrium", "side": "right_sided", "pectinate_extent": "to_crux"},
            {
                "id": "tricuspid_valve",
                "type": "AtrioventricularValve",
                "leaflet_count": 3,
                "cleft": "absent",
                "straddling": "not_assessable",
                "observed": [{"feature": "straddling", "state_reason": "damaged", "note": "cut away"}],
            },
        ],
        "stated": {"va_connection": stated or va, "diagnoses": ["transposition"]},
        "measurements": [{"id": "m", "quantity": "diameter", "value": 8.5, "unit": "mm", "part": "aorta"}],
        "remarks": [{"text": "see card", "place": "Remarks"}],
        **more,
    }
    derived = {
        "record": name,
        "arrangement": "usual",
        "va_connection": va,
        "notation": "TGA {S,D,D}",
        "statement": {"european": "Discordant connections.", "north_american": "TGA {S,D,D}."},
        "identities": [
            {
                "part": "right_sided_atrium",
                "identity": "morphologically_right_atrium",
                "confidence": "decided",
                "basis": ["right_sided_atrium.pectinate_extent = to_crux"],
            }
        ],
        "diagnoses": [{"term": "transposition", "label": "transposition", "codes": ["HP:1"], "premises": ["a = b"]}],
        "undetermined": [{"what": "topology", "why": "Nothing is recorded of the septal surface."}],
        "topology": "right_hand",
        "origins": {"arrangement": "inferred", "va_connection": "evidence", "topology": "stated"},
        "stated_against_derived": [
            {"what": "va_connection", "verdict": "agrees" if stated in (None, va) else "contradicts"},
            {"what": "topology", "verdict": "cannot_be_judged"},
        ],
    }
    place = Location("hearts.csv", 7, 3)
    issues = [Issue("S-REF", "violation", f"Heart {name}: not there.", "Add it.", name, location=place)]
    return Heart(record, derived, issues)


def _counts(hearts: list[Heart], collection: dict[str, str] | None = None) -> dict[str, Any]:
    summary = Summary(collection if collection is not None else {"name": "Cabinet (invented)"})
    summary.add_table(len(hearts) + 1, 1, [Issue("I-CEL-08", "violation", "No number.", "Fill it in.")])
    for heart in hearts:
        summary.add(heart.record, heart.derived, heart.issues, ["transposition", "present"])
    counts = summary.to_json()
    counts["unmapped_words"] = [{"column": "Valve", "word": "??", "count": 3}]
    counts["unmapped_columns"] = [{"column": "Shelf", "count": 9}]
    counts["not_tested"] = [{"rule": "R-AV-20", "label": "Straddling needs a hole"}]
    cells = {"filled": 40, "mapped": 30, "ignored": 4, "without_meaning": 6}
    by_ontology = [{"name": "HP", "exact": 1, "other": 0}]
    counts["coding"] = {"cells": cells, "terms": 2, "coded": 1, "exact": 1, "by_ontology": by_ontology}
    return counts


class _Page(HTMLParser):
    """Reads a page and notes what an offline, escaped, well-formed page must not have."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.faults: list[str] = []
        self.scripts = 0
        self.ids: list[str] = []
        self.links: list[str] = []
        self.words: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, name: str, attributes: list[tuple[str, str | None]]) -> None:
        if name not in VOID and not (self.open and self.open[-1] in ("rect", "path", "circle")):
            self.open.append(name)
        self.scripts += name == "script"
        for key, value in attributes:
            if key.startswith("on"):
                self.faults.append(f"handler {key}")
            if key in ("src", "href", "action", "data", "srcset") and not (value or "").startswith("#"):
                self.faults.append(f"{name} {key}={value}")
            if key == "href":
                self.links.append(str(value))
            if key == "id":
                self.ids.append(str(value))

    def handle_startendtag(self, name: str, attributes: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(name, attributes)
        if name not in VOID:
            self.handle_endtag(name)

    def handle_endtag(self, name: str) -> None:
        if not self.open or self.open.pop() != name:
            self.faults.append(f"</{name}>")

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] not in ("script", "style"):
            self.words.append(data)


@pytest.fixture(scope="module")
def page() -> str:
    hearts = [_heart("0012"), _heart("0012-b", stated="concordant"), _heart("0013", va="double_outlet_rv")]
    return make_page(_counts(hearts), hearts, {"chordae": {"version": "0.1.0"}})


def test_page_is_well_formed_and_needs_nothing_else(page: str) -> None:
    read = _Page(page)
    assert read.faults == []
    assert read.open == []
    assert read.scripts == 1
    assert not re.findall(r"@import|url\((?!#)", page)


def test_page_links_lead_somewhere(page: str) -> None:
    read = _Page(page)
    assert len(read.ids) == len(set(read.ids))
    assert {link.removeprefix("#") for link in read.links} <= set(read.ids)


def test_page_says_all_without_script(page: str) -> None:
    words = " ".join(" ".join(_Page(page).words).split())
    for said in (
        caution(),
        "3 descriptions read".replace("3 ", ""),
        "Discordant connections.",
        "TGA {S,D,D}",
        "Heart 0012: not there.",
        "Add it.",
        "hearts.csv:7:3",
        "Nothing is recorded of the septal surface.",
        "straddling: not assessable (state reason: damaged; note: cut away)",
        "diameter: 8.5 mm",
        "Remarks: see card",
        "??",
        "Shelf",
        "R-AV-20",
    ):
        assert said in words, said


def test_two_descriptions_of_one_heart_lead_to_each_other(page: str) -> None:
    assert page.count("The same heart is described in ") == 2
    assert 'described in <a href="#heart-0012-b">0012-b</a>' in page


def test_stated_and_derived_never_share_a_cell(page: str) -> None:
    rows = re.findall(r'<tr><th scope="row">Ventriculoarterial connection</th>(.*?)</tr>', page)
    assert len(rows) == 3
    for row in rows:
        assert re.findall(r'data-label="([^"]+)"', row) == ["Observer stated", "Derived"]
    assert 'class="differ"' in rows[1]
    assert 'class="same"' in rows[0]
    assert page.count("no feature tells; taken over as stated") == 3
    assert page.count("expected from other conclusions, not seen") == 3


def test_hostile_words_stay_words() -> None:
    heart = _heart(
        HOSTILE,
        remarks=[{"text": HOSTILE, "place": HOSTILE}],
        stated={"statement": HOSTILE, "notation": HOSTILE, "diagnoses": [HOSTILE], "va_connection": HOSTILE},
        description={"observer": HOSTILE},
    )
    heart.record["parts"].append({"id": HOSTILE, "type": "Atrium", "side": "left_sided", "note": HOSTILE})
    counts = _counts([heart], {"name": HOSTILE, "custodian": HOSTILE, "licence": HOSTILE})
    counts["unmapped_words"] = [{"column": HOSTILE, "word": HOSTILE, "count": 1}]
    made = make_page(counts, [heart], {"chordae": {"version": HOSTILE}})
    read = _Page(made)
    assert read.faults == []
    assert read.scripts == 1
    assert "<img" not in made
    assert "\u202e" not in made
    assert "\x07" not in made
    told = make_text(counts)
    assert "\x07" not in told
    assert "\u202e" not in told


def test_page_of_nothing() -> None:
    counts = Summary({}).to_json()
    read = _Page(make_page(counts, [], {}))
    assert read.faults == []
    assert "No issues were found." in read.words
    assert "0 rows in the catalogue" in make_text(counts)


@pytest.mark.skipif(shutil.which("chromium") is None, reason="the layout is tested where Chromium is installed")
def test_page_fits_a_narrow_screen(page: str, tmp_path: Path) -> None:
    # A frame of 390 px, because a window cannot be made that narrow everywhere.
    script = (
        "<script>document.querySelector('iframe').onload = e => { const d = e.target.contentDocument; document.title = "
        "d.documentElement.scrollWidth + ' in ' + d.documentElement.clientWidth + [...d.querySelectorAll('main *')]"
        ".filter(o => o.getBoundingClientRect().right > 391).map(o => ' ' + o.tagName).join('') + "
        "' ' + d.getElementById('shown').textContent; }</script>"
    )
    frame = f'<iframe width="390" height="900" style="border:0" srcdoc="{html.escape(page)}"></iframe>'
    (tmp_path / "page.html").write_text(f"<!doctype html><title>none</title>{frame}{script}", encoding="utf-8")
    command = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"]
    command += ["--disable-background-networking", "--disable-component-update", "--disable-sync"]
    command += [f"--user-data-dir={tmp_path / 'profile'}", "--window-size=800,1000", "--dump-dom"]
    run = subprocess.run(
        [*command, (tmp_path / "page.html").as_uri()], capture_output=True, text=True, timeout=120, check=True
    )
    found = re.search(r"<title>(.*?)</title>", run.stdout)
    assert found and re.fullmatch(r"(3[5-9]\d) in \1 3 of 3 shown", found[1]), found and found[1]


def _luminance(colour: str) -> float:
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
def test_words_stand_out_from_their_ground(page: str, scheme: int) -> None:
    """At least 4.5 to 1, as WCAG 2.1 asks for text of normal size."""
    colours = dict(
        re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6})", re.findall(r":root \{(.*?)\}", page, re.DOTALL)[scheme])
    )
    pairs = [(ink, ground) for ink in ("ink", "soft", "link", "bad", "warn") for ground in ("paper", "card")]
    pairs += [("bad", "bad-bg"), ("warn", "warn-bg"), ("info", "info-bg")]
    for ink, ground in pairs:
        light, dark = sorted((_luminance(colours[ink]), _luminance(colours[ground])), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= 4.5, (ink, ground)


def test_counts_do_not_depend_on_the_order_of_the_records() -> None:
    hearts = [_heart(f"{number:03}", va=va) for number, va in enumerate(["concordant", "discordant"] * 10)]
    first = _counts(hearts)
    random.Random(7).shuffle(hearts)
    second = _counts(hearts)
    for counts in (first, second):
        for row in counts["by_rule"]:
            del row["examples"]
        for row in counts["undetermined"]:
            del row["records"]
    assert first == second


def test_counts_of_hearts_agreement_and_consent() -> None:
    counts = _counts([_heart("0012"), _heart("0012-b", stated="concordant"), _heart("0013")])
    assert (counts["rows"], counts["records"], counts["hearts"], counts["refused"]) == (4, 3, 2, 1)
    assert counts["issues"] == {"violation": 4, "warning": 0, "info": 0}
    rows = {row["value"]: (row["derived"], row["stated"]) for row in counts["conclusions"]["va_connection"]}
    assert rows == {"discordant": (3, 2), "concordant": (0, 1)}
    agreement = {slot: {kind: n for kind, n in found.items() if n} for slot, found in counts["agreement"].items()}
    assert agreement == {
        "va_connection": {"agrees": 2, "contradicts": 1},
        "atrial_arrangement": {"derived_only": 3},
        "topology": {"cannot_be_judged": 3},
        "av_connection": {"neither": 3},
    }
    assert counts["conclusions"]["topology"] == [], "what was taken over from the observer is not derived"
    (diagnosis,) = counts["diagnoses"]
    assert (diagnosis["stated"], diagnosis["derived"], diagnosis["both"]) == (3, 3, 3)
    assert counts["consent"]["recorded"] == 3
    by_rule = {row["rule"]: (row["count"], row["records"]) for row in counts["by_rule"]}
    assert by_rule == {"S-REF": (3, 3), "I-CEL-08": (1, 0)}


def test_text_fits_80_columns_and_says_what_to_do() -> None:
    counts = _counts([_heart("0012"), _heart("0013", va="double_outlet_rv")])
    counts["by_rule"][0]["examples"][0]["message"] = "A long sentence that goes on and on. " * 9
    made = make_text(counts)
    assert max(len(line) for line in made.splitlines()) <= 80
    for said in ("4 violations", "-> Add it.", "30 of 40 filled cells", "R-AV-20", "not for\ndiagnosis"):
        assert said.replace("4 v", "3 v") in made, said


def test_coverage_counts_a_term_once_for_each_ontology() -> None:
    def code(curie: str, predicate: Any, same: bool = False) -> Code:
        return Code(curie, "", predicate, "invented", "", reviewed=False, same=same, comment="")

    known = {
        "aorta": [code("UBERON:1", "exact"), code("UBERON:2", "broad"), code("HP:1", "narrow")],
        "cleft": [code("HP:2", "close")],
    }
    found = coverage([*known, "twisting", *STATES], lambda term: known.get(term, []))
    assert (found["terms"], found["coded"], found["exact"]) == (3, 2, 1)
    assert found["by_ontology"] == [
        {"name": "HPO", "exact": 0, "other": 2},
        {"name": "Uberon", "exact": 1, "other": 0},
    ]
    assert coverage(["cleft"], lambda _: [code("HP:2", "close", same=True)])["exact"] == 1
    assert shown_codes(known["aorta"]) == ["UBERON:1", "UBERON:2 (broad)", "HP:1 (narrow)"]


@pytest.mark.parametrize("slot", ["av_connection", "va_connection"])
def test_every_connection_can_be_drawn(slot: str) -> None:
    named = set(enum_of(slot) or ()) - set(STATES)
    assert named == set(drawing_table()[slot])
    for value in named:
        chain = make_chain({"id": "1", "stated": {slot: value}}, {})
        assert chain.nodes, value
        assert all(0 <= (node.place if node.place is not None else -1) <= 1 for node in chain.nodes)
        places = [(node.row, node.place) for node in chain.nodes]
        assert len(places) == len(set(places)), value
        assert draw(chain, "1", str)


def _joins(stated: dict[str, Any], derived: dict[str, Any] | None = None) -> set[tuple[str | None, str | None]]:
    chain = make_chain({"id": "1", "stated": stated}, derived or {})
    names = {node.key: node.identity for node in chain.nodes}
    return {(names.get(join.upper or ""), names.get(join.lower or "")) for join in chain.joins}


RA, LA = "morphologically_right_atrium", "morphologically_left_atrium"
RV, LV = "morphologically_right_ventricle", "morphologically_left_ventricle"

DEFINED: list[tuple[dict[str, str], set[tuple[str | None, str | None]]]] = [
    ({"atrial_arrangement": "usual", "av_connection": "concordant"}, {(RA, RV), (LA, LV)}),
    ({"atrial_arrangement": "mirror_image", "av_connection": "concordant"}, {(RA, RV), (LA, LV)}),
    ({"atrial_arrangement": "usual", "av_connection": "discordant"}, {(RA, LV), (LA, RV)}),
    (
        {"atrial_arrangement": "right_isomerism", "topology": "left_hand", "av_connection": "mixed"},
        {(RA, LV), (RA, RV)},
    ),
    ({"atrial_arrangement": "usual", "av_connection": "double_inlet_lv"}, {(RA, LV), (LA, LV)}),
    ({"atrial_arrangement": "usual", "topology": "right_hand", "av_connection": "absent_right"}, {(LA, None)}),
    ({"topology": "right_hand", "va_connection": "discordant"}, {(RV, "aorta"), (LV, "pulmonary_trunk")}),
    ({"topology": "right_hand", "va_connection": "double_outlet_rv"}, {(RV, "aorta"), (RV, "pulmonary_trunk")}),
    ({"topology": "right_hand", "va_connection": "single_outlet_common_trunk"}, {(None, "common_arterial_trunk")}),
]


@pytest.mark.parametrize(
    ("stated", "joins"), DEFINED, ids=lambda one: "-".join(one.values()) if isinstance(one, dict) else ""
)
def test_named_connections_join_what_their_definition_says(
    stated: dict[str, str], joins: set[tuple[str | None, str | None]]
) -> None:
    assert _joins(stated) == joins


def test_recorded_commitments_come_before_the_name() -> None:
    record = {
        "id": "1",
        "parts": [
            {"id": "rv", "type": "Ventricle", "side": "right_sided", "stated_ventricular_identity": RV},
            {"id": "lv", "type": "Ventricle", "side": "left_sided", "completeness": "incomplete"},
            {
                "id": "aorta",
                "type": "ArterialTrunk",
                "stated_trunk_identity": "aorta",
                "arises_from": [{"ventricle": "rv", "per_cent": 70}, {"ventricle": "lv", "per_cent": 30}],
            },
            {
                "id": "pulmonary_trunk",
                "type": "ArterialTrunk",
                "stated_trunk_identity": "pulmonary_trunk",
                "trunk_calibre": "atretic",
                "arises_from": [{"ventricle": "rv", "per_cent": 100}],
            },
            {"id": "great_arteries", "type": "GreatArteries", "aorta_relation": "left_side_by_side"},
        ],
        "stated": {"va_connection": "concordant"},
    }
    derived = {"identities": [{"part": "lv", "identity": LV, "confidence": "supported", "basis": []}]}
    chain = make_chain(record, derived)
    assert {(join.upper, join.lower, join.share, join.closed) for join in chain.joins} == {
        ("rv", "aorta", 70, False),
        ("lv", "aorta", 30, False),
        ("rv", "pulmonary_trunk", 100, True),
    }
    nodes = {node.key: node for node in chain.nodes}
    assert (nodes["rv"].firmness, nodes["lv"].firmness) == ("stated", "supported")
    assert nodes["lv"].small
    assert (nodes["aorta"].place, nodes["pulmonary_trunk"].place) == (1.0, 0.0)
    said = " ".join(tell(chain, lambda one: value_words("identity", one)))
    assert "aorta, 70 per cent (recorded)" in said
    assert "closed (recorded)" in said


def test_sides_that_are_not_recorded_are_not_made_up() -> None:
    chain = make_chain({"id": "1", "stated": {"va_connection": "concordant"}}, {})
    assert chain.unknown == (1, 2)
    assert "side not recorded" in " ".join(tell(chain, str))


@pytest.mark.parametrize(("lateral", "places"), [("right_sided", (0.0, 1.0)), ("left_sided", (1.0, 0.0))])
def test_ventricles_lie_where_the_ventricular_mass_says(lateral: str, places: tuple[float, float]) -> None:
    parts = [
        {"id": "rv", "type": "Ventricle", "stated_ventricular_identity": RV},
        {"id": "lv", "type": "Ventricle", "stated_ventricular_identity": LV},
        {"id": "ventricular_mass", "type": "VentricularMass", "right_ventricle_lateral": lateral},
    ]
    chain = make_chain({"id": "1", "parts": parts}, {})
    assert tuple(node.place for node in chain.nodes) == places
    assert chain.unknown == ()


def test_nothing_known_draws_nothing() -> None:
    assert draw(make_chain({"id": "1"}, {}), "1", str) == ""


def test_a_valve_that_is_imperforate_closes_its_junction() -> None:
    record = {
        "id": "1",
        "parts": [
            {"id": "a", "type": "Atrium", "side": "right_sided"},
            {"id": "v", "type": "Ventricle", "side": "right_sided"},
            {
                "id": "j",
                "type": "AtrioventricularJunction",
                "side": "right_sided",
                "opens_into": [{"ventricle": "v", "per_cent": 100}],
            },
            {"id": "w", "type": "AtrioventricularValve", "junction": "j", "valve_patency": "imperforate"},
        ],
    }
    assert [(join.upper, join.lower, join.closed) for join in make_chain(record, {}).joins] == [("a", "v", True)]


def test_the_four_states_are_counted_apart() -> None:
    found = states(_heart("1").record)
    assert found == {"other": 3, "absent": 1, "not_assessable": 1}
    assert "1 absent, 1 not assessable" in recorded_list(_heart("1").record)


def test_markup_escapes_and_labels_its_cells() -> None:
    made = table(("A", "B <"), [(text("x"), text(HOSTILE))], caption="C &")
    assert '<td data-label="B &lt;">' in made
    assert "<img" not in made
    assert tag("a", text("x"), href='"><script>') == '<a href="&quot;&gt;&lt;script&gt;">x</a>'


def test_words() -> None:
    assert part_words("interventricular_communication_2") == "communication between the ventricles (2)"
    assert basis_words("no such ground") == "no such ground"
    assert value_words("leaflet_count", 3) == "3"
