"""Evidence as W3C Web Annotations, and back: the target is the region or the seconds, the bodies say what is seen.

::

    target   {"type": "SpecificResource", "source": ".../media/plate_1.jpg",
              "selector": [{"type": "FragmentSelector", "value": "xywh=percent:30,20,45,50"}, {"type": "SvgSelector"}]}
    body     part or feature (linking), what was recorded of it (describing), view (tagging), note (commenting)

Nothing is said to identify what the region shows: the region may be evidence that the thing is absent.
The shipped text names the context of the Recommendation; it is never fetched, neither on writing nor on reading.
Source: W3C Web Annotation Data Model (Recommendation 2017); Media Fragments URI 1.0.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any
from urllib.parse import quote, unquote

from chordae.canonical import canonical
from chordae.formats.evidence.media import media_iri, media_name, media_type, sort_of
from chordae.formats.evidence.selectors import Selector, parse_selector
from chordae.formats.evidence.words import shown_by
from chordae.formats.json_input import listed, mapped, read_json
from chordae.formats.losses import Carried
from chordae.formats.settings import CAUTION, Item, Settings
from chordae.issues import Issue, Location, issue
from chordae.model import tables
from chordae.rdf.emit import check_base, record_iri
from chordae.rdf.terms import TERM
from chordae.record import Reading, Record
from chordae.resources import VERSION

__all__ = ["CONTEXT", "read", "write"]

CONTEXT = "http://www.w3.org/ns/anno.jsonld"
_FRAGMENTS = "http://www.w3.org/TR/media-frags/"
_MODEL = "https://w3id.org/chordae/model/"
_MADE_ON = "model:made_on"
_SHOWN = ("linking", "identifying")
"""Purposes of a body that names what is seen; the second one is how others may say it."""


def write(items: Iterable[Item], settings: Settings) -> Iterator[bytes]:
    """Yield the pieces of an annotation collection with one page."""
    base = check_base(settings.base)
    found: list[dict[str, Any]] = []
    for record, _ in items:
        carried: Carried = {}
        found += _of_record(record, settings, carried)
        settings.note(record, carried)
    collection = {
        "@context": [CONTEXT, {"model": _MODEL}],
        "id": f"{base}annotations",
        "type": "AnnotationCollection",
        "label": f"What the evidence shows. {CAUTION}",
        "generator": _generator(),
        "total": len(found),
    }
    page = {"id": f"{base}annotations/1", "type": "AnnotationPage", "startIndex": 0, "items": found}
    yield (json.dumps(collection | {"first": page}, ensure_ascii=False, indent=1) + "\n").encode()


def read(data: bytes, name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read the evidence in a collection, a page, a list of annotations or a single one."""
    value, issues = read_json(data, name)
    work = _Reading(name, issues)
    for one in _annotations(value):
        work.annotation(one)
    if value is not None and not work.met:
        issues.append(issue("I-ANN-01", location=Location(name), name=name))
    place = {"": Location(name)}
    return [Reading(canonical(record), place) for record in work.records.values()], issues


def _of_record(record: Record, settings: Settings, carried: Carried) -> Iterator[dict[str, Any]]:
    iri = record_iri(record["id"], settings.base)
    observer = (record.get("description") or {}).get("observer")
    for at, one in enumerate(record.get("evidence") or ()):
        carried |= {"/id": "coded", f"/evidence/{at}/id": "coded", f"/evidence/{at}/source_file": "coded"}
        made: dict[str, Any] = {"id": f"{iri}/evidence/{quote(str(one['id']), safe='')}", "type": "Annotation"}
        made["motivation"] = "describing" if one.get("shows") else "commenting"
        if observer:
            made["creator"] = {"type": "Person", "name": observer}
        made |= {"generator": _generator(), "generated": settings.recorded}
        bodies = list(_bodies(record, iri, at, one, settings, carried))
        if bodies:
            made["body"] = bodies
        made["target"] = _target(one, at, settings, carried)
        yield made


def _bodies(
    record: Record, iri: str, at: int, one: Mapping[str, Any], settings: Settings, carried: Carried
) -> Iterator[dict[str, Any]]:
    if (kind := one.get("evidence_kind")) is not None:
        carried[f"/evidence/{at}/evidence_kind"] = "coded"
        source = tables().slots["evidence_kind"].values[kind]
        yield {"type": "SpecificResource", "source": source, "purpose": "classifying"}
    for number, (part, feature, words) in enumerate(shown_by(record, one, settings.school)):
        fragment = f"#{quote(feature, safe='')}" if feature else ""
        source = f"{iri}/part/{quote(part, safe='')}{fragment}"
        where = f"/evidence/{at}/shows/{number}"
        carried[f"{where}/part"] = "coded"
        if feature:
            carried[f"{where}/feature"] = "coded"
        yield {"type": "SpecificResource", "source": source, "purpose": "linking"}
        yield _text(words, "describing")
    for key, purpose in (("view", "tagging"), ("note", "commenting")):
        if one.get(key):
            carried[f"/evidence/{at}/{key}"] = "coded"
            yield _text(one[key], purpose)


