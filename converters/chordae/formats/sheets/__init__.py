"""Records as flat tables, one for each class of the schema: what XLSX workbooks and CSV sets are made of."""
