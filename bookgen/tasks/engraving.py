"""Music on its way to the page: what is kept of it is taken, LilyPond engraves the rest."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from bookgen.errors import BookgenError, Finding, told, why
from bookgen.model.instrument import Instrument
from bookgen.notation.drill_score import DrillScore
from bookgen.notation.engraved import EngravedDrill, Engraving
from bookgen.notation.style import Style
from bookgen.plan.passage import Passage
from bookgen.tasks.bars import Bars, Stand, bars_started, spots_started
from bookgen.tasks.busy import Busy
from bookgen.tasks.cache import Cache
from bookgen.tasks.leftovers import working_folder
from bookgen.tasks.look import Look
from bookgen.words.marks import marks_of

if TYPE_CHECKING:
    from bookgen.notation.engraver import Running
    from bookgen.notation.kept import Kept

LEAST_SECONDS: Final = 60.0
SECONDS_A_DRILL: Final = 1.0
"""How long LilyPond may take; measured are 0.3 s and 0.02 s a drill on a slow day."""


def style_of(wanted: Look, *, intervals: bool = True) -> Style:
    """What the engraver must know of the layout and of the language.

    intervals: moves are named below the staff.

    Raises:
        BookgenError: the layout's measures cannot be engraved; or the language has no catalogue.
    """
    layout = wanted.layout
    music, fonts, marks = layout.music, layout.fonts, marks_of(wanted.speech)
    try:
        return Style(
            staff_height_mm=music.staff_height_mm,
            text_family=fonts.family,
            text_files=(fonts.regular, fonts.bold, fonts.italic),
            finger=music.finger_step,
            word=music.word_step,
            numeral=music.numeral_step,
            spacing=music.spacing_spaces,
            finger_padding=music.finger_padding_spaces,
            word_gap=music.word_gap_spaces,
            move_gap=music.move_gap_spaces,
            shortest_move=music.shortest_move_spaces,
            move_baseline=music.move_baseline_spaces,
            intervals=intervals,
            marks=marks,
        )
    except ValueError as error:
        place = told("layout {name}", name=layout.name)
        raise BookgenError(Finding(place, why(error), told("mend layout.toml"))) from error


def bars_style(wanted: Look) -> Style:
    """What the engraver must know for bars of a piece, whose staff has a height of its own.

    Raises:
        BookgenError: the layout's measures cannot be engraved; or the language has no catalogue.
    """
    return replace(style_of(wanted), staff_height_mm=wanted.layout.passage.staff_mm)


NOTHING: Final = Engraving((), ())


@dataclass(frozen=True, slots=True)
class Sources:
    """LilyPond texts, written where they are wanted, and the style that names their fonts."""

    texts: Callable[[], Sequence[str]]
    style: Style

    def files(self, folder: Path) -> Iterator[tuple[Path, bytes]]:
        """The text in a folder, with the fonts it asks for beside it."""
        from bookgen.notation.lilypond import FONTS_FOLDER  # noqa: PLC0415
        from bookgen.notation.source import font_names  # noqa: PLC0415

        for number, text in enumerate(self.texts(), start=1):
            yield folder / f"drills-{number}.ly", text.encode()
        for name, file in zip(font_names(self.style), self.style.text_files, strict=True):
            yield folder / FONTS_FOLDER / name, Path(file).read_bytes()


@dataclass(frozen=True, slots=True)
class Shelf:
    """The drills of a book that are kept, by their keys, and the type cases they are drawn with.

    keys: of all drills in their order.
    """

    cache: Cache | None
    keys: Sequence[str]
    drills: "dict[str, Kept]"
    cases: dict[str, bytes]

    @property
    def missing(self) -> list[int]:
        """Which drills must be engraved; of two that are the same, one."""
        first = {key: index for index, key in reversed([*enumerate(self.keys)])}
        return sorted(index for key, index in first.items() if key not in self.drills)

    def add(self, music: Engraving, texts: Sequence[str]) -> None:
        """Put drills there that were missing, and keep them for the next time.

        texts: their music, in the same order.
        """
        from bookgen.notation.kept import Kept, case_key, packed  # noqa: PLC0415

        cases = [case_key(case) for case in music.cases]
        new = {
            self.keys[index]: Kept(text, cases[drill.case], drill.plate)
            for index, drill, text in zip(self.missing, music.drills, texts, strict=True)
        }
        self.cases.update(zip(cases, music.cases, strict=True))
        self.drills.update(new)
        if self.cache is not None and music.pure:
            kept = {key: packed(drill) for key, drill in new.items()}
            self.cache.put(dict(zip(cases, music.cases, strict=True)) | kept)

    def engraving(self) -> Engraving:
        """The music of all drills, none of which is missing any more."""
        drills = [self.drills[key] for key in self.keys]
        cases = list(dict.fromkeys(drill.case for drill in drills))
        return Engraving(
            tuple(self.cases[case] for case in cases),
            tuple(EngravedDrill(cases.index(drill.case), drill.plate) for drill in drills),
        )


def shelf_of(cache: Cache | None, keys: Sequence[str]) -> Shelf:
    """What the cache has of drills with these keys; one without its type case is of no use."""
    from bookgen.notation.kept import Kept, unpacked  # noqa: PLC0415

    shelf = Shelf(cache, keys, {}, {})
    if cache is None:
        return shelf
    for key in dict.fromkeys(keys):
        kept = unpacked(cache.get(key) or b"", Kept)
        case = kept and (shelf.cases.get(kept.case) or cache.get(kept.case))
        if kept and case:
            shelf.cases[kept.case] = case
            shelf.drills[key] = kept
    return shelf


@dataclass(frozen=True, slots=True)
class Music:
    """All that is engraved of a book: its drills, and bars of pieces, line by line.

    spots: the hard spots of each piece, in its order.
    """

    drills: Engraving
    bars: tuple[Engraving, ...] = ()
    spots: tuple[Engraving, ...] = ()


@dataclass(frozen=True, slots=True)
class Engraver:
    """The music of a book, while LilyPond works on what is not kept of it.

    running: on drills; None where all of them are kept. bars: of pieces; spots: the hard spots of
        each, None where a piece has none.
    split: much music goes to two processes.
    """

    scores: Sequence[DrillScore]
    instrument: Instrument
    style: Style
    shelf: Shelf
    running: "Running | None"
    bars: Sequence[Bars]
    spots: Sequence[Bars | None]
    split: bool

    def finish(self, busy: Busy) -> tuple[Music, Sources]:
        """Wait for the music. Returns it with the text from which it was engraved.

        Raises:
            EngravingError: LilyPond did not do what we meant it to do.
        """
        if self.running is not None:
            count = len(self.running.texts)
            with busy(told("drills to engrave: {number} …", number=count)):
                music = self.running.finish(LEAST_SECONDS + SECONDS_A_DRILL * count)
            self.shelf.add(music, self.running.texts)
        bars = tuple(one.finish(LEAST_SECONDS) for one in self.bars)
        spots = tuple(one.finish(LEAST_SECONDS) if one else NOTHING for one in self.spots)
        return Music(self.shelf.engraving(), bars, spots), Sources(self.texts, self.style)

    def texts(self) -> list[str]:
        """The LilyPond files of the music, as many as processes that engrave all of it."""
        from bookgen.notation.shares import shares_of  # noqa: PLC0415
        from bookgen.notation.source import drills_source  # noqa: PLC0415

        texts = [self.shelf.drills[key].text for key in self.shelf.keys]
        shares = shares_of(self.scores, self.instrument, split=self.split)
        drills = [
            drills_source(self.scores[first:end], self.style, texts[first:end])
            for first, end in shares
        ]
        others = [*self.bars, *filter(None, self.spots)]
        return [*drills, *(text for one in others for text in one.sources)]


@contextmanager
def engraving(
    scores: Sequence[DrillScore],
    clefs: Sequence[str],
    instrument: Instrument,
    wanted: Look,
    bars: Sequence[Passage] = (),
    *,
    split: bool = True,
) -> Iterator[Engraver]:
    """Have LilyPond work meanwhile on drills that are not kept, and on bars of pieces.

    clefs: of the drills; split: many of them go to two processes.

    Raises:
        BookgenError: LilyPond is missing.
    """
    from bookgen.notation.kept import drill_keys  # noqa: PLC0415
    from bookgen.notation.lilypond import Workshop, find_lilypond  # noqa: PLC0415

    style, lilypond = style_of(wanted), find_lilypond()
    keys = list(drill_keys(scores, clefs, instrument, style, lilypond))
    shelf = shelf_of(wanted.cache, keys)
    missing = shelf.missing
    if not missing and not bars:
        yield Engraver(scores, instrument, style, shelf, None, (), (), split)
        return
    from bookgen.notation.engraver import start  # noqa: PLC0415

    own, own_clefs = [scores[index] for index in missing], [clefs[index] for index in missing]
    with working_folder() as folder, ExitStack() as at_work:
        running, shop = None, Workshop(lilypond, folder)
        if missing:
            running = start(own, instrument, style, shop, clefs=own_clefs, split=split)
            at_work.callback(running.stop)
        stand = Stand(instrument, bars_style(wanted), shop, wanted.cache)
        pieces = [*bars_started(bars, wanted, stand)]
        spots = [*spots_started(bars, wanted, stand)]
        for one in (*pieces, *filter(None, spots)):
            at_work.callback(one.stop)
        yield Engraver(scores, instrument, style, shelf, running, pieces, spots, split)
