"""The drawings, the same on screen and on paper."""
