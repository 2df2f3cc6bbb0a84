"""The service: handing in over HTTP, who may do what, limits, and two registries asked together.

The tests named ``test_api...`` go through the ten risks of the OWASP API Security Top 10, edition 2023 (titles from
memory), one or more tests each.
"""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import orjson
import pytest

from registry_data import deposit, environment, hearts, only_here, registry, served

pytest.importorskip("fastapi", reason="the extra 'registry' is not installed")

from fastapi.testclient import TestClient

from chordae.registry import Registry, judge
from chordae.registry.limits import Buckets
from chordae.registry.package import deposit_digest, pack
from chordae.registry.profile import EXAMPLE, parse_profile
from chordae.registry.service import make_app
from chordae.registry.settings import Settings
from chordae.registry.tokens import Tokens

EASY = Settings(rate=10_000, burst=100_000, logins=1000, seconds=120, echo=False)


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only this machine, in place of the fixture that allows nothing."""
    only_here(monkeypatch)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    top = tmp_path_factory.mktemp("deposits")
    found = {
        "ours": deposit(top / "ours", hearts(range(4), "aldermoor")),
        "theirs": deposit(top / "theirs", hearts(range(10, 13), "birchholt"), "birchholt"),
        "faulty": deposit(top / "faulty", hearts(range(40, 44), "aldermoor", faults=1.0)),
    }
    for name, folder in list(found.items()):
        pack(folder, top / f"{name}.zip")
        found[f"{name}.zip"] = top / f"{name}.zip"
    return found


class Desk:
    """A served registry with two keepers."""

    def __init__(self, folder: Path, client: TestClient) -> None:
        self.folder, self.client = folder, client
        tokens = Tokens(folder / "tokens.sqlite")
        self.ours = tokens.make("aldermoor", note="Keeper of Aldermoor")
        self.theirs = tokens.make("birchholt", note="Keeper of Birchholt")
        self.reader = tokens.make("aldermoor", ("read",))
        tokens.close()

    def send(self, method: str, path: str, token: str = "", **more: Any) -> Any:
        headers = {**more.pop("headers", {}), **({"Authorization": f"Bearer {token}"} if token else {})}
        return self.client.request(method, path, headers=headers, **more)

    def hand_in(self, archive: Path, token: str, **query: str) -> dict[str, Any]:
        answer = self.send("POST", "/v1/submissions", token, content=archive.read_bytes(), params=query)
        assert answer.status_code == 202, answer.text
        return self.wait(answer.json()["ticket"], token)

    def wait(self, ticket: str, token: str) -> dict[str, Any]:
        end = time.monotonic() + 60
        while time.monotonic() < end:
            told: dict[str, Any] = self.send("GET", f"/v1/submissions/{ticket}", token).json()
            if told["state"] not in ("waiting", "judging"):
                return told
            time.sleep(0.02)
        raise AssertionError("the deposit was not judged")


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    folder = registry(tmp_path / "registry")
    with TestClient(make_app(folder, EASY)) as client:
        yield Desk(folder, client)


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory, made: dict[str, Path]) -> Iterator[Desk]:
    """A registry with a deposit of each keeper, and one refused."""
    folder = registry(tmp_path_factory.mktemp("full") / "registry")
    with TestClient(make_app(folder, EASY)) as client:
        desk = Desk(folder, client)
        assert desk.hand_in(made["ours.zip"], desk.ours)["state"].startswith("accepted")
        assert desk.hand_in(made["theirs.zip"], desk.theirs)["state"].startswith("accepted")
        assert desk.hand_in(made["faulty.zip"], desk.ours)["state"] == "refused"
        yield desk


# --- handing in -----------------------------------------------------------------------------------------------------


def test_handed_in_judged_reported_and_downloaded(full: Desk, made: dict[str, Path], tmp_path: Path) -> None:
    digest = deposit_digest(made["ours"])
    assert full.send("GET", f"/v1/deposits/{digest}").json()["current"] is True
    report = full.send("GET", f"/v1/deposits/{digest}/report", full.ours).json()
    assert report == orjson.loads(judge(made["ours"], parse_profile(EXAMPLE.encode())).report())
    archive = full.send("GET", f"/v1/deposits/{digest}/archive", full.reader)
    assert archive.content == made["ours.zip"].read_bytes()
    assert [one["id"] for one in full.send("GET", "/v1/collections").json()] == ["aldermoor", "birchholt"]
    assert full.send("GET", "/health").json()["status"] == "ok"
    assert not list((full.folder / "incoming").iterdir()), "what was sent out and taken in leaves nothing behind"


def test_the_same_archive_twice_is_one(desk: Desk, made: dict[str, Path]) -> None:
    one, two = (desk.hand_in(made["ours.zip"], desk.ours) for _ in range(2))
    assert one == two
    assert len(desk.send("GET", "/v1/deposits", desk.ours).json()) == 1


def test_an_upload_that_is_broken_off_goes_on(desk: Desk, made: dict[str, Path]) -> None:
    data = made["ours.zip"].read_bytes()
    digest = hashlib.sha256(data).hexdigest()
    path, half = f"/v1/uploads/{digest}", len(data) // 2
    assert desk.send("HEAD", path, desk.ours).headers["Upload-Offset"] == "0"
    assert desk.send("PUT", path, desk.ours, content=data[:half]).status_code == 204
    assert desk.send("PUT", path, desk.ours, content=data[half:], params={"offset": half - 1}).status_code == 409
    assert desk.send("HEAD", path, desk.ours).headers["Upload-Offset"] == str(half)
    assert desk.send("PUT", path, desk.ours, content=data[half:], params={"offset": half}).status_code == 204
    told = desk.send("POST", "/v1/submissions", desk.ours, params={"upload": digest}).json()
    assert desk.wait(told["ticket"], desk.ours)["state"].startswith("accepted")


def test_an_upload_that_is_not_what_it_says_is_removed(desk: Desk) -> None:
    digest = "0" * 64
    desk.send("PUT", f"/v1/uploads/{digest}", desk.ours, content=b"something else")
    answer = desk.send("POST", "/v1/submissions", desk.ours, params={"upload": digest})
    assert (answer.status_code, "another digest" in answer.json()["problem"]) == (400, True)
    assert desk.send("HEAD", f"/v1/uploads/{digest}", desk.ours).headers["Upload-Offset"] == "0"


def test_what_is_no_archive_is_refused_with_the_reason(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "x.zip").write_bytes(b"not a zip file")
    told = desk.hand_in(tmp_path / "x.zip", desk.ours)
    assert (told["state"], told["reason"]["rule"]) == ("refused", "I-REG-12")


def test_what_was_waiting_is_judged_after_a_restart(tmp_path: Path, made: dict[str, Path]) -> None:
    folder = registry(tmp_path / "registry")
    digest = hashlib.sha256(made["ours.zip"].read_bytes()).hexdigest()
    (folder / "queue" / f"{digest}.zip").write_bytes(made["ours.zip"].read_bytes())
    told = {"token": "x", "collection": "aldermoor", "agent": "x", "at": "2026-01-01T00:00:00Z"}
    (folder / "queue" / f"{digest}.json").write_bytes(orjson.dumps(told))
    with TestClient(make_app(folder, EASY)) as client:
        desk = Desk(folder, client)
        assert desk.wait(digest, desk.ours)["state"].startswith("accepted")


def test_a_served_registry_is_told_so_on_the_command_line(made: dict[str, Path], tmp_path: Path) -> None:
    folder = registry(tmp_path / "registry")
    token = Tokens(folder / "tokens.sqlite").make("aldermoor")
    with served(folder) as address:
        base = [sys.executable, "-m", "chordae", "registry", "submit", str(made["ours"]), "--to"]
        run = {"capture_output": True, "text": True, "check": False, "timeout": 120}
        locked = subprocess.run([*base, str(folder)], env=environment(), **run)
        assert (locked.returncode, "--to URL" in locked.stderr) == (2, True)
        done = subprocess.run([*base, address], env=environment(CHORDAE_TOKEN=token), **run)
        assert (done.returncode, "ACCEPTED" in done.stdout) == (0, True), done.stderr
        wrong = subprocess.run([*base, address], env=environment(CHORDAE_TOKEN="chordae_x"), **run)  # noqa: S106 - none
        assert (wrong.returncode, "not one that holds" in wrong.stderr) == (2, True)
    log = [json.loads(line) for line in (folder / "audit.ndjson").read_text().splitlines()]
    assert {one["event"] for one in log} >= {"start", "request", "judged"}


# --- the ten risks --------------------------------------------------------------------------------------------------


def test_api1_objects_of_others_are_not_seen(full: Desk, made: dict[str, Path]) -> None:
    """API1 Broken object level authorization: by guessing digests or tickets nothing of another keeper is had."""
    ours, refused = deposit_digest(made["ours"]), deposit_digest(made["faulty"])
    for path in (f"/v1/deposits/{ours}/report", f"/v1/deposits/{ours}/archive", f"/v1/deposits/{refused}"):
        assert full.send("GET", path, full.theirs).status_code == 404
        assert full.send("GET", path, full.ours).status_code == 200
    assert full.send("GET", f"/v1/deposits/{refused}").status_code == 404
    ticket = hashlib.sha256(made["ours.zip"].read_bytes()).hexdigest()
    assert full.send("GET", f"/v1/submissions/{ticket}", full.theirs).status_code == 404
    assert full.send("POST", "/v1/submissions", full.theirs, content=made["ours.zip"].read_bytes()).status_code == 403
    listed = {one["deposit"] for one in full.send("GET", "/v1/deposits", full.theirs).json()}
    assert refused not in listed
    assert refused in {one["deposit"] for one in full.send("GET", "/v1/deposits", full.ours).json()}


def test_api1_nobody_hands_in_for_another_collection(desk: Desk, made: dict[str, Path]) -> None:
    told = desk.hand_in(made["ours.zip"], desk.theirs)
    assert (told["state"], "may not hand in" in told["reason"]["message"]) == ("refused", True)
    assert desk.send("GET", "/v1/deposits").json() == []


def test_api2_tokens_hold_only_as_they_were_made(desk: Desk, made: dict[str, Path]) -> None:
    """API2 Broken authentication: forged, revoked, expired tokens; hashes on disk; guessing is slowed down."""
    tokens = Tokens(desk.folder / "tokens.sqlite")
    path = f"/v1/submissions/{'0' * 64}"
    assert desk.send("GET", path, desk.ours).status_code == 404
    identity = desk.ours.split("_")[1]
    for bad in ("x", desk.ours[:-1] + ("A" if desk.ours[-1] != "A" else "B"), f"chordae_{identity}_{'A' * 43}", "'--"):
        assert desk.send("GET", path, bad).status_code == 401
    assert desk.send("GET", path).status_code == 401
    assert desk.client.get(path, headers={"Authorization": f"Basic {desk.ours}"}).status_code == 401
    tokens.revoke(identity)
    assert desk.send("GET", path, desk.ours).status_code == 401, "also though it was used a moment ago"
    with tokens._connection as raw:
        raw.execute("UPDATE tokens SET expires = '2020-01-01T00:00:00Z' WHERE collection = 'birchholt'")
    assert desk.send("GET", path, desk.theirs).status_code == 401
    stored = b"".join(one.read_bytes() for one in desk.folder.glob("tokens.sqlite*"))
    for secret in (desk.ours, desk.theirs, desk.reader):
        assert secret.split("_", 2)[2].encode() not in stored
    assert (desk.folder / "tokens.sqlite").stat().st_mode & 0o077 == 0


def test_api2_guessing_is_slowed_down(tmp_path: Path) -> None:
    folder = registry(tmp_path / "registry")
    with TestClient(make_app(folder, Settings(rate=1000, burst=1000, logins=5, echo=False))) as client:
        got = [
            client.get(f"/v1/submissions/{'0' * 64}", headers={"Authorization": f"Bearer chordae_{one}"})
            for one in range(8)
        ]
    assert [one.status_code for one in got] == [401] * 5 + [429] * 3
    assert int(got[-1].headers["Retry-After"]) > 0


def test_api3_fields_are_those_that_are_told(full: Desk) -> None:
    """API3 Broken object property level authorization: nothing more is told, and nothing more is taken."""
    entry = full.send("GET", "/v1/deposits").json()[0]
    assert set(entry) == {
        *("line", "at", "kind", "collection", "deposit", "outcome", "records"),
        *("violations", "warnings", "graph", "follows", "current"),
    }
    text = full.send("GET", "/v1/deposits").text + full.send("GET", "/").text
    assert "chordae_" not in text and "tokens" not in text
    state = full.send(
        "POST", "/v1/submissions", full.ours, content=b"x", params={"collection": "*", "agent": "root", "state": "ok"}
    ).json()
    kept = orjson.loads((full.folder / "queue" / f"{state['ticket']}.json").read_bytes())
    assert (kept["collection"], kept["agent"]) == ("aldermoor", "Keeper of Aldermoor")
    assert set(state) == {"ticket", "state", "at", "deposit", "line", "again", "reason"}


def test_api4_every_resource_has_a_limit(tmp_path: Path) -> None:
    """API4 Unrestricted resource consumption: rate, size, time, rows, uploads."""
    folder = registry(tmp_path / "registry")
    small = Settings(rate=0.1, burst=30, upload=10_000, seconds=60, rows=5, body=2000, workers=1, echo=False)
    with TestClient(make_app(folder, small)) as client:
        desk = Desk(folder, client)
        assert desk.send("POST", "/v1/submissions", desk.ours, content=b"x" * 10_001).status_code == 413
        assert desk.send("PUT", f"/v1/uploads/{'1' * 64}", desk.ours, content=b"x" * 10_001).status_code == 413

        def pieces() -> Iterator[bytes]:
            yield from (b"x" * 4000 for _ in range(4))  # its length is not said

        assert desk.send("POST", "/v1/submissions", desk.ours, content=pieces()).status_code == 413
        assert desk.send("PUT", f"/v1/uploads/{'1' * 64}", desk.ours, content=pieces()).status_code == 400
        for number in range(8):
            assert desk.send("PUT", f"/v1/uploads/{number:064d}", desk.ours, content=b"x").status_code == 204
        assert desk.send("PUT", f"/v1/uploads/{8:064d}", desk.ours, content=b"x").status_code == 400
        body = {"headers": {"Content-Type": "application/sparql-query"}}
        assert desk.send("POST", "/v1/sparql", content=b"x" * 2001, **body).status_code == 413
        assert desk.send("POST", "/v1/sparql", content=pieces(), **body).status_code == 411
        rows = desk.send("GET", "/v1/sparql", params={"query": "SELECT * { ?s ?p ?o }"})
        assert (rows.headers["X-Rows"], rows.headers["X-Cut"]) == ("5", "true")
        codes = [desk.send("GET", "/health").status_code for _ in range(40)]
        assert codes[-1] == 429


def test_api4_a_bucket_fills_again_with_time() -> None:
    at = [0.0]
    buckets = Buckets(2, 3, clock=lambda: at[0])
    assert [buckets.take("a") for _ in range(4)] == [0, 0, 0, 0.5]
    at[0] = 0.5
    assert [buckets.take("a"), buckets.take("a")] == [0, 0.5]
    at[0] = 100
    assert [buckets.take("a") for _ in range(4)] == [0, 0, 0, 0.5], "no more than its size"


def test_api4_a_slow_query_is_ended(tmp_path: Path) -> None:
    folder = registry(tmp_path / "registry")
    with TestClient(make_app(folder, Settings(rate=1000, burst=1000, seconds=1, echo=False))) as client:
        slow = {"query": "SELECT (COUNT(*) AS ?n) { ?a ?b ?c . ?d ?e ?f . ?g ?h ?i }"}
        assert client.get("/v1/sparql", params=slow).status_code == 408


def test_api5_functions_need_their_scope_and_the_keepers_are_not_there(full: Desk, made: dict[str, Path]) -> None:
    """API5 Broken function level authorization."""
    assert full.send("POST", "/v1/submissions", full.reader, content=b"x").status_code == 403
    assert full.send("PUT", f"/v1/uploads/{'0' * 64}", full.reader, content=b"x").status_code == 403
    digest = deposit_digest(made["ours"])
    for path in (f"/v1/deposits/{digest}", "/v1/collections", "/v1/profile", "/v1/questions"):
        for method in ("POST", "PUT", "PATCH", "DELETE"):
            assert full.send(method, path, full.ours).status_code == 405
    for path in ("/v1/tokens", "/v1/export", "/v1/backup", "/v1/update", "/v1/admin", "/store", "/update"):
        assert full.send("POST", path, full.ours, content=b"").status_code == 404


def test_api6_a_flood_of_deposits_is_held_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """API6 Unrestricted access to sensitive business flows: handing in is limited for each client and as a whole."""
    from chordae.registry import desk as module

    monkeypatch.setattr(module, "_WAITING", 0)
    folder = registry(tmp_path / "registry")
    with TestClient(make_app(folder, EASY)) as client:
        desk = Desk(folder, client)
        answer = desk.send("POST", "/v1/submissions", desk.ours, content=b"x")
        assert (answer.status_code, "Too many deposits" in answer.json()["problem"]) == (400, True)


def test_api7_the_registry_calls_no_server_that_a_query_names(full: Desk) -> None:
    """API7 Server side request forgery: SERVICE, LOAD and FROM reach no address; a server here counts requests."""
    calls: list[str] = []

    class Count(BaseHTTPRequestHandler):
        timeout = 10

        def do_GET(self) -> None:
            calls.append(self.path)
            self.send_response(200)
            self.end_headers()

        do_POST = do_GET

        def log_message(self, *given: Any) -> None: ...

    server = ThreadingHTTPServer(("127.0.0.1", 0), Count)  # one that hangs holds up nobody: its threads are daemons
    threading.Thread(target=server.serve_forever, daemon=True).start()
    here = f"http://127.0.0.1:{server.server_port}/x"
    for query in (
        f"SELECT * {{ SERVICE <{here}> {{ ?s ?p ?o }} }}",
        f"SELECT * {{ SERVICE SILENT <{here}> {{ ?s ?p ?o }} }}",
        f"SELECT * {{ VALUES ?x {{ <{here}> }} SERVICE ?x {{ ?s ?p ?o }} }}",
        f"LOAD <{here}>",
        "SELECT * FROM <HERE> { ?s ?p ?o }".replace("HERE", here),
        "SELECT * FROM NAMED <HERE> { GRAPH ?g { ?s ?p ?o } }".replace("HERE", here),
        f"DESCRIBE <{here}>",
    ):
        full.send("GET", "/v1/sparql", params={"query": query})
    full.send("GET", "/v1/questions/in_both_registries", params={"term": "tetralogy_of_fallot", "peer": here})
    server.shutdown()
    assert calls == []


def test_api8_headers_errors_and_methods(full: Desk) -> None:
    """API8 Security misconfiguration: headers, no foreign origin, no traceback, no page for trying requests."""
    for path in ("/", "/health", "/v1/collections", "/nowhere", "/v1/deposits?limit=x"):
        answer = full.send("GET", path, headers={"Origin": "https://example.org"})
        assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert "access-control-allow-origin" not in answer.headers
        assert "Traceback" not in answer.text
    assert full.send("GET", "/v1/deposits?limit=x").json()["problem"].startswith("limit")
    assert full.send("GET", "/docs").status_code == full.send("GET", "/openapi.json").status_code == 404
    assert full.send("TRACE", "/health").status_code == 405


def test_api8_a_fault_of_ours_shows_nothing_of_itself(full: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    from chordae.registry import routes_ask

    monkeypatch.setattr(routes_ask.shutil, "disk_usage", lambda path: 1 / 0)
    answer = full.send("GET", "/health")
    assert answer.status_code == 500
    assert "Zero" not in answer.text and answer.headers["X-Request-Id"] in answer.text
    assert "ZeroDivisionError" in (full.folder / "audit.ndjson").read_text()


def test_api9_every_route_is_in_the_document_and_has_its_version(full: Desk) -> None:
    """API9 Improper inventory management."""
    document = full.send("GET", "/v1/openapi.json").json()
    told = set(document["paths"])
    assert all(path.startswith("/v1/") for path in told - {"/health"})
    pages = {"/", "/style.css", "/collections/{collection}", "/collections/{collection}/hearts/{record}", "/terms"}
    there = _paths(full.client.app)
    assert there - told == {*pages, "/questions/{name}", "/v1/openapi.json"}
    for path, methods in document["paths"].items():
        for method, one in methods.items():
            assert one.get("description"), f"{method} {path} says nothing"
            assert {"429", "422", "500"} <= set(one["responses"])


def test_api10_what_another_registry_answers_is_only_data(tmp_path: Path, made: dict[str, Path]) -> None:
    """API10 Unsafe consumption of APIs: a peer that lies, never ends, or sends elsewhere does no harm."""
    secret: list[str] = []

    class Peer(BaseHTTPRequestHandler):
        mode = "html"
        timeout = 10

        def do_POST(self) -> None:
            if self.path == "/secret":
                secret.append(self.path)
            if self.mode == "elsewhere" and self.path != "/secret":
                self.send_response(302)
                # type: ignore below: the stubs know a server of sockets only, ours is an HTTPServer
                self.send_header("Location", f"http://127.0.0.1:{self.server.server_port}/secret")  # type: ignore[attr-defined]
                self.end_headers()
                return
            self.send_response(200)
            self.send_header("Content-Type", "text/html" if self.mode == "html" else "application/sparql-results+json")
            self.end_headers()
            if self.mode == "endless":
                try:
                    self.wfile.write(b'{"head":{"vars":["s"]},"results":{"bindings":[')
                    while True:
                        self.wfile.write(b'{"s":{"type":"literal","value":"x"}},' * 1000)
                except OSError:
                    return
            self.wfile.write(b"<script>alert(1)</script>")

        do_GET = do_POST

        def log_message(self, *given: Any) -> None: ...

    server = ThreadingHTTPServer(("127.0.0.1", 0), Peer)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    here = f"http://127.0.0.1:{server.server_port}/sparql"
    folder = registry(tmp_path / "registry")
    _peer(folder, here)
    with TestClient(make_app(folder, Settings(rate=100, burst=100, seconds=2, echo=False))) as client:
        for mode in ("html", "elsewhere", "endless"):
            Peer.mode = mode
            query = f"SELECT ?s {{ SERVICE <{here}> {{ ?s ?p ?o }} }}"
            answer = client.get("/v1/sparql", params={"query": query})
            assert answer.status_code in (400, 408), (mode, answer.text[:200])
            assert "<script>" not in answer.text
        assert client.get("/health").json()["status"] == "ok"
    server.shutdown()
    assert secret == [], "no other address was called"


# --- asking ---------------------------------------------------------------------------------------------------------


def test_sparql_by_its_protocol(full: Desk) -> None:
    """SPARQL 1.1 Protocol 2.1.1 to 2.1.3: query by GET, by form, and as the body; no update by any of them."""
    query = "SELECT (COUNT(*) AS ?n) { ?r a <https://w3id.org/chordae/model/Record> }"
    kind = {"Content-Type": "application/sparql-query"}
    answers = [
        full.send("GET", "/v1/sparql", params={"query": query}),
        full.send("POST", "/v1/sparql", data={"query": query}),
        full.send("POST", "/v1/sparql", content=query, headers=kind),
    ]
    for one in answers:
        assert one.headers["content-type"].startswith("application/sparql-results+json")
        assert one.json()["results"]["bindings"][0]["n"]["value"] == "7"
    for one in (
        full.send("POST", "/v1/sparql", data={"update": "DROP ALL"}),
        full.send("POST", "/v1/sparql", content="DROP ALL", headers=kind),
        full.send("GET", "/v1/sparql", params={"query": "INSERT DATA { <a:a> <a:a> <a:a> }"}),
    ):
        assert one.status_code == 400
    update = {"Content-Type": "application/sparql-update"}
    assert full.send("POST", "/v1/sparql", content="DROP ALL", headers=update).status_code == 415
    assert full.send("GET", "/v1/sparql", params={"query": query}).json() == answers[0].json()


def test_a_standard_client_asks_the_registry(tmp_path: Path, made: dict[str, Path]) -> None:
    """rdflib's SPARQLStore and its SERVICE, against a served registry."""
    import rdflib
    from rdflib.plugins.stores.sparqlstore import SPARQLStore

    folder = registry(tmp_path / "registry")
    _take_in(folder, made["ours"])
    with served(folder, "--rate", "100", "--seconds", "120") as address:
        graph = rdflib.Graph(SPARQLStore(f"{address}/v1/sparql", returnFormat="json"))
        found = list(graph.query("SELECT ?a { ?r <https://w3id.org/chordae/model/accession> ?a } ORDER BY ?a"))
        assert [str(row[0]) for row in found] == ["00000", "00001", "00002", "00003"]