def _target(one: Mapping[str, Any], at: int, settings: Settings, carried: Carried) -> dict[str, Any]:
    source: dict[str, Any] = {"id": media_iri(str(one["source_file"]), settings.base), "type": sort_of(one)}
    if format := media_type(str(one["source_file"])):
        source["format"] = format
    if one.get("made_by"):
        carried[f"/evidence/{at}/made_by"] = "coded"
        source["creator"] = {"type": "Person", "name": one["made_by"]}
    if one.get("made_on"):
        carried[f"/evidence/{at}/made_on"] = "coded"
        source[_MADE_ON] = one["made_on"]
    target: dict[str, Any] = {"type": "SpecificResource", "source": source}
    if one.get("selector"):
        carried[f"/evidence/{at}/selector"] = "coded"
        target["selector"] = [{"type": "FragmentSelector", "conformsTo": _FRAGMENTS, "value": one["selector"]}]
        if (svg := _svg(parse_selector(one["selector"]))) is not None:
            target["selector"].append({"type": "SvgSelector", "value": svg})
    return target


def _svg(selector: Selector | None) -> str | None:
    """Return a region as an SVG rectangle, for viewers that read no media fragments."""
    if selector is None or selector.box is None or selector.timed:
        return None
    sign = "%" if selector.unit == "percent" else ""
    names = ("x", "y", "width", "height")
    sides = " ".join(f'{name}="{side:g}{sign}"' for name, side in zip(names, selector.box, strict=True))
    return f'<svg xmlns="http://www.w3.org/2000/svg"><rect {sides}/></svg>'


def _text(words: str, purpose: str) -> dict[str, Any]:
    return {"type": "TextualBody", "value": words, "format": "text/plain", "language": "en", "purpose": purpose}


def _generator() -> dict[str, Any]:
    return {"id": "https://w3id.org/chordae/", "type": "Software", "name": f"chordae {VERSION}"}


def _annotations(value: Any) -> Iterator[dict[str, Any]]:
    if isinstance(value, list):
        yield from listed(value)
        return
    one = mapped(value)
    if one.get("type") == "Annotation":
        yield one
    yield from listed(one.get("items"))
    yield from listed(mapped(one.get("first")).get("items"))


class _Reading:
    """Records that grow from annotations."""

    def __init__(self, name: str, issues: list[Issue]) -> None:
        self.place = Location(name)
        self.issues = issues
        self.records: dict[str, Record] = {}
        self.met = 0

    def annotation(self, one: Mapping[str, Any]) -> None:
        self.met += 1
        iri = one.get("id")
        start, _, last = iri.rpartition("/evidence/") if isinstance(iri, str) else ("", "", "")
        if not start or not last or "/" in last:
            self.issues.append(issue("I-ANN-02", location=self.place, value=iri))
            return
        base, _, record_id = start.rpartition("/")
        found: Record = {"id": unquote(last)}
        self._target(one.get("target"), f"{base}/", found)
        for body in _many(one.get("body")):
            self._body(body, start, found)
        name = unquote(record_id)
        rows = self.records.setdefault(name, {"id": name}).setdefault("evidence", [])
        if any(row["id"] == found["id"] for row in rows):
            self.issues.append(issue("I-ANN-03", location=self.place, record=name, value=found["id"]))
        else:
            rows.append(found)

    def _target(self, value: Any, base: str, found: Record) -> None:
        target = next(iter(_many(value)), {}) if not isinstance(value, str) else {"source": value}
        source = target.get("source", target.get("id"))
        iri = source.get("id") if isinstance(source, dict) else source
        if isinstance(iri, str):
            found["source_file"] = media_name(iri, base)
        fragments = [one for one in _many(target.get("selector")) if one.get("type") == "FragmentSelector"]
        if fragments and isinstance(fragments[0].get("value"), str):
            found["selector"] = fragments[0]["value"]
        elif target.get("selector") is not None:
            self.issues.append(issue("I-ANN-04", location=self.place, value=found["id"]))
        about = mapped(source)
        if isinstance(name := mapped(about.get("creator")).get("name"), str):
            found["made_by"] = name
        if isinstance(about.get(_MADE_ON), str):
            found["made_on"] = about[_MADE_ON]

    def _body(self, body: Mapping[str, Any], record: str, found: Record) -> None:
        purpose, source, words = body.get("purpose"), body.get("source"), body.get("value")
        if purpose in _SHOWN and isinstance(source, str) and source.startswith(f"{record}/part/"):
            part, _, feature = source.removeprefix(f"{record}/part/").partition("#")
            found.setdefault("shows", []).append(
                {"part": unquote(part)} | ({"feature": unquote(feature)} if feature else {})
            )
        elif purpose == "classifying" and isinstance(source, str) and source.startswith(TERM):
            kinds = {iri: word for word, iri in tables().slots["evidence_kind"].values.items()}
            if source in kinds:
                found["evidence_kind"] = kinds[source]
        elif purpose in ("tagging", "commenting") and isinstance(words, str):
            found.setdefault("view" if purpose == "tagging" else "note", words)


def _many(value: Any) -> list[dict[str, Any]]:
    return [value] if isinstance(value, dict) else listed(value)
