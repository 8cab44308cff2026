"""The forms of a drill's block: what stands beside, above and below what."""

from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.block_measures import Arrangement, FormMeasures
from bookgen.binder.page.canvas import Face, Point, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import NoRoomError
from bookgen.binder.page.signs import RETURN_MM
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, cut
from bookgen.binder.parts.block.measured import Blank, Block, Part, PlacedLine, PlacedMusic
from bookgen.binder.parts.block.setter import TOLERANCE_MM, Setter
from bookgen.binder.parts.block.words import BlockWords
from bookgen.binder.parts.chart.measured import Chart
from bookgen.notation.engraved import InkBox
from bookgen.words.drill import outline

BELOW_MM: Final = 1.6
"""White above words under everything."""

TURN_MM: Final = 1.0
"""From the end of the music to its return sign."""

NUMBER_WHITE_MM: Final = 4.0
"""Beside the number, and before boxes at the right."""

BELOW_LINE: Final = 0.3
"""Of a line's height, below its letters."""

BLANK_GAP_MM: Final = 3.0
"""White beside a blank, and below it to the words over the next one."""

WIDEST_CROSSING: Final = "IV\N{EN DASH}III"
"""Over a blank."""


@dataclass(frozen=True, slots=True)
class Music:
    """A drill's engraved music: which of the engraving's, its ink, and whether it turns back."""

    index: int
    ink: InkBox
    turns: bool


@dataclass(frozen=True, slots=True)
class Blanks:
    """What is to be named from memory: for each interval the strings it crosses."""

    crossings: tuple[str, ...]


Contents = Music | Blanks


def wide_chart(form: FormMeasures, chart: float) -> bool:
    """A chart that needs so much width takes the whole line."""
    return form.arrangement is not Arrangement.FIRST and chart > form.chart_mm


def chart_room(form: FormMeasures, width: float) -> float:
    """Width of a chart that takes the whole line, in a block of that width."""
    return width - form.indent_mm


def music_left(form: FormMeasures, *, wide: bool) -> float:
    """Where the music begins in a form.

    wide: the chart takes the whole line.
    """
    if form.arrangement is Arrangement.BESIDE and not wide:
        return form.chart_left + form.chart_mm + form.after_chart_mm
    return 0.0


def block_of(
    words: BlockWords,
    chart: Chart,
    contents: Contents,
    form: FormMeasures,
    desk: Desk,
    width: float,
    signs: frozenset[str],
) -> Block:
    """Measure a block of that width.

    Raises:
        NoRoomError: a part needs more room than it has.
    """
    setter = Setter(words, form, desk, width)
    over = set_over(setter, chart)
    x = music_left(form, wide=wide_chart(form, chart.width))
    played = set_played(setter, contents, x, over.music)
    bottom = played.bottom
    left, top = over.chart_at
    if over.beside:
        top += max(bottom - top - chart.height, 0.0) / 2
    bottom = set_below(setter, max(bottom, top + chart.height, over.left))
    return Block(
        number=words.number,
        height=bottom,
        lines=tuple(setter.lines),
        boxes=tuple(setter.boxes),
        box_mm=form.box_mm,
        chart=chart,
        chart_at=(left, top),
        music=played.music,
        blanks=played.blanks,
        signs=signs,
        outline=outline(words.shown, words.hand, desk.speech),
        to=words.to,
    )


@dataclass(frozen=True, slots=True)
class Over:
    """What stands over the music or beside it, set.

    chart_at: upper left corner of the chart; music: where that begins, from the block's top.
    left: where number and boxes end; beside: the music stands beside the chart.
    """

    chart_at: Point
    music: float
    left: float = 0.0
    beside: bool = False


def set_over(setter: Setter, chart: Chart) -> Over:
    """Set number, boxes and words, and place the chart, as the form says.

    Words for which there is no room beside the chart stand above it, and so do those that would
    make a narrow column much higher than the chart.

    Raises:
        NoRoomError: a part is too wide.
    """
    form, width = setter.form, setter.width
    if form.arrangement is Arrangement.FIRST:
        top = set_first(setter)
        return Over((0.0, top), top + chart.height + form.music_above_mm)
    left = setter.put_left()
    wide = wide_chart(form, chart.width)
    x = form.indent_mm + form.chart_mm + form.after_chart_mm
    if form.arrangement is Arrangement.STACKED and not wide and column_is_lower(setter, chart, x):
        end = max(chart.height, setter.put_column(x, width - x), left)
        return Over((form.indent_mm, 0.0), end + form.music_above_mm, left)
    beside = form.arrangement is Arrangement.BESIDE and not wide
    room = form.chart_mm if beside else 0.0
    top, right = (
        end + form.words_below_mm
        for end in setter.put_title(form.indent_mm, width - form.indent_mm, room)
    )
    music = right if beside else max(top + chart.height, left) + form.music_above_mm
    return Over((form.chart_left if beside else form.indent_mm, top), music, left, beside)


