"""Writers of the generated files: each takes the tables of the schema and returns text. Build time only."""
