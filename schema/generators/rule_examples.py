"""From the cases of the rules to the examples that ``chordae explain`` shows: two hearts a rule, one of each kind.

``tests/rules/<RULE-ID>.yaml`` holds the cases; the first that passes and the first that fails are taken. Rules across
records have theirs in ``tests/sets``, with several records a case. A wheel has no tests, so these are compiled into the
package. A rule whose id is not among them has no case, and is refused.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import yaml

KINDS = ("passing", "failing")


def make_rule_examples(*folders: Path) -> str:
    """Return the examples of all rules as JSON, by rule and kind."""
    found: dict[str, dict[str, Any]] = {}
    for path in sorted((path for folder in folders for path in folder.glob("R-*.yaml")), key=lambda one: one.stem):
        cases = yaml.safe_load(path.read_text(encoding="utf-8"))["cases"]
        first = {kind: next((case for case in cases if case["kind"] == kind), None) for kind in KINDS}
        found[path.stem] = {
            kind: {"says": case["says"], "record": _record(case), "why": case["why"]}
            for kind, case in first.items()
            if case is not None
        }
    return json.dumps(found, ensure_ascii=False, separators=(",", ":")) + "\n"


def _record(case: dict[str, Any]) -> dict[str, Any]:
    record: dict[str, Any] = {"records": case["records"]} if "records" in case else case["record"]
    return record