def column_is_lower(setter: Setter, chart: Chart, left: float) -> bool:
    """Words beside the chart have room there, and take no more height than above it.

    left: where they begin.
    """
    room = setter.width - left
    if not setter.has_column(room):
        return False
    tried = replace(setter, lines=[], boxes=[])
    indent = setter.form.indent_mm
    over, _ = tried.put_title(indent, setter.width - indent)
    return tried.put_column(left, room) <= over + setter.form.words_below_mm + chart.height


def set_first(setter: Setter) -> float:
    """Number, what the drill is like, and boxes at the right. Returns where they end."""
    form, text, desk = setter.form, setter.desk.layout.text, setter.desk
    boxes = setter.words.boxes * form.box_mm
    size = text.link_pt * form.type_share
    x, baseline = 0.0, size * ASCENT * MM_PER_POINT
    if not setter.words.bare:
        x = setter.put_number((setter.width - boxes) / 2) + NUMBER_WHITE_MM
        baseline = setter.lines[-1].at[1]
    room = setter.width - boxes - NUMBER_WHITE_MM * bool(boxes) - x
    lines = setter.broken(cut(setter.words.link, Face.BOLD), size, room, "words")
    aside = [((words, Face.REGULAR),) for words in setter.words.aside]
    rows = len(lines) + len(aside)
    top = max(baseline - ((rows - 1) * setter.step(size) + size * ASCENT * MM_PER_POINT), 0.0)
    y = setter.put(lines, size, x, top, Part.LINK)
    y = setter.put(aside, size, x, y, Part.ASIDE)
    for index in range(setter.words.boxes):
        left = setter.width - boxes + index * form.box_mm - desk.layout.block.frame_mm / 2
        setter.boxes.append((left, desk.layout.block.frame_mm / 2))
    return max(baseline, y - setter.step(size) * BELOW_LINE, form.box_mm) + form.words_below_mm


@dataclass(frozen=True, slots=True)
class Played:
    """The music, or what is to be named in its place; bottom: where it ends."""

    music: PlacedMusic | None
    blanks: tuple[Blank, ...]
    bottom: float


def set_played(setter: Setter, contents: Contents, left: float, top: float) -> Played:
    """Set music or blanks.

    Raises:
        NoRoomError: they are wider than their place.
    """
    if isinstance(contents, Music):
        music = placed_music(setter, contents, left, top)
        return Played(music, (), music.bottom)
    blanks = set_blanks(setter, contents, left, top)
    ends = [blank.at[1] + setter.desk.layout.block.frame_mm for blank in blanks]
    return Played(None, tuple(blanks), max(ends, default=top))


def placed_music(setter: Setter, music: Music, left: float, top: float) -> PlacedMusic:
    """Place the music with its return sign.

    Raises:
        NoRoomError: it is wider than its place.
    """
    ink, room = music.ink, setter.width - left
    wide = ink.width * MM_PER_POINT
    needs = wide + RETURN_MM * music.turns
    if needs > room + TOLERANCE_MM:
        raise NoRoomError(setter.part("music"), needs, room, wide=True)
    turn = None
    if music.turns:
        staff = setter.desk.layout.music.staff_height_mm
        middle = top + (ink.staff_bottom - ink.top) * MM_PER_POINT - staff / 2
        turn = (left + wide + TURN_MM, middle)
    return PlacedMusic(music.index, (left, top), ink, turn)


def set_blanks(setter: Setter, blanks: Blanks, left: float, top: float) -> list[Blank]:
    """Rules to write on, in the order of play, as many in a row as have room."""
    measures, size = setter.desk.layout.block, setter.desk.layout.text.body_pt
    found: list[Blank] = []
    per_row = blanks_in_row(setter, left)
    for order, words in enumerate(blanks.crossings):
        row, place = divmod(order, per_row)
        x = left + place * (measures.blank_mm + BLANK_GAP_MM)
        y = top + (row + 1) * measures.blank_row_mm + row * BLANK_GAP_MM
        line = ((words, Face.REGULAR),)
        at = (x, y - measures.blank_row_mm + size * ASCENT * MM_PER_POINT)
        found.append(Blank((x, y), measures.blank_mm, PlacedLine(at, line, size)))
    return found


def blanks_in_row(setter: Setter, left: float) -> int:
    """How many blanks stand beside each other.

    Raises:
        NoRoomError: not even one has room, or its words are wider.
    """
    measures, text = setter.desk.layout.block, setter.desk.layout.text
    style = Style(Face.REGULAR, text.body_pt)
    needs = max(measures.blank_mm, setter.desk.fonts.width(WIDEST_CROSSING, style))
    room = min(setter.width - left, measures.blank_mm)
    if needs > room:
        raise NoRoomError(setter.part("blanks"), needs, room, wide=True)
    return int((setter.width - left + BLANK_GAP_MM) // (measures.blank_mm + BLANK_GAP_MM))


def set_below(setter: Setter, top: float) -> float:
    """Words under everything. Returns where they end."""
    size = setter.desk.layout.text.small_pt
    for words in setter.words.below:
        top += BELOW_MM
        lines = setter.broken(cut(words), size, setter.width, "words")
        top = setter.put(lines, size, 0.0, top, Part.BELOW)
    return top
