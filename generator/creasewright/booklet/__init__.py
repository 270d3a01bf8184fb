"""What the pack shows, in millimetres; knows no YAML and no PDF."""
