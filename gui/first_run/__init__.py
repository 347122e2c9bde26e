"""Setting up a new observer, step by step."""
