"""The service against its own OpenAPI document, by schemathesis; and its pages in headless Chromium.

schemathesis asks for another release of a package that chordae needs too, so it stands in an environment of its own:
``CHORDAE_SCHEMATHESIS`` names its command, or it is found on the path.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from chordae.registry import Registry, submit
from chordae.registry.stores import open_store
from chordae.registry.tokens import Tokens
from registry_data import deposit, hearts, only_here, registry, served

pytest.importorskip("fastapi", reason="the extra 'registry' is not installed")
SCHEMATHESIS = os.environ.get("CHORDAE_SCHEMATHESIS") or shutil.which("schemathesis")
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only this machine, in place of the fixture that allows nothing."""
    only_here(monkeypatch)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    top = tmp_path_factory.mktemp("registry")
    made = registry(top / "registry")
    with Registry.open(made, write=True) as opened:
        assert submit(opened, deposit(top / "d", hearts(range(5), "aldermoor"))).entry.accepted
        with open_store(opened):
            pass
    return made


@pytest.fixture
def address(folder: Path) -> Iterator[str]:
    with served(folder, "--rate", "100000", "--seconds", "3") as found:
        yield found


@pytest.mark.skipif(SCHEMATHESIS is None, reason="schemathesis is not there (pip install it into a venv of its own)")
def test_the_service_keeps_to_its_openapi_document(folder: Path, address: str, tmp_path: Path) -> None:
    """All checks but one: that every text of the schema is accepted cannot hold for a SPARQL query."""
    token = Tokens(folder / "tokens.sqlite").make("aldermoor")
    done = subprocess.run(
        [
            *(str(SCHEMATHESIS), "run", f"{address}/v1/openapi.json", "-H", f"Authorization: Bearer {token}"),
            *("--checks", "all", "--exclude-checks", "positive_data_acceptance"),
            *("--max-examples", "8", "--seed", "8", "--workers", "1", "--no-color"),
        ],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stdout[-4000:]
    assert "15 selected / 15 total" in done.stdout


@pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not on this machine (apt-get install chromium)")
@pytest.mark.parametrize("width", [1280, 390])
def test_pages_are_shown_by_a_browser(address: str, tmp_path: Path, width: int) -> None:
    """The browser builds each page, loads its one stylesheet, and nothing is wider than the window."""
    for path in ("/", "/collections/aldermoor", "/collections/aldermoor/hearts/INV-000001"):
        picture = tmp_path / "page.png"
        base = [str(CHROMIUM), "--headless", "--no-sandbox", "--disable-gpu", f"--window-size={width},1400"]
        base.append(f"--user-data-dir={tmp_path}/profile")
        shown = subprocess.run(
            [*base, "--dump-dom", address + path], capture_output=True, text=True, timeout=120, check=True
        )
        assert "not for diagnosis" in shown.stdout
        if "hearts/" in path:
            assert 'class="chain"' in shown.stdout
            assert "right side" in shown.stdout
        subprocess.run(
            [*base, "--hide-scrollbars", f"--screenshot={picture}", address + path],
            capture_output=True,
            timeout=120,
            check=True,
        )
        assert picture.stat().st_size > 10_000, "a page without its style and picture is smaller than that"
