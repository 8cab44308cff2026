"""The language of a studio's file, read before all else: complaints are to be made in it."""

import msgspec


class Spoken(msgspec.Struct):
    """The one key of the file that counts here."""

    language: str | None = None


def named_language(text: str) -> str | None:
    """The language that the text of a studio file names; None where it names none.

    >>> named_language('language = "de"'), named_language("language = 3"), named_language("[")
    ('de', None, None)
    """
    try:
        return msgspec.toml.decode(text, type=Spoken).language
    except (msgspec.DecodeError, msgspec.ValidationError):
        return None
