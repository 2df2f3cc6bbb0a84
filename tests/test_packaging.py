"""Data files found wherever the package stands, and what pyproject.toml promises about them.

Wheel, sdist and editable install are built and used from another folder by ``.ci/run``.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path
from typing import Any

import pytest

from chordae import __version__, resources
from chordae.errors import ResourceError

TOP = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def project() -> dict[str, Any]:
    """pyproject.toml."""
    return tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))


def test_data_files_are_found_in_the_checkout() -> None:
    assert "rules:" in resources.read_text("schema/intake_rules.yaml")
    assert resources.find("mappings").is_dir()
    assert len(resources.digest("schema/parts.yaml")) == 64
    assert resources.digest("schema/shapes") != resources.digest("schema/vocabulary")
    assert __version__ == resources.VERSION


@pytest.mark.parametrize("name", ["schema/none.yaml", "schema/../pyproject.toml", "none"])
def test_a_data_file_that_is_not_there(name: str) -> None:
    with pytest.raises(ResourceError, match="missing"):
        resources.find(name)


def test_data_files_are_found_beside_the_code_in_a_zip(tmp_path: Path) -> None:
    """As in a wheel, and from inside a zip file: the data stand in the package itself."""
    with zipfile.ZipFile(tmp_path / "app.zip", "w") as package:
        for name in ("__init__.py", "errors.py", "resources.py"):
            package.write(TOP / "converters" / "chordae" / name, f"chordae/{name}")
        package.writestr("chordae/schema/x.yaml", "from the zip")
    code = "from chordae import resources as r; print(r.read_text('schema/x.yaml'), len(r.digest('schema')))"
    shown = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": "app.zip"},
        cwd=tmp_path,
    )
    assert shown.stdout == "from the zip 64\n"


def test_the_wheel_carries_schema_and_mappings(project: dict[str, Any]) -> None:
    wheel = project["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel["packages"] == ["converters/chordae"]
    assert wheel["force-include"] == {"schema": "chordae/schema", "mappings": "chordae/mappings"}
    assert project["tool"]["hatch"]["build"]["dev-mode-dirs"] == ["converters"]


def test_only_the_named_libraries_are_needed_at_run_time(project: dict[str, Any]) -> None:
    """Few and general-purpose; what is heavier is an extra. LinkML is needed for building and testing only."""
    names = {re.split(r"[<>=;\[ ]", one)[0] for one in project["project"]["dependencies"]}
    assert names == {
        "PyYAML", "bagit", "defusedxml", "jsonschema-rs", "openpyxl", "orjson", "pyoxigraph", "pyshacl", "rdflib",
        "rich", "shacl",
    }  # fmt: skip
    assert project["project"]["requires-python"] == ">=3.11"


def test_the_version_stands_in_one_place_and_the_citation_agrees(project: dict[str, Any]) -> None:
    assert project["project"]["dynamic"] == ["version"]
    assert f"version: {__version__}\n" in (TOP / "CITATION.cff").read_text(encoding="utf-8")
    assert f"## {__version__}" in (TOP / "CHANGELOG.md").read_text(encoding="utf-8")
    for name in project["project"]["license-files"]:
        assert (TOP / name).is_file()


def test_the_package_says_that_it_is_typed() -> None:
    assert (TOP / "converters" / "chordae" / "py.typed").is_file()
