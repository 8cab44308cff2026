"""The fingerboard chart of a drill, to true scale."""