def test_two_registries_are_asked_together(tmp_path: Path, made: dict[str, Path]) -> None:
    here = registry(tmp_path / "here")
    there = registry(tmp_path / "there", base="https://example.org/registry-b/")
    _take_in(here, made["ours"])
    _take_in(there, made["theirs"])
    terms: dict[str, set[str]] = {}
    for name in ("ours", "theirs"):
        for line in (made[name] / "data/derived.ndjson").read_bytes().splitlines():
            one = orjson.loads(line)
            for each in one["diagnoses"]:
                terms.setdefault(each["term"], set()).add(f"{name}:{one['record']}")
    term = max(terms, key=lambda one: (len({each.partition(":")[0] for each in terms[one]}), len(terms[one])))
    assert {each.partition(":")[0] for each in terms[term]} == {"ours", "theirs"}, "both registries have such hearts"
    with served(there, "--rate", "100", "--seconds", "120") as other:
        _peer(here, f"{other}/v1/sparql")
        with served(here, "--rate", "100", "--seconds", "120") as address:
            query = f"{address}/v1/questions/in_both_registries?term={term}&peer={other}/v1/sparql"
            with urllib.request.urlopen(query, timeout=150) as answer:  # noqa: S310 - an address on this machine
                found = orjson.loads(answer.read())["results"]["bindings"]
    word = {"here": "ours", "there": "theirs"}
    got = {f"{word[row['registry']['value']]}:{row['record']['value'].rpartition('/')[2]}" for row in found}
    assert got == terms[term]


