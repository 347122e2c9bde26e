"""Results as plain text for a terminal."""
