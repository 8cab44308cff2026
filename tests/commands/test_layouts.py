"""The list of layouts."""

from pathlib import Path

from kit.shell import bookgen, refused


def test_each_layout_has_its_line_with_a_folder_to_copy() -> None:
    outcome = bookgen("layouts")

    assert outcome.code == 0
    lines = outcome.out.splitlines()
    assert [line.partition(": ")[0] for line in lines] == ["chart-first", "large-print", "ordinary"]
    for line in lines:
        assert (Path(line.rpartition(", ")[2]) / "layout.toml").is_file()


def test_a_specimen_of_each_goes_into_a_folder() -> None:
    outcome = bookgen("layouts", "--sample", "specimens")

    names = ["chart-first.pdf", "large-print.pdf", "ordinary.pdf"]
    assert outcome.out.splitlines() == [f"specimens/{name}" for name in names]
    made = [Path("specimens", name).read_bytes() for name in names]
    assert len(set(made)) == len(names)


def test_a_specimen_falls_on_no_studio() -> None:
    Path("studio.toml").write_text("", encoding="utf-8")
    Path("specimens").mkdir()
    Path("specimens/ordinary.pdf").symlink_to("../studio.toml")

    assert "it is a studio file" in refused("layouts", "--sample", "specimens")
