"""The sheet of a day: whose it is, on how many pages, from memory; and one drill alone."""

from io import BytesIO

import msgspec
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from kit.block_pages import HIGH, KEYS, MIRROR, SAME, a_desk, music_for
from kit.drills import plan_of
from kit.ink import Ink, growing, larger, outside, overprints
from kit.month_plan import SCOPE
from kit.shorthand import VIOLA, VIOLIN

from bookgen.binder.books.sheet import bind_drill, bind_sheet, drill_scores, scores_of
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Binding, Item, Plan, Role
from bookgen.readers.layout import layout_names, read_layout

NAMES = ["Jo", "Mara Wilhelmina von der Marschlande", "W" * 400, None, "אבג דהו", "محمد", "Zoë <b>"]
LEAN = 0.2
"""Of its height."""

TEN_MINUTES = (
    MIRROR,
    "12-half-place2-strings4321-stage1-low-mirror",
    "12-half-place2-strings432-stage1-low-mirror",
    "12-half-place2-strings321-stage2-low-mirror",
    "12-half-place2-strings321-stage3-low-same",
    "12-half-place4-strings321-stage3-low-same",
)


def a_plan(
    *keys: str, player: str | None = "Ines", from_memory: bool = False, cents: bool = False
) -> Plan:
    plan = plan_of(*(keys or KEYS), player=player)
    binding = Binding(book="sheet", from_memory=from_memory, cents=cents)
    return msgspec.structs.replace(plan, binding=binding)


def bound(plan: Plan, desk: Desk) -> bytes:
    return bind_sheet(plan, music_for(scores_of(plan, desk)), desk)


def texts(pdf: bytes) -> list[str]:
    with pypdfium2.PdfDocument(BytesIO(pdf)) as book:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in book]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_ten_minutes_stand_on_one_page(paper: str) -> None:
    assert len(texts(bound(a_plan(*TEN_MINUTES), a_desk(paper)))) == 1


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_twenty_minutes_stand_on_one_leaf(paper: str) -> None:
    keys = (*TEN_MINUTES, *(key.replace("12-", "23-", 1) for key in TEN_MINUTES))
    assert len(texts(bound(a_plan(*keys), a_desk(paper)))) == 2


@pytest.mark.parametrize("paper", ["a5", "half-letter"])
def test_small_paper_takes_two_drills_and_more(paper: str) -> None:
    pages = texts(bound(a_plan(*TEN_MINUTES), a_desk(paper)))
    assert len(pages) <= len(TEN_MINUTES) / 2


def test_the_first_page_says_whose_it_is_and_the_others_go_on() -> None:
    desk = a_desk("a5", studio="Harbour Lane Strings")
    first, *others = texts(bound(a_plan(), desk))
    for words in ("Ines", "Tuesday, 1 December 2026", "12 min", "Violin 4/4", "Harbour Lane"):
        assert words in first
    assert others
    for number, page in enumerate(others, start=2):
        assert "Ines · Tuesday, 1 December 2026" in page
        assert f" {number} " in f" {page} "


def with_steps(plan: Plan, *gates: int | None) -> Plan:
    """A day whose drills wait for others; None waits for nothing."""
    (day,) = plan.days
    items = tuple(
        msgspec.structs.replace(item, only_if=gate)
        for item, gate in zip(day.items, gates, strict=True)
    )
    days = (msgspec.structs.replace(day, items=items),)
    return msgspec.structs.replace(plan, days=days, scope=SCOPE)


def test_the_answers_on_which_steps_of_a_day_rest_are_asked_for_once() -> None:
    plan = a_plan(*TEN_MINUTES)
    here = plan.days[0].items[0].number
    asked, *_ = texts(bound(with_steps(plan, None, 92, here, 90, 92, None), a_desk("a4")))

    assert asked.count("Please log 90 and 92, secure or not yet") == asked.count("Please log") == 1


