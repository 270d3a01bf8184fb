"""Flat pieces: outlines, scores, slits, holes and the panels between them."""
