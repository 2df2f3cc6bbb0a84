"""GA4GH Phenopackets v2: one packet a record, made and read by the official package (extra ``phenopackets``)."""
