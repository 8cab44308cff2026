"""The language in which a command speaks: that of --language, else of the studio, else English."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from itertools import pairwise
from typing import Final

from bookgen.errors import Finding, Said
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.words.speech import ENGLISH, SOURCE, Speech, languages, speech_of

OPTION: Final = "--language"
SPOKEN: Final[ContextVar[Speech]] = ContextVar("spoken", default=ENGLISH)


def speech() -> Speech:
    """The language of this command."""
    return SPOKEN.get()


def say(text: str, /, **facts: object) -> str:
    """A sentence in the language of this command."""
    return speech().say(text, **facts)


def line(said: Said | Finding) -> str:
    """A message or a finding as one line in the language of this command."""
    return speech().line(said)


@contextmanager
def speaking(arguments: Sequence[str], folder: StudioFolder) -> Iterator[None]:
    """Say everything inside in the language of the arguments or of the studio."""
    known = [name for name in (asked(arguments), folder.language) if name in languages()]
    token = SPOKEN.set(speech_of(next(iter(known), SOURCE)))
    try:
        yield
    finally:
        SPOKEN.reset(token)


def asked(arguments: Sequence[str]) -> str | None:
    """The language that stands on the command line."""
    apart = [after for word, after in pairwise(arguments) if word == OPTION]
    joined = [word.partition("=")[2] for word in arguments if word.startswith(f"{OPTION}=")]
    return next(iter([*apart, *joined]), None)
