"""Catalogues in many parts, worked through by many processes or machines."""
