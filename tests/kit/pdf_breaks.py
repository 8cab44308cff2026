"""Ways to break one thing in a finished PDF."""

from collections.abc import Callable

import pikepdf

Break = Callable[[pikepdf.Pdf], None]


def without(holder: Callable[[pikepdf.Pdf], pikepdf.Object], key: str) -> Break:
    """Take a key away."""

    def take(book: pikepdf.Pdf) -> None:
        del holder(book)[key]

    return take


def with_(holder: Callable[[pikepdf.Pdf], pikepdf.Object], key: str, value: object) -> Break:
    """Set a key."""

    def put(book: pikepdf.Pdf) -> None:
        holder(book)[key] = value

    return put
