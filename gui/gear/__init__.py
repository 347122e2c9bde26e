"""Gear: what is owned and what it gives."""
