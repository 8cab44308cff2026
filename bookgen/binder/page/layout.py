"""What layout.toml says: every measure of the page, each with its bounds.

Lengths (`_mm`) are millimetres, type sizes (`_pt`) points, `_step` steps of LilyPond's font-size
(6 double the size, 0 is the size that suits the staff), `_spaces` distances between two lines of
the staff.
"""

from pathlib import Path
from typing import Annotated

import msgspec

from bookgen.binder.page.block_measures import BlockMeasures, ChartMeasures, Width
from bookgen.binder.page.measures import (
    Leading,
    Length,
    Margin,
    Points,
    Section,
    Spaces,
    Staff,
    Step,
    Thickness,
)
from bookgen.binder.page.paper import PAPERS, Margins, Sheet
from bookgen.binder.page.truetype import family_name


class PaperMargins(Section, frozen=True):
    """`[margins.a4]` and its like; left and right change sides on left-hand pages of books."""

    top: Margin
    right: Margin
    bottom: Margin
    left: Margin


class AllMargins(Section, frozen=True, rename="kebab"):
    """`[margins]`."""

    a4: PaperMargins
    a5: PaperMargins
    letter: PaperMargins
    half_letter: PaperMargins


class FontFiles(Section, frozen=True):
    """`[fonts]`: TrueType files; the text face in three cuts, and what has the signs it lacks.

    In layout.toml a file lies in an installed package (`package/path.ttf`) or beside layout.toml
    (`./my.ttf`); once read, these are paths.
    """

    regular: str
    bold: str
    italic: str
    signs: str
    signs_bold: str

    @property
    def family(self) -> str:
        """Name of the text face's family, as its file tells it."""
        return family_name(Path(self.regular))


class Text(Section, frozen=True):
    """`[text]`: sizes of type.

    number: of a drill's number; title: its first words; link: its link; heading: over a part.
    body: read with the page in hand; small: foot and measures; name: the player's.
    leading: from baseline to baseline, times the size.
    """

    number_pt: Points
    name_pt: Points
    heading_pt: Points
    title_pt: Points
    link_pt: Points
    body_pt: Points
    small_pt: Points
    leading: Leading


class Music(Section, frozen=True):
    """`[music]`: the engraved staff.

    finger, word, numeral: sizes of the finger numbers, of the words and labels below the staff,
        and of the strings' numerals.
    spacing: LilyPond's spacing-increment; finger_padding: white around finger numbers.
    word_gap: white beside a word below the staff; move_gap: between the brackets of two moves;
        shortest_move: the narrowest bracket; move_baseline: of the words below the staff, from it.
    """

    staff_height_mm: Staff
    finger_step: Step
    word_step: Step
    numeral_step: Step
    spacing_spaces: Spaces
    finger_padding_spaces: Spaces
    word_gap_spaces: Spaces
    move_gap_spaces: Spaces
    shortest_move_spaces: Spaces
    move_baseline_spaces: Spaces


class FrameMeasures(Section, frozen=True):
    """`[frame]`: head and foot of every page.

    running: what the page holds; whose: beside it; folio: the page's number.
    rule: thickness of the two rules; drop: from the head's words to its rule and from the foot's
        rule to its words; head_white, foot_white: between a rule and the contents.
    key_gap: between two entries of the key; most_key_lines: a longer key stands at the front of a
        booklet or at the end of a day instead.
    """

    running_pt: Points
    whose_pt: Points
    folio_pt: Points
    rule_mm: Thickness
    head_drop_mm: Length
    head_white_mm: Length
    foot_drop_mm: Length
    foot_white_mm: Length
    key_gap_mm: Length
    most_key_lines: Annotated[int, msgspec.Meta(ge=0, le=20)]


class FlowMeasures(Section, frozen=True):
    """`[flow]`: pieces on a page.

    between: white between two pieces, at least; most_extra: room for the pencil below each, where
        the page has it; column_gap: between two columns.
    """

    between_mm: Length
    most_extra_mm: Length
    column_gap_mm: Length


class PassageMeasures(Section, frozen=True):
    """`[passage]`: the pages of a passage.

    staff: height of its music and of the spots'; music_gap: white between two lines of it.
    cell: the least width of a frame's chart with its words, of which as many stand side by side as
        there is room; frame_gap: white above a row of them.
    letter, where: type of a frame's letter, and of what stands beside and below it.
    number, reason, told: type of a spot's number, of why it is hard, and of the words below that.
    ring: width of the ring around the number; box: side of a spot's two boxes.
    spot_chart: width of the chart beside a spot's music.
    text_above: white over words below music.
    chart: the small fingerboards.
    """

    staff_mm: Staff
    music_gap_mm: Length
    cell_mm: Width
    frame_gap_mm: Length
    letter_pt: Points
    where_pt: Points
    number_pt: Points
    reason_pt: Points
    told_pt: Points
    ring_mm: Length
    box_mm: Annotated[float, msgspec.Meta(ge=3.5, le=10)]
    spot_chart_mm: Width
    text_above_mm: Length
    chart: ChartMeasures


class Level(Section, frozen=True):
    """`[days.roomy]` and its like: how closely a plan of days is set.

    number: size of the numbers; row: height of a line of items.
    names_wait: an item names the drill for which it waits, else it has a sign.
    """

    number_pt: Points
    row_mm: Length
    names_wait: bool


class DaysMeasures(Section, frozen=True):
    """`[days]`: the plan of days.

    side, small_side: white at both sides, on large and on small papers.
    heading: whose days they are; weekday, minutes: beside the days.
    box: side of a tick box; between_boxes: of one item; between_items: from box to box, at least.
    most_pitch: from item to item; most_extra: spare room around a line of a day.
    foot_white: between the last day and the marks at the foot.
    roomy, usual, full: three levels, of which the first is taken that needs the fewest pages.
    """

    side_mm: Length
    small_side_mm: Length
    heading_pt: Points
    weekday_pt: Points
    minutes_pt: Points
    box_mm: Annotated[float, msgspec.Meta(ge=3.5, le=10)]
    between_boxes_mm: Length
    between_items_mm: Length
    most_pitch_mm: Length
    most_extra_mm: Length
    foot_white_mm: Length
    roomy: Level
    usual: Level
    full: Level


class SupplementMeasures(Section, frozen=True):
    """`[supplement]`: the first pages of a book without dates, and the openers of its chapters.

    title, subtitle: on the title page; chapter: a chapter's title; text: of preface and chapters.
    measure: the longest line of a text; drop: from the head to a chapter's number.
    paragraph: white between paragraphs; below: between an opener and its drills.
    row: height of a line of the log.
    """

    title_pt: Points
    subtitle_pt: Points
    chapter_pt: Points
    text_pt: Points
    measure_mm: Annotated[float, msgspec.Meta(ge=40, le=200)]
    drop_mm: Length
    paragraph_mm: Length
    below_mm: Length
    row_mm: Length


class Layout(Section, frozen=True):
    """How pages look.

    name: of its folder.
    """

    name: str
    margins: AllMargins
    fonts: FontFiles
    text: Text
    music: Music
    frame: FrameMeasures
    flow: FlowMeasures
    block: BlockMeasures
    chart: ChartMeasures
    passage: PassageMeasures
    days: DaysMeasures
    supplement: SupplementMeasures

    def sheet(self, paper: str) -> Sheet:
        """The paper of that name with this layout's margins.

        Raises:
            KeyError: there is no such paper.
        """
        sides: PaperMargins = getattr(self.margins, paper.replace("-", "_"))
        margins = Margins(sides.top, sides.right, sides.bottom, sides.left)
        return Sheet(*PAPERS[paper], margins)
