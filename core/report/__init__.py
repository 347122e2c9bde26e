"""Results as plain text for a terminal of 80 columns."""
