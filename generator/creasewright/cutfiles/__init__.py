"""Pieces and planned sheets as drawings for cutting machines and drawing programs."""
