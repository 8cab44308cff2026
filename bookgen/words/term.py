"""Words that stand in a table, so that the extractor finds them there."""

from typing import NamedTuple


class Term(NamedTuple):
    """A word of a table, whose meaning hangs on where it stands."""

    context: str
    text: str
