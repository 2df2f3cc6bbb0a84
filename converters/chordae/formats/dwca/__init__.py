"""Darwin Core Archive: one occurrence a record, and every statement of it as a measurement or fact."""
