"""Pages to a file; translates, decides nothing."""
