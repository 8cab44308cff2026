"""What every page of a book needs: instrument, layout, paper, fonts and language, loaded once."""

from dataclasses import dataclass

from bookgen.binder.page.canvas import Style
from bookgen.binder.page.fonts import Fonts
from bookgen.binder.page.layout import Layout
from bookgen.binder.page.names import clean
from bookgen.binder.page.paper import Sheet
from bookgen.binder.page.typeset import shorten
from bookgen.model.instrument import Instrument
from bookgen.words.speech import Speech


@dataclass(frozen=True, slots=True)
class Desk:
    """What every page of a book needs.

    size: of the instrument, by its name; paper: a name of `paper.PAPERS`.
    studio: printed in the head, or None.
    screen: pages are read on a screen and by ear, and tell what stands on them.
    """

    instrument: Instrument
    size: str
    layout: Layout
    paper: str
    fonts: Fonts
    speech: Speech
    studio: str | None = None
    screen: bool = False

    @property
    def sheet(self) -> Sheet:
        """The paper with its margins, as a right-hand page."""
        return self.layout.sheet(self.paper)

    def clean(self, name: str | None) -> str:
        """A user's words as they can be printed; nothing where there are none."""
        return clean(name, self.fonts.has) if name else ""

    def name(self, name: str | None, width: float, style: Style) -> str:
        """A user's words as they can be printed, no wider than that many millimetres."""
        cleaned = self.clean(name)
        return shorten(cleaned, width, style, self.fonts) if cleaned else ""


def desk_of(
    instrument: Instrument,
    size: str,
    layout: Layout,
    paper: str,
    speech: Speech,
    studio: str | None = None,
    *,
    screen: bool = False,
) -> Desk:
    """Load the fonts of the layout."""
    return Desk(instrument, size, layout, paper, Fonts(layout.fonts), speech, studio, screen)
