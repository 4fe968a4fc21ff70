"""Finding the file of a part."""

from pathlib import Path

from ferrule.parts.library import find


def test_a_name_that_no_file_can_have_is_a_part_that_is_not_there(tmp_path: Path) -> None:
    assert find("m" * 5_000, [tmp_path]) is None
