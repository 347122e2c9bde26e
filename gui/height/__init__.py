"""Height: altitude against time for one evening."""
