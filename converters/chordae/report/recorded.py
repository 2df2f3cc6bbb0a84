"""From a record to the list of all that was recorded, part by part, with the four states kept apart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from chordae.model import STATES
from chordae.record import Record
from chordae.report.markup import Html, join, tag, text
from chordae.report.words import feature_words, part_words, sentence, value_words

__all__ = ["recorded_list", "states"]

_NOT_SHOWN = frozenset({"id", "type", "observed"})
_GONE = frozenset({"not_assessable", "not_examined"})


def states(record: Record) -> Counter[str]:
    """Count the features of all parts that are recorded in each of the four states, and in ``other`` values."""
    found: Counter[str] = Counter()
    for part in record.get("parts") or ():
        for key, value in part.items():
            if key not in _NOT_SHOWN:
                found[value if isinstance(value, str) and value in STATES else "other"] += 1
    return found


def recorded_list(record: Record) -> Html:
    """Return a ``<details>`` with every feature of every part, the measurements and the remarks."""
    blocks = [*_parts(record), *_measurements(record), *_remarks(record)]
    if not blocks:
        return text("")
    counted = states(record)
    told = [f"{counted[one]} {value_words('state', one)}" for one in STATES if counted[one]]
    count = sum(counted.values())
    words = f"All that was recorded: {count} feature{'s' if count != 1 else ''}"
    summary = tag("summary", text(words + (f" ({', '.join(told)})" if told else "")))
    return tag("details", summary, tag("div", *blocks, class_="recorded"))


def _parts(record: Record) -> Iterator[Html]:
    for part in record.get("parts") or ():
        extra = {one.get("feature"): one for one in part.get("observed") or () if isinstance(one, Mapping)}
        names = [key for key in part if key not in _NOT_SHOWN]
        names += [str(key) for key in extra if key not in part and key]
        lines = [_feature(name, part.get(name), extra.get(name, {})) for name in names]
        yield tag("div", tag("b", text(sentence(part_words(str(part.get("id")))))), join(lines))


def _feature(name: str, value: object, extra: Mapping[str, Any]) -> Html:
    shown = value if value is not None else extra.get("state")
    words = _commitments(shown) if isinstance(shown, list) and name in ("opens_into", "arises_from") else None
    told = words if words is not None else value_words("state" if value is None else name, shown)
    added = [
        f"{feature_words(key)}: {value_words(key, extra[key])}"
        for key in ("state_reason", "certainty", "note", "quote")
        if extra.get(key)
    ]
    line = f"{feature_words(name)}: {told}" + (f" ({'; '.join(added)})" if added else "")
    gone = isinstance(shown, str) and shown in _GONE
    return tag("div", text(line), class_="gone" if gone else None)


def _commitments(value: list[Any]) -> str:
    return ", ".join(
        part_words(str(one.get("ventricle"))) + (f" {one['per_cent']} %" if one.get("per_cent") is not None else "")
        for one in value
        if isinstance(one, Mapping)
    )


def _measurements(record: Record) -> Iterator[Html]:
    lines = []
    for one in record.get("measurements") or ():
        about = [part_words(str(one["part"])) if one.get("part") else "", one.get("site"), one.get("method")]
        words = f"{value_words('quantity', one.get('quantity'))}: {one.get('value')} {one.get('unit') or ''}".rstrip()
        told = ", ".join(str(word) for word in about if word)
        lines.append(tag("div", text(f"{words} ({told})" if told else words)))
    if lines:
        yield tag("div", tag("b", text("Measurements")), join(lines))


def _remarks(record: Record) -> Iterator[Html]:
    lines = [
        tag("div", text(f"{one['place']}: {one.get('text')}" if one.get("place") else one.get("text")))
        for one in record.get("remarks") or ()
        if isinstance(one, Mapping)
    ]
    if lines:
        yield tag("div", tag("b", text("Remarks kept as written")), join(lines))
