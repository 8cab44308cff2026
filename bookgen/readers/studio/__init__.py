"""studio.toml: a studio, its players and what each is to cover."""
