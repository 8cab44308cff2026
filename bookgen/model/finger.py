"""The fingers of the left hand, the thumb among them, and how keys and files write them."""

from collections.abc import Iterable
from typing import Final

THUMB: Final = -1
"""The thumb on the string, as in thumb position: it lies below finger 1, and is no open string."""

OPEN: Final = 0
"""No finger: the open string."""

LEFT_HAND: Final = (THUMB, 1, 2, 3, 4)
"""What stops a string, from the scroll to the bridge."""

THUMB_SIGN: Final = "t"
"""The thumb in keys of drills, in studio files and in typed passages."""


def sign_of(finger: int) -> str:
    """A finger as keys and files write it.

    >>> sign_of(3), sign_of(THUMB)
    ('3', 't')
    """
    return THUMB_SIGN if finger == THUMB else str(finger)


def signs_of(fingers: Iterable[int]) -> str:
    """Fingers as keys and files write them.

    >>> signs_of((THUMB, 1, 3))
    't13'
    """
    return "".join(map(sign_of, fingers))


def fingers_in(signs: str) -> tuple[int, ...]:
    """Fingers as keys and files write them, read back.

    >>> fingers_in("t13")
    (-1, 1, 3)

    Raises:
        ValueError: a sign is no digit and no thumb.
    """
    return tuple(THUMB if sign == THUMB_SIGN else int(sign) for sign in signs)
