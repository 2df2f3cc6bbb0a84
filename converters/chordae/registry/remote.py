"""A SPARQL 1.1 server as the store of a registry, through the standard protocols; basic or digest authentication.

::

    "server": {"query": URL, "update": URL, "graphs": URL, "login": "basic" | "digest", "user": "..."}
    the password stands in the environment: CHORDAE_STORE_PASSWORD
"""

from __future__ import annotations

import os
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Mapping, Sequence
from typing import IO, Any

import orjson

from chordae.errors import InputError
from chordae.registry.provenance import HEADS, LEDGER, REG

__all__ = ["PASSWORD", "Remote"]

PASSWORD = "CHORDAE_STORE_PASSWORD"  # noqa: S105 - the name of a variable, no password
_JSON = "application/sparql-results+json"
_BLOCK = 200_000


class Remote:
    """See the module.

    Parameters
    ----------
    query, update, graphs
        Addresses of the query, update and graph store services.
    opener
        What sends the requests, with its authentication.
    seconds
        Time limit of one request.
    """

    def __init__(
        self, query: str, update: str, graphs: str, opener: urllib.request.OpenerDirector, seconds: float = 600
    ) -> None:
        for one in (query, update, graphs):
            if not one.startswith(("http://", "https://")):
                raise InputError(f"{one!r} is no address of a server.", "Give one that begins with https:// .")
        self._query, self._update, self._graphs = query, update, graphs
        self._opener = opener
        self._seconds = seconds

    @classmethod
    def of(cls, said: Mapping[str, Any]) -> Remote:
        """Return the server that ``registry.json`` speaks of."""
        opener = urllib.request.build_opener()
        if said.get("login"):
            words = urllib.request.HTTPPasswordMgrWithDefaultRealm()
            for one in ("query", "update", "graphs"):
                words.add_password(None, str(said[one]), str(said.get("user") or ""), os.environ.get(PASSWORD, ""))
            kinds = {
                "basic": urllib.request.HTTPBasicAuthHandler(words),
                "digest": _Digest(words),
            }
            if said["login"] not in kinds:
                raise InputError(f"The login {said['login']!r} is not known.", "Use basic or digest.")
            opener = urllib.request.build_opener(kinds[str(said["login"])])
        return cls(str(said["query"]), str(said["update"]), str(said["graphs"]), opener)

    def said(self, name: str) -> str | None:
        """See :class:`chordae.registry.stores.TripleStore`."""
        rows = self.select(f"SELECT ?n WHERE {{ GRAPH <{HEADS}> {{ <{REG}store> <{REG}{name}> ?n }} }}")
        return rows[0]["n"]["value"] if rows else None

    def load(self, graph: str, triples: IO[bytes], size: int) -> None:
        """See :class:`chordae.registry.stores.TripleStore`; replaces what a broken load left."""
        address = f"{self._graphs}?{urllib.parse.urlencode({'graph': graph})}"
        method = "PUT"
        sent = False
        while block := b"".join(triples.readlines(64 * _BLOCK)):
            self._send(address, block, "application/n-triples", method)
            method, sent = "POST", True
        if not sent:
            self._send(address, b"", "application/n-triples", method)

    def replace(self, graph: str, triples: bytes) -> None:
        """See :class:`chordae.registry.stores.TripleStore`."""
        address = f"{self._graphs}?{urllib.parse.urlencode({'graph': graph})}"
        self._send(address, triples, "application/n-triples", "PUT")

    def note(self, lines: Sequence[str], heads: Sequence[str]) -> None:
        """See :class:`chordae.registry.stores.TripleStore`; the mark goes last."""
        if lines:
            self.update(f"INSERT DATA {{ GRAPH <{LEDGER}> {{ {' '.join(lines)} }} }}")
        self.replace(HEADS, "\n".join([*heads, ""]).encode())

    def size(self, graph: str) -> int:
        """See :class:`chordae.registry.stores.TripleStore`."""
        rows = self.select(f"SELECT (COUNT(*) AS ?n) WHERE {{ GRAPH <{graph}> {{ ?s ?p ?o }} }}")
        return int(rows[0]["n"]["value"])

    def select(self, query: str, graphs: Sequence[tuple[str, str]] = ()) -> list[dict[str, dict[str, str]]]:
        """Return the rows of a SELECT query; ``graphs`` are pairs of ``default-graph-uri`` or ``named-graph-uri``."""
        found = orjson.loads(self.ask(query, _JSON, graphs))
        rows: list[dict[str, dict[str, str]]] = found["results"]["bindings"]
        return rows

    def ask(self, query: str, accept: str, graphs: Sequence[tuple[str, str]] = (), limit: int = 1 << 30) -> bytes:
        """Return what the server answers to a query."""
        form = urllib.parse.urlencode([("query", query), *graphs]).encode()
        return self._send(self._query, form, "application/x-www-form-urlencoded", "POST", accept, limit)

    def update(self, text: str) -> None:
        """Carry out an update."""
        form = urllib.parse.urlencode({"update": text}).encode()
        self._send(self._update, form, "application/x-www-form-urlencoded", "POST")

    def _send(
        self, address: str, data: bytes, kind: str, method: str, accept: str = "*/*", limit: int = 1 << 30
    ) -> bytes:
        headers = {"Content-Type": kind, "Accept": accept}
        request = urllib.request.Request(address, data, headers, method=method)  # noqa: S310 - checked in __init__
        try:
            with self._opener.open(request, timeout=self._seconds) as answer:
                found = answer.read(limit + 1)
        except urllib.error.HTTPError as error:
            said = " ".join(error.read(500).decode(errors="replace").split())
            where = address.partition("?")[0]
            raise InputError(f"The store {where} refused a request ({error.code}): {said}") from None
        except OSError as error:
            raise InputError(f"The store {address.partition('?')[0]} cannot be reached: {error}.") from None
        if len(found) > limit:
            raise InputError(f"The store answered with more than {limit} bytes.")
        return bytes(found)


class _Digest(urllib.request.HTTPDigestAuthHandler):
    """Digest authentication (RFC 7616) that answers the last challenge at once.

    Otherwise each request would be sent, refused and sent again, and a server that refuses a large one before it has
    read it all breaks the line.
    """

    _challenge: dict[str, str] | None = None

    def http_request(self, request: urllib.request.Request) -> urllib.request.Request:
        """Add the answer to the last challenge, if there was one."""
        if self._challenge is not None and not request.has_header(self.auth_header):
            answer = self.get_authorization(request, self._challenge)
            if answer:
                request.add_unredirected_header(self.auth_header, f"Digest {answer}")
        return request

    https_request = http_request

    def retry_http_digest_auth(self, req: urllib.request.Request, auth: str) -> Any:
        """Keep the challenge, and answer it; a request that was refused with an answer gets a new one."""
        listed = urllib.request.parse_http_list(auth.split(" ", 1)[1])
        self._challenge = urllib.request.parse_keqv_list([one for one in listed if one])
        req.unredirected_hdrs.pop(self.auth_header.capitalize(), None)
        return super().retry_http_digest_auth(req, auth)
