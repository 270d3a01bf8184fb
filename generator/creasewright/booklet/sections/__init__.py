"""One section of the pack a file; none imports another."""
