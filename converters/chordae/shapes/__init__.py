"""Rules of morphology as SHACL shapes: loaded and linted, run by two engines, told in words."""
