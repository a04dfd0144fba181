"""A title or a name that says nothing is refused in one line that says what to do."""

import pytest
from builder import loaded

from torqcheck.errors import ScenarioError


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('title = "Test bench"', 'title = ""', "is empty; write a few words, or leave the key out"),
        ('title = "Test bench"', 'title = "  "', "is empty; write a few words, or leave the key out"),
        ('name = "gearbox input"', 'name = " "', "is blank; write a few letters, or leave the key out"),
    ],
)
def test_a_blank_is_no_name(old: str, new: str, says: str) -> None:
    with pytest.raises(ScenarioError, match=says) as caught:
        loaded((old, new))
    assert len(caught.value.faults) == 1


def test_no_name_is_still_none() -> None:
    assert loaded(('name = "gearbox input"', 'name = ""')).joint[0].name == ""
    assert loaded(('title = "Test bench"\n', "")).record.title == "Untitled check"
