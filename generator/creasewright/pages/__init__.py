"""Sections to numbered pages."""
