"""A few bars typed by hand: text becomes a phrase, and a phrase text that is read back."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.phrase import Bar, Phrase
from bookgen.readers.score.bars import following, wanted_bars
from bookgen.readers.score.findings import Remarks
from bookgen.readers.score.parts import cleaned
from bookgen.readers.score.passage import PassageFile, Wanted, cut
from bookgen.readers.score.text_draft import QUARTER, Draft
from bookgen.readers.score.text_marking import tempo_text
from bookgen.readers.score.text_settings import sharps_text
from bookgen.readers.score.text_sound import sound_text
from bookgen.readers.shown import shown

MOST_BYTES: Final = 256 * 2**10
LONGEST_TITLE: Final = 80
UTF8: Final = told("save it as UTF-8 text")


def text_passage(data: bytes, wanted: Wanted) -> PassageFile:
    """The wanted bars of a typed passage, whose pitches are those that the player reads.

    Raises:
        BookgenError: it is no text, or a word of it cannot be read; every fault at once.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BookgenError(Finding(wanted.file, told("this is no UTF-8 text"), UTF8)) from error
    draft = Draft(wanted.file, len(wanted.instrument.strings))
    for number, line in enumerate(text.splitlines(), start=1):
        draft.read_line(number, line)
    phrase = draft.phrase()
    chosen, findings = wanted_bars([bar.number for bar in phrase.bars], wanted.bars, wanted.file)
    if wanted.part is not None:
        problem = told(
            "a typed passage has no parts; {part} is not looked for", part=shown(wanted.part)
        )
        findings.append(Finding(wanted.file, problem, told("leave out --part")))
    remarks = Remarks(wanted.file)
    tell_lengths(phrase, remarks)
    return PassageFile(
        title=cleaned(draft.title or wanted.stem, LONGEST_TITLE) or wanted.file,
        composer=cleaned(draft.composer, LONGEST_TITLE),
        phrase=cut(phrase, chosen),
        findings=(*findings, *remarks.findings()),
    )


def tell_lengths(phrase: Phrase, remarks: Remarks) -> None:
    """Tell the bars that do not last as long as their meter; an upbeat and the last may."""
    meter = (4, 4)
    for index, bar in enumerate(phrase.bars):
        meter = bar.meter or meter
        full = Fraction(*meter)
        at_edge = index in {0, len(phrase.bars) - 1}
        if bar.length > full or (bar.length < full and not at_edge):
            problem = told(
                "it lasts {length} of a whole note, its meter is {meter}",
                length=bar.length,
                meter=f"{meter[0]}/{meter[1]}",
            )
            remarks.add(bar.number, problem, told("count its lengths"))


def passage_text(phrase: Phrase, title: str = "") -> str:
    """A phrase as text that is read back: the same bars, one on each line.

    Raises:
        ValueError: the sounds of a bar do not follow without gaps, as those of every reader do.
    """
    lines = [f"title: {cleaned(title, LONGEST_TITLE)}"] if title else []
    length, number = QUARTER, ""
    for bar in phrase.bars:
        lines += settings_text(bar, number)
        now = Fraction(0)
        words = []
        for sound in bar.sounds:
            words.append(sound_text(sound, length))
            if sound.at != now:
                msg = f"bar {bar.number} has no sound at {now}"
                raise ValueError(msg)
            now += sound.duration
            length = length if sound.grace else sound.duration
        if now != bar.length:
            msg = f"bar {bar.number} has no sound at {now}"
            raise ValueError(msg)
        lines.append(f"{' '.join(words)} |")
        number = following(bar.number)
    return "\n".join([*lines, ""])


def settings_text(bar: Bar, number: str) -> Iterator[str]:
    """Lines for what changes with a bar.

    number: that it would have without a line.
    """
    if bar.sharps is not None:
        yield f"key: {sharps_text(bar.sharps)}"
    if bar.meter is not None:
        yield f"meter: {bar.meter[0]}/{bar.meter[1]}"
    if bar.number != number:
        yield f"bar: {bar.number}"
    if bar.tempo is not None:
        yield f"tempo: {tempo_text(bar.tempo)}"
