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


# zero width space and joiner, word joiner, byte order mark, Hangul filler, empty Braille cell, a mark alone
UNSEEN = ["\u200b", "\u200d \u2060", "\ufeff", "\u3164", "\u2800", "\u0301", "\u00a0\u3000"]


@pytest.mark.parametrize("text", UNSEEN, ids=ascii)
def test_letters_that_nobody_sees_are_no_name(text: str) -> None:
    with pytest.raises(ScenarioError, match=r"record\.title: .*is empty; write a few words"):
        loaded(('title = "Test bench"', f'title = "{text}"'))
    with pytest.raises(ScenarioError, match=r"joint\[1\]\.name: .*is blank; write a few letters"):
        loaded(('name = "gearbox input"', f'name = "{text}"'))


@pytest.mark.parametrize("text", ["木工", "e\u0301", "م\u200dی", "7", "?", "\U0001fa9a"], ids=ascii)
def test_any_letter_that_shows_is_a_name(text: str) -> None:
    assert loaded(('title = "Test bench"', f'title = "{text}"')).record.title == text
    assert loaded(('name = "gearbox input"', f'name = "{text}"')).joint[0].name == text


def test_no_name_is_still_none() -> None:
    assert loaded(('name = "gearbox input"', 'name = ""')).joint[0].name == ""
    assert loaded(('title = "Test bench"\n', "")).record.title == "Untitled check"
