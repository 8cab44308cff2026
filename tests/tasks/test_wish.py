"""What the planner is asked for a player."""

from dataclasses import replace
from datetime import date

import pytest
from kit.shorthand import VIOLIN

from bookgen.errors import BookgenError
from bookgen.model.drill import Lead
from bookgen.model.place import place_label
from bookgen.model.route import Return
from bookgen.plan.document import Role
from bookgen.planner.month import plan_days
from bookgen.readers.studio.file import parse_studio
from bookgen.tasks.roster import NOBODY
from bookgen.tasks.wish import Asked, Known, Wish, asked_of

TUESDAY = date(2026, 12, 1)
ROSTER = """
[players.Ines]
instrument = "viola"
size = "short"
minutes = 25
practice_days = ["Mon", "Sat"]
positions = ["1st", "3rd"]
pairs = ["23"]
highest_stage = 4
fewest_strings = 3

[players.Ines.start]
position = "3rd"
spacing = "half"
secure_to_stage = 2
"""


def asked(wish: Wish = Wish()) -> Asked:  # noqa: B008  a frozen value
    return asked_of(parse_studio(ROSTER, "studio.toml").players["Ines"], wish)


def test_the_roster_tells_the_area_and_the_start() -> None:
    drill = asked().player.start(asked().instrument)
    request = asked().request(TUESDAY, Known((), {drill: 11}, 12))

    assert request.area.positions == frozenset({"1st", "3rd"})
    assert {frame.fingers for frame in request.area.frames} == {(2, 3)}
    assert [len(strings) for strings in request.area.strings] == [4, 3, 3]
    assert request.area.highest_stage == 4
    assert request.practice_days == {0, 5}
    assert (request.minutes, request.first_number, request.player) == (25, 12, "Ines")
    assert "-23-half-" in request.start.key


def test_the_start_is_secure_up_to_the_stage_that_the_roster_says() -> None:
    request = asked().request(TUESDAY)

    start = request.start
    assert request.secure == (start, replace(start, stage=2))


def test_the_command_line_comes_first() -> None:
    found = asked(Wish("violin", "1/2", "5", seed=7))

    assert (found.instrument.key, found.size, found.minutes, found.seed) == ("violin", "1/2", 5, 7)
    assert found.request(TUESDAY).start.instrument == "violin"
    assert found.request(TUESDAY).practice_days == {0, 5}


def test_a_wish_tells_what_it_says() -> None:
    assert Wish().says == {}
    assert Wish(minutes="5", seed=2).says == {"--minutes": "5", "--seed": 2}


def test_somebody_unknown_begins_elsewhere_each_day() -> None:
    nobody = asked_of(NOBODY, Wish())
    starts = {nobody.request(TUESDAY.replace(day=day)).start for day in range(1, 29)}

    assert len(starts) == 28
    assert nobody.name is None


@pytest.mark.parametrize(
    ("wish", "told"),
    [
        (Wish(instrument="kazoo"), "--instrument: no instrument 'kazoo'"),
        (Wish(size="9/9"), "--size: no viola size '9/9'"),
        (Wish(minutes="2"), "--minutes: '2' is no practice time"),
    ],
)
def test_what_there_is_not_is_told(wish: Wish, told: str) -> None:
    with pytest.raises(BookgenError) as stopped:
        asked(wish)

    assert told in str(stopped.value)


KNOWS = """
[players.Ines]
positions = ["1st", "2nd"]
highest_stage = 3

[[players.Ines.known]]
positions = ["1st"]
pairs = ["12", "23"]
spacings = ["whole"]
stage = 2

[[players.Ines.known]]
positions = ["3rd"]
pairs = ["12"]
strings = ["III", "II", "I"]
stage = 5
"""


def test_all_hands_that_are_known_are_secure_in_every_lead_and_return() -> None:
    found = asked_of(parse_studio(KNOWS, "studio.toml").players["Ines"], Wish())
    secure = set(found.request(TUESDAY).secure)

    first = {drill for drill in secure if place_label(drill, VIOLIN) == "1st"}
    third = secure - first
    assert {(drill.frame.fingers, drill.stage) for drill in first} == {
        (pair, stage) for pair in ((1, 2), (2, 3)) for stage in (1, 2)
    }
    assert {drill.strings for drill in first} == {(4, 3, 2, 1), (4, 3, 2), (3, 2, 1)}
    assert {(drill.lead, drill.back) for drill in first} == {
        (lead, back) for lead in Lead for back in Return
    }
    assert {(place_label(drill, VIOLIN), drill.strings) for drill in third} == {("3rd", (3, 2, 1))}
    assert {drill.stage for drill in third} == {1, 2, 3, 4, 5}, "known beyond what is to be covered"


def test_a_plan_goes_on_from_what_is_known() -> None:
    found = asked_of(parse_studio(KNOWS, "studio.toml").players["Ines"], Wish())
    request = found.request(TUESDAY)
    plan = plan_days(request, [TUESDAY])
    roles = {entry.drill: item.role for _, item, entry in plan.items()}

    assert {drill for drill, role in roles.items() if role is Role.START} <= set(request.secure)
    assert Role.AGAIN in roles.values()
    assert not {d for d, role in roles.items() if role.first_time} & set(request.secure)
    assert found.scope is not None
    assert found.scope.known == (
        "1st 12-whole 23-whole stage2",
        "3rd 12-half 12-whole strings321 stage5",
    )
