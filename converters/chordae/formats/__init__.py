"""Formats that other systems speak: one module a format, each with writer, reader where there is one, and its losses."""
