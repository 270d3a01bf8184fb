"""Files to what was written in them; the only folder that knows YAML."""
