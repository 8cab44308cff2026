"""What lies ahead of a player: bars of a piece, what a plan does not reach, what comes after."""

from datetime import date as Date  # noqa: N812
from datetime import timedelta
from typing import Annotated, Final

import msgspec

from bookgen.plan.facts import Facts, Name

LAST_DAYS: Final = timedelta(days=3)
"""So long before a day the bars themselves are played; own choice."""


class Deadline(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """Bars of a piece that are to be ready by a day; no bars are the whole piece.

    Of the `drills` that lead there `placed` have room by then; `minutes` a day would do for all,
    where so long a day can be planned. Where nothing is told of drills there are none. `music` is
    a MusicXML 4.0 file of the bars with their fingers and strings, where they are printed too.
    """

    title: Name
    bars: tuple[str, str] | None
    ready_by: Date
    drills: Annotated[int, msgspec.Meta(ge=0)] = 0
    placed: Annotated[int, msgspec.Meta(ge=0)] = 0
    minutes: Annotated[int, msgspec.Meta(ge=1)] | None = None
    music: str = ""

    def is_close(self, date: Date) -> bool:
        """Whether the bars themselves are played on a day, so shortly before theirs.

        >>> piece = Deadline(title="Air", bars=None, ready_by=Date(2026, 12, 20))
        >>> [day for day in range(15, 25) if piece.is_close(Date(2026, 12, day))]
        [18, 19, 20]
        """
        return timedelta(0) <= self.ready_by - date < LAST_DAYS


class Unreached(Facts, frozen=True, kw_only=True):
    """A position with fingers of the player's area of which no drill of the plan comes.

    `steps` lead there from what is played by then, a night each; null where nothing does.
    """

    position: Name
    fingers: tuple[int, ...]
    steps: Annotated[int, msgspec.Meta(ge=1)] | None


class Further(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """What a player could add to an area that is through: a stage, two fingers or a position.

    All of the area is secure; or else all of it has been met, and not all is `secure` now.
    """

    secure: bool = True

    stage: Annotated[int, msgspec.Meta(ge=2, le=5)] | None = None
    fingers: tuple[int, int] | None = None
    position: str | None = None