def test_who_logs_or_has_no_log_is_not_asked_to() -> None:
    plan = a_plan(*TEN_MINUTES)
    told = with_steps(plan, *[None] * len(TEN_MINUTES))
    waits = with_steps(plan, *[90] * len(TEN_MINUTES))
    for other in (told, msgspec.structs.replace(waits, scope=None)):
        assert "Please log" not in " ".join(texts(bound(other, a_desk("a4"))))


def test_where_nobody_is_named_there_is_a_line_for_the_name_and_nothing_for_a_teacher() -> None:
    (page,) = texts(bound(a_plan(MIRROR, player=None), a_desk()))
    assert "Name" in page
    assert "None" not in page
    assert "eacher" not in page


def test_the_commonest_crossings_are_what_to_listen_for() -> None:
    (page,) = texts(bound(a_plan(MIRROR), a_desk()))
    assert "Today listen for the perfect fourth (P4)." in page
    (page,) = texts(bound(a_plan(SAME), a_desk()))
    assert "the perfect fourth (P4) and the major sixth (M6)" in page


@pytest.mark.published("common practice, no source")
def test_the_ear_proof_is_one_that_rings() -> None:
    (page,) = texts(bound(a_plan(MIRROR), a_desk()))
    assert "Ear A3, finger 1 on IV, is in tune when open A rings along." in page


def test_without_an_open_string_that_proves_a_note_one_is_sung() -> None:
    key = "12-half-place1-strings43-stage3-low-same"
    plan = plan_of(key, instrument=VIOLA, player=None)
    desk = a_desk(viola=True)
    (page,) = texts(bind_sheet(plan, music_for(scores_of(plan, desk)), desk))
    assert "Ear " in page


def test_what_a_drill_waits_for_stands_under_its_boxes_and_in_the_key() -> None:
    plan = a_plan(MIRROR, SAME)
    (day,) = plan.days
    waiting = Item(number=2, role=Role.NEW, minutes=1.5, only_if=1)
    day = msgspec.structs.replace(day, items=(day.items[0], waiting))
    (page,) = texts(bound(msgspec.structs.replace(plan, days=(day,)), a_desk()))
    assert "1½ min if 1" in page
    assert "only if that drill is secure" in page
    (page,) = texts(bound(plan, a_desk()))
    assert "only if" not in page


def test_from_memory_the_intervals_are_blank_and_the_notes_overleaf() -> None:
    desk = a_desk()
    front, back = texts(bound(a_plan(MIRROR, SAME, from_memory=True), desk))
    assert "From memory" in front
    for mark in ("P4", "M6", "listen for", "perfect fourth"):
        assert mark not in front
    assert front.count("III\N{EN DASH}II") == 2
    assert "Ines · Tuesday, 1 December 2026" in back
    assert "P4 perfect fourth" in back
    with pypdfium2.PdfDocument(BytesIO(bound(a_plan(from_memory=True), desk))) as book:
        forms = [forms_on(page) for page in book]
    assert forms[0] == 0
    assert sum(forms) == len(KEYS)


def forms_on(page: pypdfium2.PdfPage) -> int:
    """How many drills' music is laid on a page."""
    return sum(thing.type == pdfium.FPDF_PAGEOBJ_FORM for thing in page.get_objects(max_depth=1))


def test_cents_are_told_where_they_are_asked_for() -> None:
    key = "12-whole-place2-strings4321-stage5-low-mirror"
    (page,) = texts(bound(a_plan(key, cents=True), a_desk()))
    assert "pure major sixth" in page
    assert "16 cents narrower" in page
    (page,) = texts(bound(a_plan(key), a_desk()))
    assert "cents" not in page


def test_the_same_sheet_is_the_same_bytes() -> None:
    desk = a_desk("a5")
    assert bound(a_plan(), desk) == bound(a_plan(), desk)


def test_an_engraving_of_other_drills_is_refused() -> None:
    plan, desk = a_plan(), a_desk()
    music = music_for(scores_of(plan, desk))
    fewer = Engraving(music.cases, music.drills[:-1])
    with pytest.raises(ValueError, match="engraved"):
        bind_sheet(plan, fewer, desk)


