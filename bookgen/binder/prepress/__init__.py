"""A finished book made ready for a printing house."""
