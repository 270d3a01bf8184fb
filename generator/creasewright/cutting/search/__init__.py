"""The search for few sheets, in whole numbers: knows sizes and counts, nothing of cuts in order, of millimetres or of paper."""
