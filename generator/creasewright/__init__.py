"""Creasewright: one design file of a folded-paper project becomes a printed pattern pack."""
