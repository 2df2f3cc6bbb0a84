"""FHIR R4: a record as a bundle, the vocabulary as code system, value sets and concept map; and back."""
