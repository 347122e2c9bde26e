"""Where and when each body stands."""
