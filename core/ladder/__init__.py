"""Rungs, ceiling, notices and gaps of one telescope, and two telescopes compared."""
