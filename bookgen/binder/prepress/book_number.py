"""The number by which a book is traded: an ISBN, or an ISMN where it is music."""

from dataclasses import dataclass
from typing import Final

from stdnum import ean, isbn, ismn
from stdnum.exceptions import InvalidChecksum, ValidationError

from bookgen.errors import RefusedError

DIGITS: Final = 13
OF_MUSIC: Final = "9790"
"""How every ISMN begins (ISO 10957:2009)."""


@dataclass(frozen=True, slots=True)
class BookNumber:
    """An ISBN or an ISMN of 13 digits.

    Source: ISO 2108:2017, ISO 10957:2009.
    """

    digits: str

    @classmethod
    def parse(cls, text: str) -> "BookNumber":
        """Read a number as it is written, with hyphens or without.

        >>> BookNumber.parse("9780306406157").written
        'ISBN 978-0-306-40615-7'

        Raises:
            RefusedError: it is none, or its last digit does not check.
        """
        digits = isbn.compact(text)
        try:
            known = ismn.validate(digits) if digits.startswith(OF_MUSIC) else isbn.validate(digits)
        except InvalidChecksum as error:
            if len(digits) != DIGITS:
                raise RefusedError("isbn-digits", text=text) from error
            digit = ean.calc_check_digit(digits[:-1])
            raise RefusedError("isbn-check", text=text, digit=digit) from error
        except ValidationError as error:
            raise RefusedError("isbn-digits", text=text) from error
        if len(known) != DIGITS:
            raise RefusedError("isbn-digits", text=text)
        return cls(known)

    @property
    def written(self) -> str:
        """As it stands on a cover and an imprint page."""
        if self.digits.startswith(OF_MUSIC):
            return f"ISMN {ismn.format(self.digits)}"
        return f"ISBN {isbn.format(self.digits)}"
