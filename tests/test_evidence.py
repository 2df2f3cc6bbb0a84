"""Evidence for viewers and players: others accept it, it points where the record says, and it says what was recorded.

Published sources: W3C Web Annotation Data Model (its MUSTs in our own words in ``data/web_annotation.schema.json``,
the keys used here in ``data/web_annotation.context.jsonld``, expanded by ``rdflib``),
Media Fragments URI 1.0, WebVTT (read by ``webvtt-py``), IIIF Presentation 3 (validated by ``iiif-prezi3``).
"""

from __future__ import annotations

import io
import json
import struct
import zlib
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
import rdflib
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.formats_data import BASE, RECORDS, example_records, there_and_back, written
from tests.strategies import records
from tests.test_sheets import in_plain_words

from chordae import cli
from chordae.canonical import canonical
from chordae.formats.evidence.iiif import NOMINAL
from chordae.formats.evidence.media import media_iri, media_name, picture_size
from chordae.formats.evidence.selectors import Selector, format_time, parse_selector
from chordae.formats.losses import confirm
from chordae.formats.opening import open_bytes
from chordae.formats.packing import unpack
from chordae.formats.settings import CAUTION
from chordae.formats.table import FORMATS
from chordae.model import tables
from chordae.record import Record

DATA = Path(__file__).parent / "data"
OA = rdflib.Namespace("http://www.w3.org/ns/oa#")
SHOWN: Record = {
    "id": "0012",
    "description": {"observer": "Reader <A>"},
    "parts": [
        {
            "id": "right_sided_ventricle",
            "type": "Ventricle",
            "apical_trabeculation": "coarse",
            "septomarginal_trabeculation": "absent",
            "moderator_band": "not_assessable",
            "septal_surface": "not_examined",
            "observed": [{"feature": "apical_trabeculation", "certainty": "probable"}],
        },
        {"id": "arterial_duct", "type": "ArterialDuct", "state": "absent"},
    ],
    "evidence": [
        {
            "id": "video_1",
            "evidence_kind": "video",
            "source_file": "flow & more.mp4",
            "selector": "t=8,19.5",
            "view": "inlet --> apex <opened>",
            "shows": [
                {"part": "right_sided_ventricle", "feature": name}
                for name in (
                    "apical_trabeculation",
                    "septomarginal_trabeculation",
                    "moderator_band",
                    "septal_surface",
                    "completeness",
                )
            ],
        },
        {"id": "video_2", "evidence_kind": "video", "source_file": "flow & more.mp4", "selector": "t=2",
         "shows": [{"part": "arterial_duct"}]},
        {"id": "plate_1", "evidence_kind": "photograph", "source_file": "plate.png",
         "selector": "xywh=10,20,30,40", "made_by": "Studio", "made_on": "1998"},
        {"id": "plate_2", "evidence_kind": "photograph", "source_file": "plate.png", "note": "pale",
         "selector": "xywh=percent:10,20,30,40"},
        {"id": "scan_1", "evidence_kind": "scan", "source_file": "https://example.org/volume.nii"},
    ],
}  # fmt: skip
WORDS = [
    "right-sided ventricle, apical trabeculation: coarse apical trabeculations (probable)",
    "right-sided ventricle, septomarginal trabeculation: looked for and absent",
    "right-sided ventricle, moderator band: could not be assessed",
    "right-sided ventricle, septal surface: was not examined",
    "right-sided ventricle, completeness: not recorded",
]
"""Every state has words of its own, and silence too."""


def files(name: str, found: list[Record], **options: Any) -> dict[str, bytes]:
    return unpack(written(FORMATS[name], found, **options)[0], "evidence.zip")


# --- selectors ---


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("t=12.5", Selector(start=12.5)),
        ("t=npt:,20", Selector(start=0, end=20)),
        ("t=8,9&xywh=percent:0,0,50,50", Selector("percent", (0, 0, 50, 50), 8, 9)),
        ("xywh=pixel:1,2,3,4", Selector("pixel", (1, 2, 3, 4))),
        ("t=9,8", None),
        ("t=", None),
        ("xywh=1,2,3", None),
        ("", None),
        (None, None),
    ],
)
def test_selectors_are_read_as_media_fragments(text: str | None, expected: Selector | None) -> None:
    assert parse_selector(text) == expected


@given(st.from_regex(tables().slots["selector"].pattern or "", fullmatch=True))
def test_a_selector_of_the_schema_is_read_or_left_out_never_an_error(text: str) -> None:
    found = parse_selector(text)
    assert found is None or found.box is not None or found.timed


