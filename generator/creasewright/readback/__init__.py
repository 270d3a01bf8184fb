"""The finished file back to geometry, compared with the design."""
