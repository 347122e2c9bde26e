"""What is owned, what one combination gives, and figures as people type them."""
