"""How the key of a drill is written, and what is wrong with a text that is none."""

import re
from typing import Final

from bookgen.errors import Message, refused

KEY_PARTS: Final = (
    ("key-instrument", r"(?P<instrument>[a-z0-9_]+)"),
    ("key-fingers", r"-(?P<fingers>t?[1-4]{1,4}|t)"),
    ("key-spacings", r"(?:(?<=-[t1-4])(?![1-4])|-(?P<spacings>[a-z.-]+?)(?:-(?P<drawn>back))?)"),
    ("key-place", r"-place(?P<place>0|[1-9][0-9]?)(?:to(?P<to>[1-9][0-9]?))?"),
    ("key-strings", r"-strings(?P<strings>[1-6]{2,6})"),
    ("key-stage", r"-stage(?P<stage>[1-5])"),
    ("key-lead", r"-(?P<lead>low|high|order(?P<order>[t1-4]{3,4}))"),
    ("key-return", r"-(?P<back>same|mirror)"),
)
"""The parts of a key in their order: by what name each is asked for, and how it is written."""

DRAWN: Final = "back"
"""In a key: a hand that is extended back."""

KEY: Final = re.compile("".join(pattern for _, pattern in KEY_PARTS))
KEY_EXAMPLE: Final = "violin-12-whole-place2-strings4321-stage1-low-same"


def wanted_in(key: str) -> Message:
    """Which part of a text that is no key is the first that is wrong."""
    for count in range(1, len(KEY_PARTS) + 1):
        start = re.compile("".join(pattern for _, pattern in KEY_PARTS[:count]))
        if start.match(key) is None:
            return refused(KEY_PARTS[count - 1][0])
    return refused("key-end")