@given(st.floats(0, 1e12))
def test_times_are_written_as_hours_minutes_seconds(seconds: float) -> None:
    hours, minutes, rest = format_time(seconds).split(":")
    assert int(minutes) < 60 and float(rest) < 60
    assert int(hours) * 3600 + int(minutes) * 60 + float(rest) == pytest.approx(min(seconds, 359_999), abs=1e-3)


# --- Web Annotations ---


@pytest.fixture(scope="module")
def recommendation() -> jsonschema_rs.Draft7Validator:
    """The MUSTs of the Recommendation."""
    schema = json.loads((DATA / "web_annotation.schema.json").read_text(encoding="utf-8"))
    return jsonschema_rs.Draft7Validator(schema, validate_formats=True)


def test_annotations_are_as_the_recommendation_has_them(recommendation: jsonschema_rs.Draft7Validator) -> None:
    made = json.loads(written(FORMATS["annotations"], [*example_records(), SHOWN])[0])
    assert [error.message for error in recommendation.iter_errors(made)] == []
    items = made["first"]["items"]
    assert made["total"] == len(items) == sum(len(one.get("evidence", ())) for one in (*RECORDS.values(), SHOWN))
    assert CAUTION in made["label"]
    for spoil in (
        lambda one: one.pop("target"),
        lambda one: one.update(created="last week"),
        lambda one: one.update(motivation="showing"),
        lambda one: one.update(id="plate 1"),
        lambda one: one["target"].update(selector=[{"type": "FragmentSelector"}]),
    ):
        bad = json.loads(json.dumps(made))
        spoil(bad["first"]["items"][0])
        assert not recommendation.is_valid(bad)


def expanded(made: dict[str, Any]) -> rdflib.Graph:
    """What a reader of RDF sees, with the context of the Recommendation from a file of the tests."""
    context = json.loads((DATA / "web_annotation.context.jsonld").read_text(encoding="utf-8"))["@context"]
    local = made | {"@context": [context, *made["@context"][1:]]}
    return rdflib.Graph().parse(data=json.dumps(local), format="json-ld")


def keys(value: Any) -> set[str]:
    if isinstance(value, dict):
        return set(value).union(*(keys(one) for one in value.values()))
    return set().union(*(keys(one) for one in value)) if isinstance(value, list) else set()


def test_annotations_say_the_same_to_a_reader_of_rdf() -> None:
    """Expanded by ``rdflib``; each key is one of the vocabulary, or JSON-LD would leave it out in silence."""
    made = json.loads(written(FORMATS["annotations"], [*example_records(), SHOWN])[0])
    context = json.loads((DATA / "web_annotation.context.jsonld").read_text(encoding="utf-8"))["@context"]
    assert {one for one in keys(made) if not one.startswith(("@", "model"))} <= set(context)
    graph = expanded(made)
    found = set(graph.subjects(rdflib.RDF.type, OA.Annotation))
    items = made["first"]["items"]
    assert {str(one) for one in found} == {one["id"] for one in items} and len(found) == len(items) > 20
    for one in found:
        (target,) = graph.objects(one, OA.hasTarget)
        (motive,) = graph.objects(one, OA.motivatedBy)
        (source,) = graph.objects(target, OA.hasSource)
        assert motive in (OA.describing, OA.commenting) and str(source).startswith(("https://", "http://"))
        for selector in graph.objects(target, OA.hasSelector):
            assert graph.value(selector, rdflib.RDF.value) is not None
        for body in graph.objects(one, OA.hasBody):
            said = graph.value(body, rdflib.RDF.value) or graph.value(body, OA.hasSource)
            assert said is not None and graph.value(body, OA.hasPurpose) in (
                OA.linking, OA.describing, OA.classifying, OA.tagging, OA.commenting,
            )  # fmt: skip
    words = {str(one) for one in graph.objects(None, rdflib.RDF.value)}
    assert set(WORDS) <= words
    spoilt = json.loads(json.dumps(made))
    spoilt["first"]["items"][0]["targets"] = spoilt["first"]["items"][0].pop("target")
    assert not keys(spoilt) <= set(context) | {"@context", "model", "model:made_on"}
    assert len(set(expanded(spoilt).subjects(OA.hasTarget, None))) == len(found) - 1


def test_nothing_is_said_to_identify_what_is_absent() -> None:
    """*identifying* gives the region an identity; a region may be evidence that the thing is not there."""
    made = json.loads(written(FORMATS["annotations"], [SHOWN])[0])
    assert "identifying" not in json.dumps(made)
    theirs = json.loads(json.dumps(made).replace('"linking"', '"identifying"'))
    for one in (made, theirs):
        readings, issues = open_bytes(json.dumps(one).encode(), "a.json", FORMATS["annotations"])
        assert issues == []
        (video,) = (row for row in readings[0].record["evidence"] if row["id"] == "video_1")
        assert video["shows"] == SHOWN["evidence"][0]["shows"]


