"""Panels in space: angles, transforms and layers, step by step."""
