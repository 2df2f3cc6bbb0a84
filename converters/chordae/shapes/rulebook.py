"""The rule book: all rules as one HTML page that asks nothing of the network; it opens from a folder as well.

Rules stand by group (``schema/shapes/groups.yaml``), each with its sentence, message, remedy, reason, source and two
hearts to see it by.
"""

from __future__ import annotations

import html

import yaml

from chordae import resources
from chordae.shapes.explain import examples, fields_of
from chordae.shapes.load import Rule, load_rules

__all__ = ["rule_book"]

GROUPS = "schema/shapes/groups.yaml"


def rule_book() -> str:
    """Return the page."""
    names: dict[str, str] = yaml.safe_load(resources.read_text(GROUPS))["groups"]
    groups: dict[str, list[Rule]] = {letters: [] for letters in names}
    for rule in load_rules().rules.values():
        groups[rule.id.split("-")[1]].append(rule)
    contents = "".join(
        f'<li><a href="#{letters}">{html.escape(names[letters])}</a> ({len(rules)})</li>\n'
        for letters, rules in groups.items()
    )
    body = "".join(
        f'<section id="{letters}">\n<h2>{html.escape(names[letters])}</h2>\n{"".join(map(_article, rules))}</section>\n'
        for letters, rules in groups.items()
    )
    return PAGE.format(number=len(load_rules().rules), version=resources.VERSION, contents=contents, body=body)


def _article(rule: Rule) -> str:
    rows = "".join(f"<dt>{html.escape(name)}</dt><dd>{html.escape(text)}</dd>\n" for name, text in fields_of(rule))
    hearts = "".join(
        f"<dt>A heart that {'passes' if kind == 'passing' else 'fails'}</dt><dd>{html.escape(one.says)} "
        f"({html.escape(one.why)})<pre>{html.escape(chr(10).join(one.lines))}</pre></dd>\n"
        for kind, one in examples().get(rule.id, {}).items()
    )
    return (
        f'<article id="{rule.id}" class="{rule.severity}">\n<h3>{rule.id} <small>{rule.severity}</small> '
        f"{html.escape(rule.label)}</h3>\n<dl>\n{rows}{hearts}</dl>\n</article>\n"
    )


PAGE = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Rules of morphology</title>
<style>
body {{ font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 0 auto; padding: 1rem; color: #1d1d1f; }}
h3 {{ margin: 1.5rem 0 .25rem; }}
small {{ font-weight: normal; border: 1px solid currentColor; border-radius: .75rem; padding: 0 .5rem; }}
.violation small {{ color: #a1001f; }} .warning small {{ color: #7a4a00; }} .info small {{ color: #00528a; }}
dl {{ display: grid; grid-template-columns: minmax(5rem, 9rem) minmax(0, 1fr); gap: .15rem 1rem; margin: 0; }}
dt {{ color: #5a5a5f; }} dd {{ margin: 0; overflow-wrap: anywhere; }}
pre {{ margin: .25rem 0; padding: .5rem; background: #f3f3f5; white-space: pre-wrap; font-size: .85rem; }}
@media (max-width: 40rem) {{ dl {{ grid-template-columns: minmax(0, 1fr); }} dt {{ margin-top: .5rem; }} }}
</style>
</head>
<body>
<h1>Rules of morphology</h1>
<p>{number} rules, version {version}. They check descriptions of specimens for teaching, research and registries.
They are not for diagnosis or for planning treatment, and take the place neither of licensed practice nor of local codes
on human remains, consent and data protection. The hearts shown are invented.</p>
<ul>
{contents}</ul>
{body}</body>
</html>
"""
