"""The registry over HTTP: its routes under ``/v1``, its pages, and the OpenAPI document that tells of them.

::

    app = make_app(folder, Settings())          uvicorn runs it; chordae registry serve FOLDER

The application holds the lock of the registry from its start to its end. Who keeps the registry (tokens, backup,
export, conversion) does that on its own machine, with the command line: there is no route for it.
"""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import ExitStack, asynccontextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from fastapi import FastAPI

from chordae import resources
from chordae.registry.ask import Asker
from chordae.registry.audit import Audit
from chordae.registry.desk import Desk
from chordae.registry.guard import guard
from chordae.registry.ledger import Ledger
from chordae.registry.limits import Buckets
from chordae.registry.place import Registry
from chordae.registry.query_pool import QueryPool
from chordae.registry.settings import Settings
from chordae.registry.stores import TripleStore, open_store
from chordae.registry.tokens import Tokens
from chordae.registry.uploads import Uploads

__all__ = ["Service", "make_app"]

_ABOUT = (
    "Deposits of descriptions of malformed hearts: handed in, judged, kept and asked. What is kept here describes "
    "specimens for teaching, research and registries; it is not for diagnosis or for planning treatment, and defers "
    "to local codes on human remains, consent and data protection, and to licensed practice."
)


@dataclass
class Service:
    """What the routes work with. ``registry`` is for reading; the desk alone writes."""

    registry: Registry
    store: TripleStore
    settings: Settings
    tokens: Tokens
    uploads: Uploads
    asker: Asker
    desk: Desk
    audit: Audit
    logins: Buckets


def make_app(folder: str | Path, settings: Settings | None = None) -> FastAPI:
    """Return the application that serves a registry."""
    from chordae.registry import routes_ask, routes_hand_in, routes_pages

    chosen = settings or Settings()
    top = Path(folder)
    audit = Audit(top / "audit.ndjson", echo=chosen.echo)

    @asynccontextmanager
    async def life(app: FastAPI) -> AsyncIterator[None]:
        with ExitStack() as stack:
            writing = stack.enter_context(Registry.open(top, write=True))
            store = stack.enter_context(open_store(writing))
            reading = replace(writing, ledger=Ledger(top / "ledger.sqlite"))
            stack.callback(reading.ledger.close)
            tokens = Tokens(top / "tokens.sqlite")
            stack.callback(tokens.close)
            peers = tuple((writing.about.get("peers") or {}).values())
            asker = Asker(reading, QueryPool(peers, chosen.workers, writing.about.get("server")))
            stack.callback(asker.close)
            desk = Desk(writing, store, audit.write)
            desk.start()
            stack.callback(desk.stop)
            app.state.service = Service(
                reading,
                store,
                chosen,
                tokens,
                Uploads(writing.incoming, chosen.upload),
                asker,
                desk,
                audit,
                Buckets(1 / 60, chosen.logins),
            )
            audit.write(event="start", registry=writing.name, version=resources.VERSION)
            yield
            audit.write(event="stop")

    app = FastAPI(
        title="Registry of heart descriptions",
        description=_ABOUT,
        version=resources.VERSION,
        lifespan=life,
        openapi_url="/v1/openapi.json",
        docs_url=None,
        redoc_url=None,
    )
    guard(app, chosen, audit)
    for one in (routes_hand_in.router, routes_ask.router, routes_pages.router):
        app.include_router(one)
    return app