def misprints(pdf: bytes) -> list[tuple[int, Ink, Ink]]:
    """Words on other words; an italic letter may lean towards the word behind it."""
    return [
        (page, one, other)
        for page, one, other in overprints(pdf)
        if min(one.right, other.right) - max(one.left, other.left) > LEAN * (one.top - one.bottom)
    ]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
def test_no_words_stand_on_others(layout: str, paper: str) -> None:
    desk = a_desk(paper, layout, studio="Harbour Lane Strings")
    keys = (MIRROR, HIGH) if layout == "large-print" and paper == "half-letter" else KEYS
    for memory in (False, True):
        pdf = bound(a_plan(*keys, from_memory=memory), desk)
        assert misprints(pdf) == []
        assert outside(pdf) == []


@pytest.mark.parametrize("paper", PAPERS)
def test_type_grows_until_it_is_told(paper: str) -> None:
    printed, told = 0, []
    for factor in growing():
        desk = a_desk(paper, larger(read_layout("ordinary"), factor), studio="Harbour Lane")
        try:
            pdf = bound(a_plan(MIRROR, SAME), desk)
        except NoRoomError as refused:
            told.append(str(refused.message))
            continue
        printed += 1
        assert misprints(pdf) == [], factor
        assert outside(pdf) == [], factor
    assert printed
    assert told
    assert all("mm" in message for message in told)


def test_a_drill_higher_than_its_page_is_told() -> None:
    plan, desk = a_plan(SAME), a_desk("half-letter", "large-print")
    music = music_for(scores_of(plan, desk), height_mm=130.0)
    with pytest.raises(NoRoomError) as refused:
        bind_sheet(plan, music, desk)
    assert "drill 1" in str(refused.value.message)


@pytest.mark.parametrize("name", NAMES)
def test_names_of_all_kinds_stay_in_their_place(name: str | None) -> None:
    desk = a_desk("a5", studio=name)
    pdf = bound(a_plan(player=name), desk)
    assert misprints(pdf) == []
    assert outside(pdf) == []


def test_a_drill_alone_is_a_page_as_large_as_its_block() -> None:
    desk, plan = a_desk(), a_plan(MIRROR)
    pdf = bind_drill(plan, music_for(drill_scores(plan, desk)), desk)
    (page,) = texts(pdf)
    assert "1 and 2, whole step" in page
    assert "Like" not in page
    with pypdfium2.PdfDocument(BytesIO(pdf)) as book:
        _, height = book[0].get_size()
    assert height * 25.4 / 72 < 60.0
    assert outside(pdf) == []


def test_a_drill_alone_from_memory_has_its_notes_overleaf() -> None:
    desk, plan = a_desk(), a_plan(MIRROR, from_memory=True)
    pdf = bind_drill(plan, music_for(drill_scores(plan, desk)), desk)
    assert len(texts(pdf)) == 2
    with pypdfium2.PdfDocument(BytesIO(pdf)) as book:
        assert [forms_on(page) for page in book] == [0, 1]


def test_each_page_of_a_drill_alone_is_as_high_as_what_it_holds() -> None:
    desk = a_desk()
    heights = []
    for memory, music_mm in ((True, 28.0), (True, 60.0), (False, 60.0)):
        plan = a_plan(MIRROR, from_memory=memory)
        music = music_for(drill_scores(plan, desk), height_mm=music_mm)
        with pypdfium2.PdfDocument(BytesIO(bind_drill(plan, music, desk))) as book:
            heights.append([page.get_size()[1] for page in book])
    low, high, alone = heights
    assert low[0] == high[0]
    assert [high[1]] == alone
    assert high[1] - low[1] > 20.0


def test_more_drills_than_one_are_not_one() -> None:
    with pytest.raises(ValueError, match="not one"):
        drill_scores(a_plan(MIRROR, SAME), a_desk())


def test_a_viola_reads_like_a_violin() -> None:
    assert VIOLIN.key != VIOLA.key
    desk = a_desk(viola=True, studio="Harbour Lane Strings")
    plan = plan_of(MIRROR, SAME, instrument=VIOLA)
    (page,) = texts(bind_sheet(plan, music_for(scores_of(plan, desk)), desk))
    assert "Viola 4/4" in page
