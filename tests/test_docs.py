"""The reference pages say what the code does."""

from pathlib import Path

import pytest
import reference

DOCS = Path(__file__).parent.parent / "docs"


@pytest.mark.parametrize("name", reference.PAGES)
def test_a_page_made_from_the_code_is_current(name: str) -> None:
    assert (DOCS / name).read_text() == reference.PAGES[name](), "run: make docs"