def test_questions_over_http(full: Desk) -> None:
    listed = full.send("GET", "/v1/questions").json()
    assert {one["name"] for one in listed} >= {"hearts_with", "evidence_for", "disagreements", "coding_coverage"}
    table = full.send("GET", "/v1/questions/counts", headers={"Accept": "text/csv"})
    assert table.text.splitlines() == ["collection,descriptions,specimens", "aldermoor,4,4", "birchholt,3,3"]
    assert full.send("GET", "/v1/questions/hearts_with").status_code == 400
    assert full.send("GET", "/v1/questions/hearts_with", params={"term": "x } DROP"}).status_code == 400
    assert full.send("GET", "/v1/questions/nothing").status_code == 404


def test_pages_show_and_run_nothing(full: Desk, made: dict[str, Path]) -> None:
    heart = full.send("GET", "/collections/aldermoor/hearts/INV-000001").text
    assert '<svg class="chain"' in heart
    assert "not for diagnosis" in heart
    questions = ("/questions/counts?ask=1", "/questions/history")
    for path in ("/", "/collections/aldermoor", "/terms?words=tetralogy", *questions):
        answer = full.send("GET", path)
        assert answer.status_code == 200
        assert "<script" not in answer.text and "http://" not in answer.text.replace("http://www.w3.org", "")
    coverage = full.send("GET", "/questions/coding_coverage?ask=1").text
    assert ">exact codes<" in coverage and ">label<" not in coverage
    evil = "<script>alert(1)</script>"
    assert evil not in full.send("GET", "/terms", params={"words": evil}).text
    refused = full.send("GET", "/questions/hearts_with", params={"ask": "1", "term": evil})
    assert (refused.status_code, refused.headers["content-type"]) == (400, "application/json")
    assert full.send("GET", "/collections/nothing").status_code == 404
    assert full.send("GET", "/collections/..%2f..%2fetc").status_code in (404, 422)


