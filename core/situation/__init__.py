"""What is chosen and what follows from it; the window and every command read one situation."""
