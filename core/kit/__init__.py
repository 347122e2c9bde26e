"""What is owned and what its combinations give."""
