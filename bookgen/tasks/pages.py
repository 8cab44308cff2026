"""From a plan to its pages: engrave, bind, write; the path on which all tasks meet."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final, Protocol

from bookgen.binder.page.paper import NoRoomError
from bookgen.errors import BookgenError, Finding, Said, told, why
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving
from bookgen.notation.style import Style
from bookgen.tasks.files import write_whole
from bookgen.tasks.leftovers import working_folder
from bookgen.tasks.look import Look, PageWish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.words.marks import marks_of

if TYPE_CHECKING:
    from bookgen.notation.drill_score import DrillScore
    from bookgen.notation.engraver import Running
    from bookgen.notation.lilypond import Run, Workshop


class Busy(Protocol):
    """Tells the user what takes a while, for as long as it does."""

    def __call__(self, what: Said) -> AbstractContextManager[None]:
        """Tell one thing."""

    def through(self, pieces: int) -> AbstractContextManager[Callable[[Said], "Busy"]]:
        """Tell how much is left of work in pieces; what is given is called for each by name."""


LEAST_SECONDS: Final = 60.0
SECONDS_A_DRILL: Final = 1.0
"""How long LilyPond may take; measured are 0.3 s and 0.02 s a drill on a slow day."""


@dataclass(frozen=True, slots=True)
class Ready:
    """A LilyPond that has been started and waits for music."""

    shop: "Workshop"
    run: "Run"


@contextmanager
def lilypond_ready(wanted: Look) -> Iterator[Ready]:
    """Start LilyPond, which warms up while it is still being found out what it shall engrave.

    Raises:
        BookgenError: LilyPond is missing or does not start.
    """
    from bookgen.notation.engraver import warm_up  # noqa: PLC0415
    from bookgen.notation.lilypond import Workshop, find_lilypond  # noqa: PLC0415

    with working_folder() as folder:
        shop = Workshop(find_lilypond(), folder)
        run = warm_up(style_of(wanted), shop)
        try:
            yield Ready(shop, run)
        finally:
            run.stop()


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


@dataclass(frozen=True, slots=True)
class Sources:
    """The LilyPond text that was engraved."""

    texts: Sequence[str]
    style: Style

    def files(self, folder: Path) -> Iterator[tuple[Path, bytes]]:
        """The text in a folder, with the fonts it asks for beside it."""
        from bookgen.notation.lilypond import FONTS_FOLDER  # noqa: PLC0415
        from bookgen.notation.source import font_names  # noqa: PLC0415

        for number, text in enumerate(self.texts, start=1):
            yield folder / f"drills-{number}.ly", text.encode()
        for name, file in zip(font_names(self.style), self.style.text_files, strict=True):
            yield folder / FONTS_FOLDER / name, Path(file).read_bytes()


@dataclass(frozen=True, slots=True)
class Engraver:
    """LilyPond at work on drills.

    count: how many there are.
    """

    running: "Running"
    count: int
    style: Style

    def finish(self, busy: Busy) -> tuple[Engraving, Sources]:
        """Wait for the music. Returns it with the text from which it was engraved.

        Raises:
            EngravingError: LilyPond did not do what we meant it to do.
        """
        with busy(told("drills to engrave: {number} …", number=self.count)):
            music = self.running.finish(LEAST_SECONDS + SECONDS_A_DRILL * self.count)
        return music, Sources(self.running.sources, self.style)


@contextmanager
def engraving(
    scores: "Sequence[DrillScore]",
    clefs: Sequence[str],
    instrument: Instrument,
    wanted: Look,
    ready: Ready | None = None,
    *,
    split: bool = True,
) -> Iterator[Engraver]:
    """Have LilyPond work on drills meanwhile.

    clefs: of the drills.
    ready: a LilyPond that was started for the same look, if one was.
    split: many drills go to two processes.

    Raises:
        BookgenError: LilyPond is missing.
    """
    if ready is None:
        with (
            lilypond_ready(wanted) as started,
            engraving(scores, clefs, instrument, wanted, started, split=split) as engraver,
        ):
            yield engraver
        return
    from bookgen.notation.engraver import start  # noqa: PLC0415

    style = style_of(wanted)
    running = start(scores, instrument, style, ready.shop, ready.run, clefs, split=split)
    try:
        yield Engraver(running, len(scores), style)
    finally:
        running.stop()


def bound[Result](binding: Callable[[], Result], wanted: Look) -> Result:
    """What a binder makes, or why it cannot.

    Raises:
        BookgenError: something does not fit its page.
    """
    try:
        return binding()
    except NoRoomError as error:
        mend = told("choose larger paper, or a smaller staff or type in layout.toml")
        place = told("layout {name}", name=wanted.layout.name)
        raise BookgenError(Finding(place, why(error), mend)) from error


def besides(
    folder: StudioFolder,
    wish: PageWish,
    document: bytes,
    sources: Sources | None = None,
    *,
    part: str = "",
) -> Iterator[tuple[Path, bytes]]:
    """What is written beside the pages where it is wanted: the plan document, the source.

    part: folder inside the one for the source, where several books are made.
    """
    if wish.plan is not None:
        yield folder.path / wish.plan, document
    if wish.keep_ly is not None and sources is not None:
        yield from sources.files(folder.path / wish.keep_ly / part)


def publish(files: Iterable[tuple[Path, bytes]], inputs: Iterable[Path]) -> None:
    """Write all that a task has made, together.

    inputs: files that were read; none of them is written over.

    Raises:
        BookgenError: a file cannot be written; then none is.
    """
    made = list(files)
    refuse_places((Place("", path) for path, _ in made), inputs)
    write_whole(made)
