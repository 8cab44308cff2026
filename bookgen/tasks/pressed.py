"""A book for the press, where one is wanted: with the printer's profile, or with our own."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from bookgen.binder.prepress.trim import BLEED_MM
from bookgen.errors import BookgenError, Finding, RefusedError, Said, told, why

MARKED: Final = "-press"
"""At the end of a file's name that goes to a printing house."""

SCREEN: Final = "-screen"
"""At the end of a file's name that is read on a screen."""

LARGEST_PROFILE: Final = 64 * 1024 * 1024
"""Bytes; profiles of four inks have about a million (own choice)."""

Press = Callable[[bytes], bytes]
"""Makes of a finished book the file for the press."""


@dataclass(frozen=True, slots=True)
class PressWish:
    """What the user says of the press.

    moment: with its time zone; the file says that it was made then.
    profile: the printer's, from the studio's folder; None for our own of black ink.
    """

    moment: datetime
    profile: Path | None = None
    bleed_mm: float = BLEED_MM
    marks: bool = True


def press_of(folder: Path, wish: PressWish | None, folds_mm: tuple[float, ...] = ()) -> Press:
    """What is done to a finished book; nothing where no press is wanted.

    folds_mm: where a cover is folded, from its left edge.

    Raises:
        BookgenError: the profile cannot be read, or stands for no press that prints black.
    """
    if wish is None:
        return bytes
    from bookgen.binder.prepress.for_press import for_press  # noqa: PLC0415  slow to import
    from bookgen.binder.prepress.gray_profile import gray_profile  # noqa: PLC0415  with it
    from bookgen.binder.prepress.icc import Profile  # noqa: PLC0415  with it
    from bookgen.binder.prepress.ink import NotForPressError  # noqa: PLC0415  with it
    from bookgen.binder.prepress.trim import Trim  # noqa: PLC0415  with it

    trim = Trim(wish.bleed_mm, wish.marks, folds_mm)
    try:
        given = gray_profile() if wish.profile is None else read_profile(folder / wish.profile)
        profile = Profile(given)
    except RefusedError as error:
        mend = told("ask the printer for the output profile of the press (.icc)")
        raise BookgenError(Finding(f"--profile {wish.profile}", why(error), mend)) from error

    def pressed(pdf: bytes) -> bytes:
        try:
            return for_press(pdf, profile, wish.moment, trim)
        except NotForPressError as error:
            mend = told(
                "take another layout, or leave --press out; where the layout is bookgen's own this"
                " is a defect: report it"
            )
            raise BookgenError(Finding("--press", why(error), mend)) from error

    return pressed


def mark_of(press: PressWish | None, *, screen: bool) -> str:
    """What stands at the end of a file's name that is for a printing house or for a screen."""
    return MARKED if press is not None else SCREEN * screen


def read_profile(path: Path) -> bytes:
    """The bytes of a profile.

    Raises:
        BookgenError: the file cannot be read.
        RefusedError: it is far too large.
    """
    try:
        with path.open("rb") as stream:
            data = stream.read(LARGEST_PROFILE + 1)
    except OSError as error:
        problem = told("cannot be read ({reason})", reason=error.strerror)
        mend = told("give an ICC profile, or leave --profile out")
        raise BookgenError(Finding(f"--profile {path}", problem, mend)) from error
    if len(data) > LARGEST_PROFILE:
        raise RefusedError("profile-none")
    return data


def profiles(folder: Path, wish: PressWish | None) -> Iterator[Path]:
    """The profile that is read, if one is."""
    if wish is not None and wish.profile is not None:
        yield folder / wish.profile


def refuse_folded(place: Said, wish: PressWish | None, *, fold: bool, screen: bool) -> None:
    """Refuse folded sheets for a press, which lays out pages itself, and for a screen.

    Raises:
        BookgenError: both are wanted.
    """
    if wish is not None and fold:
        problem = told("the pages of folded sheets cannot be cut")
        raise BookgenError(Finding(place, problem, told("leave --press or --fold out")))
    if screen and fold:
        problem = told("the pages of folded sheets are in no order in which they could be read")
        raise BookgenError(Finding("--screen", problem, told("leave --screen or --fold out")))
