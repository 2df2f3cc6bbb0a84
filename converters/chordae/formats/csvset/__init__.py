"""A set of CSV tables that the schema lays out, with two descriptions that others read: CSVW and Data Package."""
