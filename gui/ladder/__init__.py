"""Ladder: the powers of one scope under tonight's air."""
