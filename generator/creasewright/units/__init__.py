"""Numbers with dimensions; knows nothing of paper."""
