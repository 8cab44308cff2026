"""What the head and the foot of a page say of a run of drills: which they are, what signs mean."""

from collections.abc import Callable

from bookgen.binder.page.block_measures import Kind
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Page
from bookgen.binder.page.signs import Sign
from bookgen.binder.parts.drills import DrillPiece, Drills
from bookgen.model.music import turn_of
from bookgen.notation.drill_score import Written
from bookgen.words import drill as words
from bookgen.words import sheet
from bookgen.words.pictures import music_words
from bookgen.words.shift import shift_key


def key_words(drills: Drills, kind: Kind) -> dict[str, str]:
    """What the signs of these drills mean, in the order of the key.

    A book says at its front how a chart is read; a sheet has no front.
    """
    desk = drills.desk
    shown = frozenset(sign for setting in drills.settings for sign in setting.signs)
    speech = desk.speech
    chart = {Sign.START: words.start_key(speech), Sign.ORDER: words.order_key(speech)}
    every = {
        Sign.RING: words.ring_key(speech),
        Sign.RETURN: words.return_key(speech),
        Sign.HALF: words.half_key(speech),
        Sign.WHOLE: words.whole_key(speech),
        Sign.WIDER: words.wider_key(speech),
        Sign.SHIFT: shift_key(speech),
        Sign.BOX: words.boxes_key(speech) if kind == "sheet" else words.box_key(speech),
        Sign.STRETCH: words.stretch_key(speech),
        Sign.THUMB: words.thumb_key(speech),
        Sign.WAIT: sheet.wait_key(speech),
        **(chart if kind != "book" else {}),
    }
    return {sign: meaning for sign, meaning in every.items() if sign in shown}


def heard_of(drills: Drills) -> Callable[[int], str]:
    """The engraved music of these drills in words, by their places among them."""
    desk = drills.desk

    def heard(index: int) -> str:
        setting = drills.settings[index]
        score, said = setting.score, setting.words
        events = score.events(desk.instrument)
        drill = words.outline(said.shown, said.hand, desk.speech)
        mirrored = score.written is Written.UP
        return music_words(events, turn_of(events), drill, desk.speech, mirrored=mirrored)

    return heard


def running_of(page: Page, player: str | None, desk: Desk) -> str:
    """In the head of a page: whose drills it has, and which."""
    numbers = [piece.number for piece in page.pieces if isinstance(piece, DrillPiece)]
    if not numbers:
        return ""
    name = desk.clean(player) or None
    return words.drills_running(name, numbers[0], numbers[-1], desk.speech)
