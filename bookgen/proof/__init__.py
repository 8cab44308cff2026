"""A finished book read back from its pages, and compared with the plan of which it is made."""
