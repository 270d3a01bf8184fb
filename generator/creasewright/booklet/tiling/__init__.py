"""Full-size templates on the fewest pages."""
