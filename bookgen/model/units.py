"""Quantities that must not be mixed up, as types of their own."""

from typing import NewType

Semitones = NewType("Semitones", int)
"""Equal-tempered half steps; above the open string unless a name says otherwise."""

StringNumber = NewType("StringNumber", int)
"""As players count: 1 is the highest string."""

Millimetres = NewType("Millimetres", float)
"""Lengths on the string and on paper."""

Cents = NewType("Cents", float)
"""Hundredths of an equal-tempered half step."""

Hertz = NewType("Hertz", float)
"""Vibrations in a second."""
