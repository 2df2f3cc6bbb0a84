"""Written by schema/generate.py and never edited: what the package needs of the schema at run time."""
