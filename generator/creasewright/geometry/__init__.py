"""Points, outlines, arrangements and transforms; knows nothing of blanks."""
