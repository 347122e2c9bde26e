"""Stillair without a window: kit, sky, air, records and drawings."""
