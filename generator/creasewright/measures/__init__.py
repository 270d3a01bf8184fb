"""Names and formulas to exact quantities."""
