"""What the core refuses, read as the user is told it."""

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

import pytest

from bookgen.errors import Message, RefusedError, why
from bookgen.words.speech import ENGLISH


def said(messages: Iterable[Message | None]) -> list[str | None]:
    """Messages of the core as a user is told them."""
    return [None if message is None else ENGLISH.line(message) for message in messages]


@contextmanager
def refused(told: str) -> Iterator[None]:
    """What is done here is refused in these words, a regular expression."""
    with pytest.raises(RefusedError) as raised:
        yield
    assert re.search(told, ENGLISH.line(why(raised.value)))
