"""TOML, CSV and exported jobs, in and out."""
