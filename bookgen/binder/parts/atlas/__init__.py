"""The atlas of the fingerboard: every stop to scale, with its names."""
