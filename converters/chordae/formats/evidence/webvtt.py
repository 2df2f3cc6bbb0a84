"""Chapters and subtitles from the intervals of a record's sequences, as WebVTT: two files for each sequence.

::

    0012/flow.chapters.vtt     a title for each interval
    0012/flow.subtitles.vtt    what the observer recorded of the parts that are seen there

An interval without an end lasts to the end of the sequence. Source: W3C WebVTT.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import PurePosixPath
from typing import Any
from urllib.parse import unquote

from chordae.formats.evidence.selectors import Selector, format_time, parse_selector
from chordae.formats.evidence.words import shown_by, title_of
from chordae.formats.losses import Carried, Manner
from chordae.formats.packing import safe_name
from chordae.formats.settings import CAUTION, Item, Settings
from chordae.formats.sheets.cells import cleaned
from chordae.record import Record

__all__ = ["write_files"]

_END = 359_999.0
_TEXT: Manner = "text"


def write_files(items: Iterable[Item], settings: Settings) -> Iterator[tuple[str, bytes]]:
    """Yield two files for each sequence of each record that has intervals."""
    used: set[str] = set()
    for record, _ in items:
        carried: Carried = {}
        for source, cues in _sequences(record, settings, carried).items():
            stem = safe_name(PurePosixPath(unquote(source.partition("?")[0])).stem)
            name = _unused(f"{safe_name(str(record['id']))}/{stem}", used)
            yield f"{name}.chapters.vtt", _vtt(source, [(cue, span, title) for cue, span, title, _ in cues])
            yield f"{name}.subtitles.vtt", _vtt(source, [(cue, span, words) for cue, span, _, words in cues])
        settings.note(record, carried)


Cue = tuple[str, Selector, str, str]
"""Identifier, interval, title, words."""


def _sequences(record: Record, settings: Settings, carried: Carried) -> dict[str, list[Cue]]:
    found: dict[str, list[Cue]] = {}
    for at, one in enumerate(record.get("evidence") or ()):
        span = parse_selector(one.get("selector"))
        if span is None or not span.timed:
            continue
        carried |= {"/id": _TEXT} | {
            f"/evidence/{at}/{key}": _TEXT for key in ("id", "source_file", "selector", "view") if one.get(key)
        }
        lines = []
        for number, (_, feature, words) in enumerate(shown_by(record, one, settings.school)):
            lines.append(words)
            where = f"/evidence/{at}/shows/{number}"
            carried |= {f"{where}/part": _TEXT} | ({f"{where}/feature": _TEXT} if feature else {})
        carried |= _features(record, one)
        title = title_of(record, one)
        found.setdefault(str(one["source_file"]), []).append((str(one["id"]), span, title, "\n".join(lines) or title))
    return {source: sorted(cues, key=_begin) for source, cues in found.items()}


def _features(record: Record, evidence: Mapping[str, Any]) -> Carried:
    """Mark the features that stand in the words."""
    wanted = {(one["part"], one.get("feature")) for one in evidence.get("shows") or ()}
    marked: Carried = {}
    for number, part in enumerate(record.get("parts") or ()):
        for name, value in part.items():
            if (part["id"], name) in wanted and not isinstance(value, list):
                marked[f"/parts/{number}/{name}"] = _TEXT
    return marked


def _begin(cue: Cue) -> tuple[float, float, str]:
    return (cue[1].start or 0.0, cue[1].end or _END, cue[0])


def _vtt(source: str, cues: list[tuple[str, Selector, str]]) -> bytes:
    blocks = [f"WEBVTT - {_line(source)}", f"NOTE {_line(CAUTION)}"]
    for name, span, words in cues:
        times = f"{format_time(span.start or 0.0)} --> {format_time(span.end if span.end is not None else _END)}"
        text = "\n".join(one for one in map(_line, words.split("\n")) if one) or "-"
        blocks.append(f"{_line(name)}\n{times}\n{text}")
    return ("\n\n".join(blocks) + "\n").encode()


def _line(text: str) -> str:
    """Return words on one line, with the signs that mean something in WebVTT written as entities."""
    plain = " ".join(cleaned(text).split())
    return plain.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _unused(name: str, used: set[str]) -> str:
    number, found = 1, name
    while found.casefold() in used:
        number += 1
        found = f"{name}~{number}"
    used.add(found.casefold())
    return found
