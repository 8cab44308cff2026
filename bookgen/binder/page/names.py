"""What a user typed becomes text that a page can hold: no control codes, one line."""

import unicodedata
from collections.abc import Callable
from typing import Final

from bookgen.binder.page.fonts import REPLACEMENT
from bookgen.binder.page.order import CLOSE, isolated
from bookgen.binder.page.typeset import CUT_MARK

LONGEST: Final = 500


def clean(text: str, has_glyph: Callable[[str], bool]) -> str:
    """A line of printable characters; what no font has becomes a white square.

    Control characters become white, invisible ones (joiners, direction marks) go. A name with
    right-to-left letters is isolated, so that the sentence around it keeps its own order. What
    looks like a mark of the cut is none: an invisible character breaks it.
    """
    kept = unicodedata.normalize("NFC", text[: LONGEST + 1])
    visible = "".join(
        " " if unicodedata.category(character) in {"Cc", "Zl", "Zp"} else character
        for character in kept
        if not unicodedata.category(character).startswith(("Cf", "Cs", "Mn", "Me"))
    )
    line = "".join(
        character if has_glyph(character) else REPLACEMENT
        for character in " ".join(visible.split())
    )
    return isolated(CUT_MARK.sub(lambda mark: f"<{CLOSE}{mark[0][1:]}", line))
