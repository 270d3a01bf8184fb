"""Blanks put on blanks: placing, glue areas, pockets."""
