"""What argparse complains of, as sentences of our catalogue: it speaks English only."""

import re
from typing import Final

from bookgen.errors import Message, Said, open_sentence

SENTENCES: Final = (
    open_sentence("the following arguments are required: {names}"),
    open_sentence("argument {name}: expected one argument"),
    open_sentence("argument {name}: expected at least one argument"),
    open_sentence("argument {name}: invalid choice: {value} (choose from {choices})"),
    open_sentence("argument {name}: not allowed with argument {other}"),
    open_sentence("argument {name}: ignored explicit argument {value}"),
    open_sentence("argument {name}: invalid {kind} value: {value}"),
)

GAP: Final = re.compile(r"\\\{(\w+)\\\}")


def pattern(sentence: Message) -> re.Pattern[str]:
    """What a sentence looks like with its gaps filled."""
    return re.compile(GAP.sub(r"(?P<\1>.+)", re.escape(sentence.text)))


def complaint(text: str) -> Said:
    """A complaint of argparse as a message; one that we do not know stays as it is.

    >>> complaint("argument --seed: expected one argument").facts
    {'name': '--seed'}
    """
    for sentence in SENTENCES:
        found = pattern(sentence).fullmatch(text)
        if found:
            return sentence.about(**found.groupdict())
    return text
