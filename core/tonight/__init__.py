"""What tonight comes to: the limiter, the facts of the answer, the evening in order."""
