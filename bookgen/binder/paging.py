"""Which blocks share a page: as few pages as can be, and as even as can be."""

from collections.abc import Callable, Sequence

from bookgen.binder.layout import NoRoomError


def share_out(heights: Sequence[float], room: Callable[[int], float], gap: float) -> list[int]:
    """How many blocks each page takes, in their order.

    The fewest pages; among these the most even ones; among these the earlier pages fuller.

    heights: of the blocks; room: of a page by its number from 0; gap: between two blocks.

    >>> share_out([50, 50, 50, 50, 50], lambda page: 170, 5)
    [3, 2]

    Raises:
        NoRoomError: a block is higher than its page.
    """
    ways: dict[int, list[int]] = {0: []}
    for page in range(len(heights)):
        longer: dict[int, list[int]] = {}
        for start, counts in ways.items():
            for end in fitting(heights, start, room(page), gap):
                found = [*counts, end - start]
                if end not in longer or unevenness(found) < unevenness(longer[end]):
                    longer[end] = found
        if len(heights) in longer:
            return longer[len(heights)]
        ways = longer
    msg = f"the highest drill, {max(heights):.0f} mm, does not fit on a page of {room(0):.0f} mm"
    raise NoRoomError(msg)


def fitting(heights: Sequence[float], start: int, room: float, gap: float) -> list[int]:
    """Where a page that begins with that block may end."""
    ends: list[int] = []
    used = -gap
    for end in range(start + 1, len(heights) + 1):
        used += heights[end - 1] + gap
        if used > room:
            break
        ends.append(end)
    return ends


def unevenness(counts: Sequence[int]) -> tuple[int, list[int]]:
    """Sorts ways to share out blocks: the even ones first, then those with fuller pages first."""
    return (sum(count**2 for count in counts), [-count for count in counts])
