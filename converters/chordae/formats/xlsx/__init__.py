"""A workbook that the schema lays out: an empty template to fill in, filled with records, and read back."""
