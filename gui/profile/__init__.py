"""The profile in hand: its file, its unsaved edits and what is remembered between two starts."""
