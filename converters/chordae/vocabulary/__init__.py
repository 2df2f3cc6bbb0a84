"""The vocabulary against the outside: proof of ids, drift between releases, coherence of hierarchies, publication."""
