"""The routes of the pages of :mod:`chordae.registry.pages`; for people, so not in the OpenAPI document."""

from __future__ import annotations

import csv
import io
from typing import Annotated

from fastapi import APIRouter, Query, Request, Response
from fastapi import Path as Part
from fastapi.responses import HTMLResponse

from chordae.registry import pages, question_pages
from chordae.registry.entry import Entry
from chordae.registry.guard import Problem
from chordae.registry.made import read_heart
from chordae.registry.page_frame import stylesheet
from chordae.registry.questions import questions
from chordae.registry.service import Service
from chordae.registry.who import service_of

__all__ = ["router"]

router = APIRouter(include_in_schema=False)
_Name = Annotated[str, Part(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")]


@router.get("/")
def home(request: Request) -> HTMLResponse:
    """Show the collections."""
    registry = service_of(request).registry
    return HTMLResponse(pages.home_page(registry.name, registry.ledger.heads()))


@router.get("/style.css")
def style() -> Response:
    """Return the stylesheet."""
    return Response(stylesheet(), media_type="text/css", headers={"Cache-Control": "max-age=3600"})


@router.get("/collections/{collection}")
def collection(collection: _Name, request: Request, after: Annotated[str, Query(max_length=128)] = "") -> HTMLResponse:
    """Show the hearts of a collection."""
    service = service_of(request)
    head, number = _head(service, collection)
    rows = service.registry.ledger.hearts(number, after, pages.PAGE + 1)
    made = service.registry.made(number)
    shown = [(row, read_heart(made, row)) for row in rows[: pages.PAGE]]
    more = rows[pages.PAGE - 1].record if len(rows) > pages.PAGE else None
    return HTMLResponse(pages.collection_page(service.registry.name, head, shown, more))


@router.get("/collections/{collection}/hearts/{record}")
def heart(collection: _Name, record: _Name, request: Request) -> HTMLResponse:
    """Show one heart."""
    service = service_of(request)
    _, number = _head(service, collection)
    row = service.registry.ledger.heart(number, record)
    if row is None:
        raise Problem(404, "There is no such heart.", "Look at the list of its collection.")
    others = service.registry.ledger.same_specimen(number, row)
    found = read_heart(service.registry.made(number), row)
    return HTMLResponse(pages.heart_page(service.registry.name, collection, found, others))


@router.get("/terms")
def terms(
    request: Request,
    words: Annotated[str, Query(max_length=200)] = "",
    start: Annotated[int, Query(ge=0, le=100_000)] = 0,
) -> HTMLResponse:
    """Show terms with their codes."""
    return HTMLResponse(pages.terms_page(service_of(request).registry.name, words, start))


@router.get("/questions/{name}")
def question(name: Annotated[str, Part(max_length=100)], request: Request) -> HTMLResponse:
    """Show a ready question, and its answer if it was asked."""
    service = service_of(request)
    one = questions().get(name)
    if one is None:
        raise Problem(404, "There is no such question.", "They stand on the first page.")
    values = {key: value for key, value in request.query_params.items() if key != "ask"}
    if "ask" not in request.query_params and any(each.default is None for each in one.parameters):
        return HTMLResponse(question_pages.question_page(service.registry.name, one))
    found = service.asker.question(name, values, "csv", service.settings.seconds)
    head, *rows = csv.reader(io.StringIO(found.data.decode()))
    return HTMLResponse(question_pages.answer_page(service.registry.name, one, values, head, rows[:1000], found.cut))


def _head(service: Service, collection: str) -> tuple[Entry, int]:
    """Return the line of the current version, and the number under which its files stand."""
    head = service.registry.ledger.head(collection)
    if head is None:
        raise Problem(404, "There is no such collection.", "They stand on the first page.")
    return head, int(head.body.get("chosen", head.number))
