"""Records as RDF: written (N-Triples, N-Quads, Turtle, TriG, JSON-LD), read back, digested."""
