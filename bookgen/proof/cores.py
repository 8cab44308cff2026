"""The pages of a finished book looked at by as many processes as the machine has cores."""

import os
import signal
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from itertools import chain, repeat
from multiprocessing import get_context
from typing import Final

from bookgen.proof.printed import Page
from bookgen.proof.reading import count_pages, read_pages

A_SHARE: Final = 40
"""Pages for which it is worth while to start a process: it takes a third of a second (measured)."""


def looked_at[Found](pdf: bytes, look: Callable[[Page], Found]) -> list[Found]:
    """What is found on each page of a file; look: can be sent to another process."""
    pages = range(count_pages(pdf))
    processes = min(os.cpu_count() or 1, len(pages) // A_SHARE)
    if processes < 2:  # noqa: PLR2004  one is at work already
        return look_at(pdf, pages, look)
    shares = [pages[at::processes] for at in range(processes)]
    with ProcessPoolExecutor(processes, get_context("spawn"), undisturbed) as pool:
        found = chain(*pool.map(look_at, repeat(pdf), shares, repeat(look)))
    by_page = dict(zip(chain(*shares), found, strict=True))
    return [by_page[page] for page in pages]


def look_at[Found](pdf: bytes, pages: Sequence[int], look: Callable[[Page], Found]) -> list[Found]:
    """What is found on some pages of a file; pages: from 0."""
    return [*map(look, read_pages(pdf, pages))]


def undisturbed() -> None:
    """Let the process that has started this one hear alone that the user wants to stop."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
