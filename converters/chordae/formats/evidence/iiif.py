"""Evidence for viewers, as IIIF Presentation 3: a manifest for each record, and a collection of them.

::

    collection.json
    0012/manifest.json    a canvas for each picture and sequence
                            painted with the file; annotated with what is seen where; ranges for intervals of time

The record does not say how large a picture is. With ``--media FOLDER`` the size is read from the file; without it a
canvas has a nominal size, and the manifest says so. Regions in pixels are left out where the size is not known, for
they would point elsewhere. Scans and reports, which no viewer paints, stand as links.
Source: IIIF Presentation API 3.0.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any
from urllib.parse import quote

from chordae.errors import FormatError
from chordae.formats.evidence.media import media_iri, media_type, picture_size, sort_of
from chordae.formats.evidence.selectors import Selector, parse_selector
from chordae.formats.evidence.words import shown_by, title_of
from chordae.formats.losses import Carried, Manner
from chordae.formats.packing import safe_name
from chordae.formats.settings import CAUTION, Item, Settings
from chordae.rdf.emit import check_base, record_iri
from chordae.record import Record

__all__ = ["CONTEXT", "NOMINAL", "write_files"]

CONTEXT = "http://iiif.io/api/presentation/3/context.json"
NOMINAL = (1000, 1000)
"""Size of a canvas whose picture has no known size."""
_SIZE = "The size of this picture is not recorded; the canvas has a nominal one."
_LENGTH = "The length of this sequence is not recorded; the canvas ends with the last interval that is."
_TEXT: Manner = "text"
_SECONDS = 1.0
Piece = dict[str, Any]


def write_files(items: Iterable[Item], settings: Settings) -> Iterator[tuple[str, bytes]]:
    """Yield the manifests of the records that have evidence, then the collection.

    Raises
    ------
    FormatError
        The base is no web address: IIIF asks for one.
    """
    base = check_base(settings.base)
    if not base.startswith(("http://", "https://")):
        raise FormatError(f"IIIF needs web addresses; {base} is none.", "Give a base that begins with https://.")
    made: list[Piece] = []
    used: set[str] = set()
    for record, _ in items:
        carried: Carried = {}
        if record.get("evidence"):
            manifest = _Manifest(record, settings, carried).manifest()
            if manifest is not None:
                folder = safe_name(str(record["id"]))
                while folder.casefold() in used:
                    folder += "~"
                used.add(folder.casefold())
                made.append({key: manifest[key] for key in ("id", "type", "label")})
                yield f"{folder}/manifest.json", _json(manifest)
        settings.note(record, carried)
    collection: Piece = {"@context": CONTEXT, "id": f"{base}collection", "type": "Collection"}
    collection |= {"label": _words("Evidence of descriptions of hearts"), "requiredStatement": _statement()}
    yield "collection.json", _json(collection | {"items": made})


class _Manifest:
    def __init__(self, record: Record, settings: Settings, carried: Carried) -> None:
        self.record, self.settings, self.carried = record, settings, carried
        self.iri = record_iri(record["id"], settings.base)
        self.ranges: list[Piece] = []

    def manifest(self) -> Piece | None:
        sources: dict[str, list[tuple[int, Mapping[str, Any]]]] = {}
        links: list[Piece] = []
        for at, one in enumerate(self.record["evidence"]):
            self._mark(at, one)
            if sort_of(one) in ("Image", "Video", "Sound"):
                sources.setdefault(str(one["source_file"]), []).append((at, one))
            else:
                links.append(self._link(one))
        canvases = [self._canvas(n, source, rows) for n, (source, rows) in enumerate(sources.items(), 1)]
        if not canvases:
            return None  # a manifest must have a canvas
        accession = (self.record.get("specimen") or {}).get("accession")
        name = f"Specimen {accession}" if accession else f"Description {self.record['id']}"
        made: Piece = {"@context": CONTEXT, "id": f"{self.iri}/manifest", "type": "Manifest", "label": _words(name)}
        made |= {"requiredStatement": _statement(), "items": canvases}
        if links:
            made["rendering"] = links
        if self.ranges:
            made["structures"] = self.ranges
        return made

    def _mark(self, at: int, one: Mapping[str, Any]) -> None:
        keys = ("source_file", "selector", "view", "note")
        self.carried |= {"/id": _TEXT} | {f"/evidence/{at}/{key}": _TEXT for key in keys if one.get(key)}
        for number, target in enumerate(one.get("shows") or ()):
            self.carried |= {f"/evidence/{at}/shows/{number}/{key}": _TEXT for key in target}

    def _link(self, one: Mapping[str, Any]) -> Piece:
        made: Piece = {"id": media_iri(str(one["source_file"]), self.settings.base), "type": sort_of(one)}
        made["label"] = _words(title_of(self.record, one))
        return made | ({"format": found} if (found := media_type(made["id"])) else {})

    def _canvas(self, number: int, source: str, rows: list[tuple[int, Mapping[str, Any]]]) -> Piece:
        iri = f"{self.iri}/canvas/{number}"
        first = rows[0][1]
        sort, size = sort_of(first), picture_size(self.settings.media, source)
        made: Piece = {"id": iri, "type": "Canvas", "label": _words(title_of(self.record, first))}
        body: Piece = {"id": media_iri(source, self.settings.base), "type": sort}
        if format := media_type(source):
            body["format"] = format
        if sort != "Sound":
            made["width"], made["height"] = size or NOMINAL
            body |= {"width": size[0], "height": size[1]} if size else {}
        if sort in ("Video", "Sound"):
            made["duration"] = _length(one.get("selector") for _, one in rows)
            made["summary"] = _words(_LENGTH)
        elif size is None:
            made["summary"] = _words(_SIZE)
        painting = {
            "id": f"{iri}/painting",
            "type": "Annotation",
            "motivation": "painting",
            "body": body,
            "target": iri,
        }
        made["items"] = [{"id": f"{iri}/page", "type": "AnnotationPage", "items": [painting]}]
        seen = [note for at, one in rows for note in self._notes(iri, at, one, size, made)]
        if seen:
            made["annotations"] = [{"id": f"{iri}/seen", "type": "AnnotationPage", "items": seen}]
        return made

    def _notes(
        self, canvas: str, at: int, one: Mapping[str, Any], size: tuple[int, int] | None, made: Piece
    ) -> Iterator[Piece]:
        iri = f"{self.iri}/evidence/{quote(str(one['id']), safe='')}"
        selector = parse_selector(one.get("selector"))
        picked = _fragment(selector, (made.get("width", 0), made.get("height", 0)), size)
        if one.get("selector") and picked is None:
            self.carried.pop(f"/evidence/{at}/selector", None)
        target = f"{canvas}#{picked}" if picked else canvas
        if selector is not None and selector.timed and picked:
            label = _words(title_of(self.record, one))
            items = [{"id": target, "type": "Canvas"}]
            self.ranges.append({"id": f"{iri}/range", "type": "Range", "label": label, "items": items})
        words = [words for _, _, words in shown_by(self.record, one, self.settings.school)]
        words += [str(one[key]) for key in ("view", "note") if one.get(key)]
        if words:
            body = {"type": "TextualBody", "value": "\n".join(words), "format": "text/plain", "language": "en"}
            yield {"id": iri, "type": "Annotation", "motivation": "commenting", "body": body, "target": target}


def _fragment(selector: Selector | None, canvas: tuple[int, int], size: tuple[int, int] | None) -> str | None:
    """Return a selector in the units of the canvas; ``None`` where the place cannot be told."""
    if selector is None:
        return None
    pieces: list[str] = []
    if selector.timed:
        end = f",{selector.end:g}" if selector.end is not None else ""
        pieces.append(f"t={selector.start:g}{end}")
    if selector.box is not None:
        if selector.unit == "percent":
            scale = (canvas[0] / 100, canvas[1] / 100)
        elif size is not None:
            scale = (1.0, 1.0)
        else:
            return None
        left, top, width, height = selector.box
        sides = (left * scale[0], top * scale[1], width * scale[0], height * scale[1])
        pieces.append("xywh=" + ",".join(str(round(side)) for side in sides))
    return "&".join(pieces)


def _length(selectors: Iterable[str | None]) -> float:
    found = [parse_selector(one) for one in selectors]
    ends = [one.end or (one.start or 0.0) + _SECONDS for one in found if one is not None and one.timed]
    return max(ends, default=_SECONDS)


def _words(text: str) -> Piece:
    return {"en": [text]}


def _statement() -> Piece:
    return {"label": _words("Note"), "value": _words(CAUTION)}


def _json(value: object) -> bytes:
    return (json.dumps(value, ensure_ascii=False, indent=1) + "\n").encode()
