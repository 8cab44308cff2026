"""The spec of a book, a TOML file of its publisher."""
