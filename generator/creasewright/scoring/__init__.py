"""How each piece lies to be scored: side up, edge at the stop, settings of the score board."""
