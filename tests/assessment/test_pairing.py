"""The workshop's rule on the hardness of a pair: common practice, no source; the ratio is assumed."""

import pytest

from torqcheck.assessment.compare.pairing import PAIRING, pairing_of


def test_it_is_no_more_than_practice() -> None:
    assert PAIRING.mark == "common practice, no source"


@pytest.mark.parametrize(
    ("shaft", "hub", "kept", "word", "holds"),
    [
        # a gearbox shaft of 60 HRC that stays, and a new hub: as hard, or softer, but never harder
        (697.0, 653.0, (True, False), "equal hardness", True),
        (697.0, 302.0, (True, False), "hub softer", True),
        (302.0, 697.0, (True, False), "shaft softer", False),
        # both new, or both old: the hub is the one that is easier replaced
        (302.0, 697.0, (False, False), "shaft softer", False),
        (697.0, 302.0, (True, True), "hub softer", True),
        # an old hub that stays, and a new shaft: the shaft is to wear
        (302.0, 697.0, (False, True), "shaft softer", True),
        (697.0, 302.0, (False, True), "hub softer", False),
        # the ends of what counts as equal, to either side
        (345.0, 300.0, (True, False), "equal hardness", True),
        (345.1, 300.0, (True, False), "hub softer", True),
        (300.0, 345.0, (True, False), "equal hardness", True),
        (300.0, 345.1, (True, False), "shaft softer", False),
    ],
)
def test_the_softer_half_is_the_one_that_is_easier_to_replace(
    shaft: float, hub: float, kept: tuple[bool, bool], word: str, holds: bool
) -> None:
    found = pairing_of(shaft, hub, external_kept=kept[0], internal_kept=kept[1])
    assert (found.word, found.holds) == (word, holds)
    assert ("though" in found.why) is not holds
    assert word == "equal hardness" or word.split()[0] in found.why
