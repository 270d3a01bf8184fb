"""One question a file; each gives findings, none prints."""
