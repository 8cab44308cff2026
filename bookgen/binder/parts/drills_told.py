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
from bookgen.words import sheet, signs
from bookgen.words.pictures import music_words
from bookgen.words.shift import shift_key


def key_words(drills: Drills, kind: Kind) -> dict[str, str]:
    """What the signs of these drills mean, in the order of the key.

    A book says at its front how a chart is read; a sheet has no front.
    """
    desk = drills.desk
    shown = frozenset(sign for setting in drills.settings for sign in setting.signs)
    speech = desk.speech
    chart = {Sign.START: signs.start_key(speech), Sign.ORDER: signs.order_key(speech)}
    every = {
        Sign.RING: signs.ring_key(speech),
        Sign.RETURN: signs.return_key(speech),
        Sign.HALF: signs.half_key(speech),
        Sign.WHOLE: signs.whole_key(speech),
        Sign.WIDER: signs.wider_key(speech),
        Sign.SHIFT: shift_key(speech),
        Sign.BOX: signs.boxes_key(speech) if kind == "sheet" else signs.box_key(speech),
        Sign.STRETCH: signs.stretch_key(speech),
        Sign.EXTENDED: signs.extended_key(speech),
        Sign.THUMB: signs.thumb_key(speech),
        Sign.WAIT: sheet.wait_key(speech),
        **(chart if kind != "book" else {}),
    }
    return {sign: meaning for sign, meaning in every.items() if sign in shown}


def heard_of(*every: Drills) -> Callable[[int], str]:
    """The engraved music of runs of drills in words, by their places among all of them."""
    settings = [(setting, drills.desk) for drills in every for setting in drills.settings]

    def heard(index: int) -> str:
        setting, desk = settings[index]
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
