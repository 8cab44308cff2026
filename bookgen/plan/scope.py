"""What the roster said of a player when days were planned."""

from bookgen.plan.facts import Facts, Key, Minutes, Name


class Scope(Facts, omit_defaults=True, frozen=True, kw_only=True):
    """What the roster said of the player when the days were planned.

    A day that was printed is printed again as it was only while the roster says the same.
    """

    instrument: Name
    size: str | None
    minutes: Minutes
    positions: tuple[str, ...]
    hands: tuple[str, ...]
    fewest_strings: int
    highest_stage: int
    start: Key
    secure_to_stage: int
    known: tuple[str, ...] = ()
