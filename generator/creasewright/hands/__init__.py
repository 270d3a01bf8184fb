"""What hands err by, and what that does to every clearance of a design: its room, its error, how many of so many makers fail."""
