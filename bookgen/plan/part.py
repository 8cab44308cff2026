"""Another instrument of a class, and what it plays while the first one plays its drills."""

from typing import Annotated

import msgspec

from bookgen.plan.facts import Facts, Key, Name


class Part(Facts, frozen=True, kw_only=True):
    """An instrument that plays along; `keys` are its own drills, one for each of the document's."""

    instrument: Name
    size: str
    keys: Annotated[tuple[Key, ...], msgspec.Meta(min_length=1)]
