"""Blanks on sheets, cut edge to edge."""
