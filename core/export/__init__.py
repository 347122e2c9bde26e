"""Results as plain dictionaries for JSON."""
