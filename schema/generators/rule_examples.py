"""From the cases of the rules to the examples that ``chordae explain`` shows: two hearts a rule, one of each kind.

``tests/rules/<RULE-ID>.yaml`` holds the cases; the first that passes and the first that fails are taken. A wheel has no
tests, so these are compiled into the package. A rule whose id is not among them has no case, and is refused.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import yaml

KINDS = ("passing", "failing")


def make_rule_examples(folder: Path) -> str:
    """Return the examples of all rules as JSON, by rule and kind."""
    found: dict[str, dict[str, Any]] = {}
    for path in sorted(folder.glob("R-*.yaml")):
        cases = yaml.safe_load(path.read_text(encoding="utf-8"))["cases"]
        first = {kind: next((case for case in cases if case["kind"] == kind), None) for kind in KINDS}
        found[path.stem] = {
            kind: {"says": case["says"], "record": case["record"], "why": case["why"]}
            for kind, case in first.items()
            if case is not None
        }
    return json.dumps(found, ensure_ascii=False, separators=(",", ":")) + "\n"
