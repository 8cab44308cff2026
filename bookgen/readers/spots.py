"""The table of hard spots from its data file, or a finding that names the place."""

from functools import cache
from typing import Final

from bookgen.model.spot_weights import SpotWeights
from bookgen.readers.data_file import data_text, decoded

FILE: Final = "spots.toml"


@cache
def read_spots() -> SpotWeights:
    """Read the table that comes with the package.

    Raises:
        BookgenError: the file is damaged.
    """
    return decoded(data_text(FILE), FILE, SpotWeights)
