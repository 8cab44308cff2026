"""The pages of a passage of a real piece."""