def test_the_audit_log_names_who_and_holds_no_secret(full: Desk) -> None:
    text = (full.folder / "audit.ndjson").read_text()
    lines = [json.loads(line) for line in text.splitlines()]
    assert any(one.get("token") == full.ours.split("_")[1] and one["path"] == "/v1/submissions" for one in lines)
    for secret in (full.ours, full.theirs, full.reader):
        assert secret.split("_", 2)[2] not in text
    assert (full.folder / "audit.ndjson").stat().st_mode & 0o077 == 0


def _take_in(folder: Path, one: Path) -> None:
    from chordae.registry import submit
    from chordae.registry.stores import open_store

    with Registry.open(folder, write=True) as opened:
        assert submit(opened, one).entry.accepted
        with open_store(opened):
            pass


def _peer(folder: Path, address: str) -> None:
    about = orjson.loads((folder / "registry.json").read_bytes())
    (folder / "registry.json").write_bytes(orjson.dumps({**about, "peers": {"other": address}}))


def _paths(app: Any) -> set[str]:
    """Every path that an application answers, whatever holds its routes."""
    found: set[str] = set()
    waiting = [*app.routes]
    while waiting:
        one = waiting.pop()
        inner = getattr(one, "routes", None) or getattr(getattr(one, "original_router", None), "routes", None)
        if inner:
            waiting += inner
        elif getattr(one, "path", None):
            found.add(one.path)
    return found
