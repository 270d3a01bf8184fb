"""Which side of each piece lies up to be scored, how it lies, where its lines are, and the drawing of it."""
