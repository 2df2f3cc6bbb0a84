"""The shapes of what the service answers, as the OpenAPI document tells them."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from chordae.registry.entry import Entry

__all__ = [
    "CollectionAnswer",
    "HealthAnswer",
    "LineAnswer",
    "ProblemAnswer",
    "QuestionAnswer",
    "StateAnswer",
    "line_answer",
    "problems",
]

DIGEST = r"^[0-9a-f]{64}$"


class _Answer(BaseModel):
    model_config = ConfigDict(extra="forbid")


class ProblemAnswer(_Answer):
    """Why a request was not carried out."""

    problem: str
    remedy: str


class HealthAnswer(_Answer):
    """Whether the registry works."""

    status: Literal["ok", "behind"]
    version: str
    lines: int
    store: int
    free_bytes: int


class StateAnswer(_Answer):
    """What became of what was handed in."""

    ticket: str = Field(pattern=DIGEST)
    state: Literal["waiting", "judging", "accepted", "accepted_with_warnings", "refused"]
    at: str
    deposit: str = ""
    line: int = 0
    again: bool = False
    reason: dict[str, Any] | None = None


class LineAnswer(_Answer):
    """An accepted version of a collection, or, to its owner, any decision."""

    line: int
    at: str
    kind: str
    collection: str
    deposit: str
    outcome: str
    records: int
    violations: int
    warnings: int
    graph: str
    follows: str
    current: bool


class CollectionAnswer(_Answer):
    """A collection and its current version."""

    id: str
    name: str
    custodian: str
    licence: str
    records: int
    deposit: str
    at: str


class QuestionAnswer(_Answer):
    """A ready question and what it needs."""

    name: str
    title: str
    asks: str
    parameters: list[dict[str, str | None]]


ANYONE: dict[str, Any] = {"security": [{}]}
"""For the document: what else a token tells is told to anyone, less what is not theirs."""


def line_answer(entry: Entry, current: bool) -> LineAnswer:
    """Return a line of the ledger as it is told: without the agent and the software of the registry."""
    counts = entry.body.get("counts") or {}
    return LineAnswer(
        line=entry.number,
        at=str(entry.body["at"]),
        kind=entry.kind,
        collection=entry.collection,
        deposit=entry.deposit,
        outcome=entry.outcome,
        records=counts.get("records", 0),
        violations=counts.get("violation", 0),
        warnings=counts.get("warning", 0),
        graph=entry.graph,
        follows=str(entry.body.get("supersedes") or ""),
        current=current,
    )


def problems(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """Return the problems that a route may answer with, for its part of the document."""
    always = (408, 413, 422, 429, 500)
    return {status: {"model": ProblemAnswer} for status in sorted({*always, *statuses})}
