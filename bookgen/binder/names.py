"""What a user typed becomes text that a page can hold: no control codes, RTL in order."""

import unicodedata
from collections.abc import Callable, Iterator
from itertools import groupby
from typing import Final

from bookgen.binder.fonts import REPLACEMENT

LONGEST: Final = 500
RIGHT: Final = frozenset({"R", "AL"})
NUMBER: Final = frozenset({"EN", "AN"})
MIRRORED: Final = str.maketrans("()[]{}<>«»", ")(][}{><»«")


def clean(text: str, has_glyph: Callable[[str], bool]) -> str:
    """A line of printable characters; what no font has becomes a white square.

    Control characters become white, invisible ones (joiners, direction marks) go.
    """
    kept = unicodedata.normalize("NFC", text[: LONGEST + 1])
    visible = "".join(
        " " if unicodedata.category(character) in {"Cc", "Zl", "Zp"} else character
        for character in kept
        if not unicodedata.category(character).startswith(("Cf", "Cs", "Mn", "Me"))
    )
    line = " ".join(visible.split())
    return "".join(character if has_glyph(character) else REPLACEMENT for character in line)


def in_visual_order(line: str) -> str:
    """The characters of a short line from left to right as they are printed.

    Runs of right-to-left letters are turned round and Arabic letters take their joined forms.
    This is the part of the Unicode bidirectional algorithm that a name needs: strong runs,
    numbers, and what stands between two runs of one direction; no embeddings.
    """
    kinds = [unicodedata.bidirectional(character) for character in line]
    if not RIGHT.intersection(kinds):
        return line
    strong = next(kind for kind in kinds if kind in RIGHT or kind == "L")
    base = strong in RIGHT
    runs = [
        (right, "".join(character for _, character in run))
        for right, run in groupby(
            zip(directions(kinds, base=base), line, strict=True), key=lambda pair: pair[0]
        )
    ]
    turned = [turn(shape(text)) if right else text for right, text in runs]
    return "".join(reversed(turned) if base else turned)


def directions(kinds: list[str], *, base: bool) -> list[bool]:
    """For every character, whether it runs to the left; neutrals join equal neighbours."""
    strong: list[bool | None] = [
        True if kind in RIGHT else False if kind == "L" or kind in NUMBER else None
        for kind in kinds
    ]
    found: list[bool] = []
    for index, here in enumerate(strong):
        if here is not None:
            found.append(here)
            continue
        before = next((side for side in reversed(strong[:index]) if side is not None), base)
        after = next((side for side in strong[index:] if side is not None), base)
        found.append(before if before == after else base)
    return found


def turn(text: str) -> str:
    """A right-to-left run from left to right; brackets are mirrored."""
    return text[::-1].translate(MIRRORED)


def presentation_forms() -> Iterator[tuple[tuple[str, str], str]]:
    """Arabic letters by form and letter (Unicode, Arabic Presentation Forms-B)."""
    for code in range(0xFE80, 0xFEF5):
        form, _, letter = unicodedata.decomposition(chr(code)).partition(" ")
        if form in {"<isolated>", "<initial>", "<medial>", "<final>"} and " " not in letter:
            yield (form, chr(int(letter, 16))), chr(code)


FORMS: Final = dict(presentation_forms())


def shape(text: str) -> str:
    """Arabic letters in the forms that join; all else stays."""
    shaped: list[str] = []
    for index, letter in enumerate(text):
        before = index > 0 and ("<initial>", text[index - 1]) in FORMS
        after = index + 1 < len(text) and ("<final>", text[index + 1]) in FORMS
        joins_before = before and ("<final>", letter) in FORMS
        joins_after = after and ("<initial>", letter) in FORMS
        form = {
            (True, True): "<medial>",
            (True, False): "<final>",
            (False, True): "<initial>",
            (False, False): "<isolated>",
        }[joins_before, joins_after]
        shaped.append(FORMS.get((form, letter), letter))
    return "".join(shaped)