def test_annotations_point_at_the_region_and_say_what_is_seen_there() -> None:
    made = json.loads(written(FORMATS["annotations"], [SHOWN])[0])
    video, _, plate, share, _ = made["first"]["items"]
    assert video["target"]["source"]["id"] == f"{BASE}media/flow%20%26%20more.mp4"
    assert video["target"]["selector"] == [
        {"type": "FragmentSelector", "conformsTo": "http://www.w3.org/TR/media-frags/", "value": "t=8,19.5"}
    ]
    assert [one["value"] for one in video["body"] if one.get("purpose") == "describing"] == WORDS
    svg = [one["target"]["selector"][1]["value"] for one in (plate, share)]
    assert 'x="10" y="20" width="30" height="40"' in svg[0] and 'x="10%" y="20%"' in svg[1]


@settings(max_examples=40)
@given(record=records())
def test_evidence_comes_back_from_annotations(record: Record) -> None:
    record = canonical(in_plain_words(record))
    back, issues, carried = there_and_back(FORMATS["annotations"], [record])
    mine = carried[record["id"]]
    evidence = record.get("evidence", [])
    if evidence:
        assert issues == []
        assert confirm(record, mine, back[record["id"]]) == mine
        assert len(back[record["id"]]["evidence"]) == len(evidence)
    else:
        assert back == {} and [one.rule for one in issues] == ["I-ANN-01"]


def test_annotations_of_others_are_taken_where_they_speak_of_our_evidence() -> None:
    ours = f"{BASE}0012/evidence/"
    polygon = {"type": "SvgSelector", "value": '<!DOCTYPE svg [<!ENTITY x "y">]><svg><polygon points="&x;"/></svg>'}
    theirs = [
        {"id": f"{ours}a", "type": "Annotation", "target": "https://example.org/a.jpg#xywh=1,2,3,4"},
        {"id": f"{ours}b", "type": "Annotation", "target": {"source": f"{BASE}media/b.jpg", "selector": polygon}},
        {"id": f"{ours}a", "type": "Annotation", "target": "https://example.org/c.jpg"},
        {"id": "urn:uuid:1", "type": "Annotation", "target": "https://example.org/d.jpg"},
        {"type": "Annotation", "target": 3, "body": [None, 7, {"purpose": "identifying", "source": {}}]},
    ]
    readings, issues = open_bytes(json.dumps(theirs).encode(), "theirs.json", FORMATS["annotations"])
    assert [one.record for one in readings] == [
        {
            "id": "0012",
            "evidence": [
                {"id": "a", "source_file": "https://example.org/a.jpg#xywh=1,2,3,4"},
                {"id": "b", "source_file": "b.jpg"},
            ],
        }
    ]
    assert [(one.rule, one.value) for one in issues] == [
        ("I-ANN-04", "b"), ("I-ANN-03", "a"), ("I-ANN-02", "urn:uuid:1"), ("I-ANN-02", None),
    ]  # fmt: skip


def test_the_remote_context_is_never_fetched() -> None:
    """No test may open a connection (conftest); read as plain JSON-LD the file is refused for its context."""
    data, _ = written(FORMATS["annotations"], [SHOWN])
    readings, issues = open_bytes(data, "a.jsonld", FORMATS["jsonld"])
    assert readings == [] and [one.rule for one in issues] == ["I-RDF-02"]


# --- WebVTT ---


def test_chapters_and_subtitles_are_read_by_an_independent_reader() -> None:
    webvtt = pytest.importorskip("webvtt", reason="extra formats-test")
    made = files("webvtt", [SHOWN])
    assert sorted(made) == ["0012/flow___more.chapters.vtt", "0012/flow___more.subtitles.vtt"]
    chapters = webvtt.from_buffer(io.BytesIO(made["0012/flow___more.chapters.vtt"]))
    assert [(one.identifier, one.start, one.end, one.text) for one in chapters] == [
        ("video_2", "00:00:02.000", "99:59:59.000", "arterial duct"),
        ("video_1", "00:00:08.000", "00:00:19.500", "inlet --&gt; apex &lt;opened&gt;"),
    ]
    subtitles = webvtt.from_buffer(io.BytesIO(made["0012/flow___more.subtitles.vtt"]))
    assert [one.text.split("\n") for one in subtitles] == [["arterial duct: looked for and absent"], WORDS]
    assert all(CAUTION.encode() in one for one in made.values())


