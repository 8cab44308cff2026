"""What all objects of the plan document have in common."""

from typing import Annotated

import msgspec

Minutes = Annotated[float, msgspec.Meta(gt=0, le=1440)]
Name = Annotated[str, msgspec.Meta(min_length=1, max_length=2000)]
Number = Annotated[int, msgspec.Meta(ge=1, le=1_000_000, description="a drill's own number")]
Key = Annotated[str, msgspec.Meta(min_length=1, max_length=200, description="a drill's key")]


class Facts(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """An object of the document in which every key is known."""
