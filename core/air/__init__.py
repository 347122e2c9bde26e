"""What the air and the mirror let through."""
