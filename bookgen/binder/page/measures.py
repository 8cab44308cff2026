"""What a measure in layout.toml can be: units and bounds, and a table in which keys are known."""

from typing import Annotated

import msgspec

Margin = Annotated[float, msgspec.Meta(ge=0, le=80)]
Points = Annotated[float, msgspec.Meta(ge=6, le=72)]
Length = Annotated[float, msgspec.Meta(ge=0, le=100)]
Leading = Annotated[float, msgspec.Meta(ge=1, le=2)]
Staff = Annotated[float, msgspec.Meta(ge=5, le=16)]
Step = Annotated[float, msgspec.Meta(ge=-8, le=8)]
Spaces = Annotated[float, msgspec.Meta(ge=-10, le=10)]
Rule = Annotated[float, msgspec.Meta(ge=4, le=20)]
Thickness = Annotated[float, msgspec.Meta(ge=0.05, le=2)]


class Section(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A table of layout.toml in which every key is known."""
