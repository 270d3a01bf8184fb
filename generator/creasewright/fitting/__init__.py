"""What follows from the finished thing: bulk, sizes, fits, print turns."""
