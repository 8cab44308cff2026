"""Words that are written once for each language: which of them is wrong."""

from collections.abc import Mapping
from typing import Final

EACH: Final = "[...]"
"""In what the schema's library says of a value in a table."""

LONGEST_NAME: Final = 20


def odd_entry(key: str, value: object, message: str) -> tuple[str, object]:
    """The key and the value that are wrong; of words in several languages those of one.

    message: what the schema's library says.

    >>> odd_entry("title", {"en": "First", "de": 0}, "Expected `str` - at `$.title[...]`")
    ('title.de', 0)
    """
    if not isinstance(value, Mapping) or EACH not in message:
        return key, value
    name = odd_one(value)
    cut = name[:LONGEST_NAME]
    return f"{key}.{cut if cut.isprintable() else ascii(cut)}", value[name]


def odd_one(words: Mapping[str, object]) -> str:
    """The language whose words are no text, or are none, or are far too long."""
    texts = {language: said for language, said in words.items() if isinstance(said, str)}
    others = (language for language in words if not texts.get(language))
    return next(others, "") or max(texts, key=lambda language: len(texts[language]))
