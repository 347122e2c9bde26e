"""Files that are kept: profiles and the log."""
