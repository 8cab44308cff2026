"""Profiles: our own of black ink, and what is no profile of a press."""

import struct
from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.sources import published
from PIL import Image, ImageCms

from bookgen.binder.prepress.gray_profile import bound, gray_profile
from bookgen.binder.prepress.icc import Profile
from bookgen.errors import RefusedError

RAMP = published("black_ramp", "lightness")
NEAR = 1.2
"""Of L*; a step of 1 is the least that an eye sees side by side."""


def luminance(lightness: float) -> float:
    """CIE Y, without the dark end."""
    return float(((lightness + 16) / 116) ** 3)


@pytest.mark.published(RAMP.title)
def test_our_profile_prints_black_as_it_was_measured() -> None:
    ours = ImageCms.ImageCmsProfile(BytesIO(gray_profile()))
    to_lab = ImageCms.buildTransform(ours, ImageCms.createProfile("LAB"), "L", "LAB")
    paper = RAMP.values["0"]

    for tone, lightness in RAMP.values.items():
        gray = Image.new("L", (1, 1), round(255 * (1 - float(tone) / 100)))
        lab = ImageCms.applyTransform(gray, to_lab)
        assert lab is not None
        colour = lab.getpixel((0, 0))
        assert isinstance(colour, tuple)
        seen = 100 * colour[0] / 255
        on_paper = 116 * (luminance(seen) * luminance(paper)) ** (1 / 3) - 16
        assert on_paper == pytest.approx(lightness, abs=NEAR), tone
        assert colour[1:] == (128, 128), "no colour"


@pytest.mark.published("LittleCMS, through Pillow")
def test_our_profile_is_one_of_a_press_in_gray() -> None:
    held = ImageCms.ImageCmsProfile(BytesIO(gray_profile())).profile

    assert (held.device_class, held.xcolor_space.strip()) == ("prtr", "GRAY")
    assert held.profile_description == Profile(gray_profile()).name
    assert len(gray_profile()) < 1000


def test_a_registered_condition_is_the_name_of_the_press() -> None:
    words = "ICCHDAT FOGRA52"
    made = bound({b"targ": b"text\0\0\0\0" + words.encode() + b"\0"})

    assert (Profile(made).condition, Profile(made).name) == ("FOGRA52", "ICC profile")
    assert Profile(gray_profile()).condition == ""


def test_a_name_in_all_languages_is_read_too() -> None:
    name = "Ungestrichen · Schwarz".encode("utf-16-be")
    table = struct.pack(">II2s2sII", 1, 12, b"de", b"DE", len(name), 28)
    made = Profile(bound({b"desc": b"mluc\0\0\0\0" + table + name}))

    assert made.name == "Ungestrichen · Schwarz"


def test_four_inks_are_four() -> None:
    assert Profile(gray_profile().replace(b"GRAY", b"CMYK", 1)).inks == 4


@pytest.mark.parametrize(
    ("data", "name"),
    [
        (b"", "profile-none"),
        (b"%PDF-1.6" * 99, "profile-none"),
        (gray_profile()[:-1], "profile-damaged"),
        (gray_profile() + b"\0", "profile-damaged"),
        (gray_profile()[:132], "profile-damaged"),
        (gray_profile().replace(b"\0\0\0\4desc", b"\xff\0\0\4desc"), "profile-damaged"),
        (gray_profile().replace(b"prtr", b"mntr", 1), "profile-device"),
        (gray_profile().replace(b"GRAY", b"RGB ", 1), "profile-colour"),
        (ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(), "profile-device"),
        (ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes(), "profile-device"),
    ],
)
def test_what_stands_for_no_press_is_refused(data: bytes, name: str) -> None:
    with pytest.raises(RefusedError) as refusal:
        Profile(data)
    assert refusal.value.message.text == name


@given(st.integers(0, 879), st.binary(min_size=1, max_size=8))
def test_damage_is_refused_or_read(place: int, junk: bytes) -> None:
    data = gray_profile()
    try:
        profile = Profile((data[:place] + junk + data[place + len(junk) :])[: len(data)])
    except RefusedError:
        return
    assert profile.name
    assert profile.inks in {1, 4}


def test_a_tag_that_lies_outside_is_refused() -> None:
    data = bytearray(gray_profile())
    data[136:140] = (2**31).to_bytes(4)

    with pytest.raises(RefusedError, match="profile-damaged"):
        Profile(bytes(data))
