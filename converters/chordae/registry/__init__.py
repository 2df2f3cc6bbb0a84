"""A shared registry of deposits: each is checked, accepted whole or refused with reasons, and never lost.

::

    deposit -> gate -> ledger (append-only, the truth) -> store (one named graph a version, PROV-O) -> questions

    <registry>/ registry.json  profile.yaml          what it is, and what it asks of a deposit
                ledger.sqlite                        every decision, each with the digest of the one before
                deposits/<digest>/                   what was handed in, as it was handed in
                made/<number>/                       what was made of it: graph, hearts, report
                store/live/  store/seen/<number>/    the triples: written here, read there
                tokens.sqlite  audit.ndjson          who may do what, and who did what

A decision counts from the moment its line is in the ledger. Everything before that is swept away when the registry
is opened next; everything after it is made again from the ledger.
"""

from __future__ import annotations

from chordae.registry.gate import Verdict, judge
from chordae.registry.place import Registry, create
from chordae.registry.submit import Submission, submit

__all__ = ["Registry", "Submission", "Verdict", "create", "judge", "submit"]
