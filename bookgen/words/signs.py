"""What the signs on a page of drills mean, as its key tells them."""

from bookgen.words.marks import marks_of
from bookgen.words.speech import Speech


def ring_key(speech: Speech) -> str:
    """What the ring with a dot means."""
    return speech.say("open string rings along")


def return_key(speech: Speech) -> str:
    """What the sign at the end of the way up means."""
    return speech.say("back, last note again")


def half_key(speech: Speech) -> str:
    """What the wedge means."""
    return speech.say("<i>{mark}</i> half step", mark=marks_of(speech).half)


def whole_key(speech: Speech) -> str:
    """What the cup means."""
    return speech.say("<i>{mark}</i> whole step", mark=marks_of(speech).whole)


def wider_key(speech: Speech) -> str:
    """What the dash means."""
    return speech.say("dash: wider than a whole step")


def box_key(speech: Speech) -> str:
    """What one box is for."""
    return speech.say("box: secure")


def boxes_key(speech: Speech) -> str:
    """What two boxes are for."""
    return speech.say("boxes: left secure, right not yet")


def order_key(speech: Speech) -> str:
    """What the figures beside the spots of a chart mean."""
    return speech.say("on the strings: order of play")


def start_key(speech: Speech) -> str:
    """What the ring around a spot means."""
    return speech.say("ringed finger: begin here")


def stretch_key(speech: Speech) -> str:
    """What a stretch asks."""
    return speech.say("stretch: only as far as the hand opens by itself")


def extended_key(speech: Speech) -> str:
    """What a hand asks that is extended back or forward."""
    return speech.say("extended hand: a minute at most, only as far as it opens by itself")


def thumb_key(speech: Speech) -> str:
    """What the sign of the thumb means, and how long it bears the string."""
    return speech.say("thumb: a minute at most, then rest")
