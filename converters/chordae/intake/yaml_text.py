"""From YAML text to the records in it, each with the line and column of every value.

The text is read as a stream of events, so an alias is never followed and nothing can grow: aliases, anchors
and tags are faults. Scalars are read as in :mod:`chordae.intake.scalars`. A key that stands twice keeps its
first value, with a fault. Records stand as list items, as documents of their own, or as the list under
``records``::

    - id: "0012"            id: "0012"            records:
      ...                   ...                   - id: "0012"
    - id: "0013"            ---
      ...                   id: "0013"

Where the text is not well formed, the records before the fault are kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import yaml

from chordae.files import MAX_DEPTH
from chordae.intake.found import Fault, Found, Mark, pointer
from chordae.intake.scalars import plain
from chordae.issues import shown

__all__ = ["RECORDS", "find_records"]

RECORDS = "records"
"""Key of the list of records in a document that is a mapping."""

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def find_records(text: str) -> Iterator[Found]:
    """Yield what stands where a record should, in the order of the text.

    Parameters
    ----------
    text
        The whole document or documents.

    Yields
    ------
    Found
        The last one is refused and holds the fault ``I-DOC-01`` if the text is not well formed.
    """
    reader = _Reader(text)
    try:
        yield from reader.records()
    except yaml.YAMLError as error:
        mark, problem = _place(error, text)
        fault = Fault("I-DOC-01", mark, fields={"format": "YAML", "problem": problem})
        yield Found(None, mark, dict, [*reader.faults, fault], refused=True)


class _Reader:
    """Takes events and builds values; ``faults``, ``marks`` and ``refused`` belong to one record."""

    def __init__(self, text: str) -> None:
        self._events = yaml.parse(text, Loader=_LOADER)
        self._start(None)

    def _start(self, event: Any) -> None:
        self.marks: dict[str, Mark] = {}
        self.faults: list[Fault] = []
        self.refused = False
        self.mark = _mark(event) if event is not None else (1, 1)

    def records(self) -> Iterator[Found]:
        for event in self._events:
            if isinstance(event, yaml.DocumentStartEvent):
                yield from self._document(next(self._events))

    def _document(self, event: Any) -> Iterator[Found]:
        if isinstance(event, yaml.SequenceStartEvent):
            yield from self._items()
        elif isinstance(event, yaml.MappingStartEvent):
            yield from self._top_mapping(event)
        elif not (isinstance(event, yaml.ScalarEvent) and event.value == "" and event.implicit[0]):
            yield self._one(event)

    def _items(self) -> Iterator[Found]:
        while not isinstance(event := next(self._events), yaml.SequenceEndEvent):
            yield self._one(event)

    def _one(self, event: Any) -> Found:
        self._start(event)
        value = self._value(event, "", 0)
        return self._found(value)

    def _found(self, value: Any) -> Found:
        marks = self.marks
        return Found(value, self.mark, lambda: marks, self.faults, self.refused)

    def _top_mapping(self, start: Any) -> Iterator[Found]:
        """One record; or, where the key ``records`` holds a list, the records of that list."""
        self._start(start)
        self._check(start, "")
        self.marks[""] = self.mark
        value: dict[str, Any] = {}
        listed = False
        while not isinstance(event := next(self._events), yaml.MappingEndEvent):
            key = self._key(event, "", 0)
            following = next(self._events)
            if key == RECORDS and RECORDS not in value and isinstance(following, yaml.SequenceStartEvent):
                listed = True
                kept = (self.marks, self.faults, self.refused, self.mark)
                yield from self._items()
                self.marks, self.faults, self.refused, self.mark = kept
                value[RECORDS] = None
            else:
                self._member(value, key, event, following, "", 0)
        if not listed:
            yield self._found(value)
            return
        others = ", ".join(key for key in value if key != RECORDS)
        if others:
            self._fault("I-DOC-11", start, "", others)
        if self.faults:
            yield Found(None, self.mark, dict, self.faults, refused=True)

    def _member(self, into: dict[str, Any], key: str | None, at: Any, event: Any, path: str, depth: int) -> None:
        where = pointer(path, key if key is not None else "?")
        value = self._value(event, where, depth + 1)
        if key is None:
            return
        scalar = isinstance(event, yaml.ScalarEvent)
        if key in into:
            first = shown(into[key], 40)
            self._fault("I-DOC-03", at, where, shown(value, 40), key=key, first=first)
            return
        self.marks[where] = _mark(event if scalar else at)
        into[key] = value

    def _value(self, event: Any, path: str, depth: int) -> Any:
        self._check(event, path)
        self.marks.setdefault(path, _mark(event))
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, path)
        if isinstance(event, yaml.AliasEvent):
            self._fault("I-DOC-02", event, path, f"*{event.anchor}")
            self.refused = True
            return None
        if depth >= MAX_DEPTH:
            return self._skip(event, path)
        if isinstance(event, yaml.SequenceStartEvent):
            items: list[Any] = []
            while not isinstance(following := next(self._events), yaml.SequenceEndEvent):
                items.append(self._value(following, pointer(path, len(items)), depth + 1))
            return items
        members: dict[str, Any] = {}
        while not isinstance(following := next(self._events), yaml.MappingEndEvent):
            key = self._key(following, path, depth)
            self._member(members, key, following, next(self._events), path, depth)
        return members

    def _scalar(self, event: Any, path: str) -> Any:
        if not event.implicit[0]:
            return event.value
        try:
            return plain(event.value)
        except ValueError:
            self._fault("I-DOC-06", event, path, event.value)
            return event.value

    def _key(self, event: Any, path: str, depth: int) -> str | None:
        """Return the text of a key as written; ``None``, with a fault, for a key that is no word."""
        if isinstance(event, yaml.ScalarEvent):
            self._check(event, path)
            return str(event.value)
        self._value(event, pointer(path, "?"), depth + 1)
        self._fault("I-DOC-08", event, path, found="a list, a mapping or an alias")
        self.refused = True
        return None

    def _skip(self, event: Any, path: str) -> None:
        if not self.refused:
            self._fault("I-DOC-04", event, path, limit=MAX_DEPTH)
        self.refused = True
        level = 1
        while level:
            following = next(self._events)
            if isinstance(following, yaml.CollectionStartEvent):
                level += 1
            elif isinstance(following, yaml.CollectionEndEvent):
                level -= 1

    def _check(self, event: Any, path: str) -> None:
        anchor = getattr(event, "anchor", None)
        tag = getattr(event, "tag", None)
        if anchor is not None and not isinstance(event, yaml.AliasEvent):
            self._fault("I-DOC-02", event, path, f"&{anchor}")
        if tag is not None:
            self._fault("I-DOC-09", event, path, str(tag))

    def _fault(self, rule: str, event: Any, path: str, value: str | None = None, **fields: object) -> None:
        self.faults.append(Fault(rule, _mark(event), path, value, fields))


def _mark(event: Any) -> Mark:
    return (event.start_mark.line + 1, event.start_mark.column + 1)


def _place(error: yaml.YAMLError, text: str) -> tuple[Mark, str]:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    if mark is not None:
        problem = getattr(error, "problem", None) or getattr(error, "context", None) or "it is not well formed"
        return (mark.line + 1, mark.column + 1), " ".join(str(problem).split())
    position = getattr(error, "position", None)
    reason = getattr(error, "reason", None) or "it is not well formed"
    if isinstance(position, int):
        before = text.encode()[:position].decode("utf-8", "ignore")
        return (before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1), str(reason)
    return (1, 1), str(reason)
