"""Formats that other systems speak: one module a format, with writer, reader where there is one, and losses."""