@settings(max_examples=40)
@given(record=records())
def test_any_interval_makes_a_file_that_can_be_read(record: Record) -> None:
    webvtt = pytest.importorskip("webvtt", reason="extra formats-test")
    spans = [parse_selector(one.get("selector")) for one in record.get("evidence", ())]
    timed = sum(one is not None and one.timed for one in spans)
    found = [webvtt.from_buffer(io.BytesIO(one)) for one in files("webvtt", [record]).values()]
    assert sum(len(one) for one in found) == 2 * timed


# --- IIIF ---


def png(width: int, height: int) -> bytes:
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    body = zlib.compress(b"".join(b"\0" * (width + 1) for _ in range(height)))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in ((b"IHDR", head), (b"IDAT", body), (b"IEND", b""))
    )


def test_manifests_are_accepted_and_broken_ones_are_not() -> None:
    prezi = pytest.importorskip("iiif_prezi3", reason="extra formats-test")
    made = files("iiif", [*example_records(), SHOWN])
    manifests = {name: json.loads(data) for name, data in made.items() if name.endswith("manifest.json")}
    assert len(manifests) > 5
    for manifest in manifests.values():
        assert prezi.Manifest.model_validate(manifest).id == manifest["id"]
    collection = json.loads(made["collection.json"])
    assert prezi.Collection.model_validate(collection) and len(collection["items"]) == len(manifests)
    broken = {
        "id": "no url",
        "items": [{"id": f"{BASE}c", "type": "Canvas", "height": "tall"}],
        "requiredStatement": {"label": {"en": ["Note"]}},
    }
    for key, value in broken.items():
        with pytest.raises(ValueError, match=key):
            prezi.Manifest.model_validate(manifest | {key: value})


def test_regions_and_seconds_are_shown_on_the_canvas(tmp_path: Path) -> None:
    bare = json.loads(files("iiif", [SHOWN])["0012/manifest.json"])
    video, plate = bare["items"]
    notes = video["annotations"][0]["items"]
    assert [one["target"].partition("#")[2] for one in notes] == ["t=8,19.5", "t=2"]
    assert notes[0]["body"]["value"].split("\n")[:5] == WORDS
    assert [one["items"][0]["id"] for one in bare["structures"]] == [one["target"] for one in notes]
    assert bare["rendering"][0]["id"] == "https://example.org/volume.nii"
    # Without the file nobody knows the size: the share is shown on a nominal canvas, the pixels are left out.
    assert (plate["width"], plate["height"]) == NOMINAL and "not recorded" in plate["summary"]["en"][0]
    assert [one["target"].partition("#")[2] for one in plate["annotations"][0]["items"]] == ["xywh=100,200,300,400"]
    _, carried = written(FORMATS["iiif"], [SHOWN])
    assert "/evidence/2/selector" not in carried["0012"] and "/evidence/3/selector" in carried["0012"]
    (tmp_path / "plate.png").write_bytes(png(400, 200))
    known = json.loads(files("iiif", [SHOWN], media=str(tmp_path))["0012/manifest.json"])["items"][1]
    assert (known["width"], known["height"]) == (400, 200) and "summary" not in known
    assert known["items"][0]["items"][0]["body"]["width"] == 400
    assert [one["target"].partition("#")[2] for one in known["annotations"][0]["items"]] == ["xywh=40,40,120,80"]


def test_a_base_that_is_no_web_address_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "a.json"
    path.write_text(json.dumps(SHOWN), encoding="utf-8")
    words = ["write", str(path), "--to", "iiif", "--base", "urn:collection:", "--out", str(tmp_path / "out")]
    assert cli.main(words) == 2
    assert "IIIF needs web addresses" in capsys.readouterr().err and not (tmp_path / "out").exists()


def test_sizes_are_read_from_the_picture_and_from_nowhere_else(tmp_path: Path) -> None:
    pillow = pytest.importorskip("PIL.Image", reason="drawn by an independent library where it is there")
    for name in ("a.png", "a.jpg", "a.gif"):
        pillow.new("RGB", (321, 123)).save(tmp_path / name)
        assert picture_size(str(tmp_path), name) == (321, 123)
    (tmp_path / "inner").mkdir()
    for name in ("../a.png", str(tmp_path / "a.png"), "b.png", "https://example.org/a.png"):
        assert picture_size(str(tmp_path / "inner"), name) is None
    for broken in (b"", b"\x89PNG\r\n\x1a\n", b"GIF89a", b"\xff\xd8\xff\xc0\0", b"\xff\xd8\xff\xe0\0\0" * 9):
        (tmp_path / "c.jpg").write_bytes(broken)
        assert picture_size(str(tmp_path), "c.jpg") is None


@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1).filter(lambda one: ":" not in one))
def test_names_of_files_come_back_from_their_addresses(name: str) -> None:
    assert media_name(media_iri(name, BASE), BASE) == name
