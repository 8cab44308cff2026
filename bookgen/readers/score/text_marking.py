"""What stands with a sound of a typed passage: {slurs}, [one hand], !accent, !p, !dolce."""

import re
from fractions import Fraction
from typing import Final

from bookgen.errors import told
from bookgen.model.marking import MOST_SLURS, Dynamic, Hairpin, Instruction, Marking, Sign, Tempo
from bookgen.readers.score.findings import WordError
from bookgen.readers.score.parts import cleaned
from bookgen.readers.shown import shown

MARK: Final = "!"
HAIRPIN_END: Final = "end"
WORD: Final = re.compile(r"(?P<opens>[\[{]*)(?P<sound>[^\[\]{}!]+)(?P<marks>(?:![^\[\]{}!]*)*)"
                         r"(?P<closes>[\]}]*)")  # fmt: skip
TEMPO: Final = re.compile(
    r"(?P<words>[^=()]*?)\s*(?:\(?(?P<beat>[1-9][0-9]?\.?)\s*=\s*(?P<count>[1-9][0-9]{1,2})\)?)?"
)
LONGEST_TEMPO: Final = 60


def parted(word: str) -> tuple[str, Marking]:
    """A word of the text as the bare sound, and what stands with it.

    >>> sound, marking = parted("[{D4:8!accent!p")
    >>> sound, marking.slurs_begin, marking.hand_begins, str(marking.dynamic)
    ('D4:8', 1, True, 'p')

    Raises:
        WordError: brackets do not go with a sound, or there is no such sign.
    """
    found = WORD.fullmatch(word)
    if found is None:
        mend = told("write e.g. {group} or {sign}", group="[{D4:8 E4} F#4]", sign="D4!accent")
        raise WordError(told("{word} is no sound", word=shown(word)), mend)
    opens, closes = found["opens"], found["closes"]
    marking = Marking(
        slurs_end=min(closes.count("}"), MOST_SLURS),
        slurs_begin=min(opens.count("{"), MOST_SLURS),
        hand_ends="]" in closes,
        hand_begins="[" in opens,
    )
    for name in found["marks"].split(MARK)[1:]:
        marking = marking.beside(named(name))
    return found["sound"], marking


def named(name: str) -> Marking:
    """The marking of that name.

    Raises:
        WordError: there is none.
    """
    plain = name.replace("-", " ")
    if name in tuple(Sign):
        return Marking(signs=(Sign(name),))
    if name in tuple(Dynamic):
        return Marking(dynamic=Dynamic(name))
    if name in tuple(Hairpin):
        return Marking(hairpin=Hairpin(name))
    if plain in tuple(Instruction):
        return Marking(terms=(Instruction(plain),))
    if name == HAIRPIN_END:
        return Marking(hairpin_ends=True)
    mend = told("write e.g. {examples}", examples="!accent, !trill-mark, !mf, !crescendo, !dolce")
    raise WordError(told("there is no sign {name}", name=shown(name)), mend)


def marked(word: str, marking: Marking) -> str:
    """The word of a bare sound with its marking, as `parted` reads it back."""
    names = [
        *marking.signs,
        *([marking.dynamic] if marking.dynamic else []),
        *([HAIRPIN_END] if marking.hairpin_ends else []),
        *([marking.hairpin] if marking.hairpin else []),
        *(term.replace(" ", "-") for term in marking.terms),
    ]
    opens = "[" * marking.hand_begins + "{" * marking.slurs_begin
    closes = "}" * marking.slurs_end + "]" * marking.hand_ends
    return opens + "".join([word, *(MARK + name for name in names)]) + closes


def tempo_said(value: str) -> Tempo:
    """How fast, in words, in beats a minute, or both.

    >>> tempo_said("Allegro assai (4. = 84)")
    Tempo(words='Allegro assai', beat=Fraction(3, 8), per_minute=Fraction(84, 1))

    Raises:
        WordError: it is no tempo.
    """
    found = TEMPO.fullmatch(value.strip())
    if found is None or not value.strip():
        mend = told("write e.g. {example}", example="Allegro assai (4. = 84)")
        raise WordError(told("{word} is no tempo", word=shown(value)), mend)
    words = cleaned(found["words"], LONGEST_TEMPO)
    if found["beat"] is None:
        return Tempo(words)
    part, dots = found["beat"].rstrip("."), found["beat"].count(".")
    beat = Fraction(2 ** (dots + 1) - 1, 2**dots) / int(part)
    return Tempo(words, beat, Fraction(found["count"]))


def tempo_text(tempo: Tempo) -> str:
    """A tempo as `tempo_said` reads it back.

    >>> tempo_text(Tempo("Allegro", Fraction(1, 4), Fraction(96)))
    'Allegro (4 = 96)'
    """
    if tempo.beat is None or tempo.per_minute is None:
        return tempo.words
    dotted = tempo.beat.numerator != 1
    part = (Fraction(3, 2) / tempo.beat) if dotted else 1 / tempo.beat
    mark = f"{part}{'.' * dotted} = {round(tempo.per_minute)}"
    return f"{tempo.words} ({mark})" if tempo.words else mark
