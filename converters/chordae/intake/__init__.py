"""From somebody's file to records with the place of every value: documents, tables, workbooks, crosswalks."""
