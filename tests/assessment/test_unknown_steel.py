"""An old part of unknown steel: what a hardness reading proves of it, and what it leaves open."""

import itertools

import pytest
from builder import EXAMPLES, assessed

from torqcheck.assessment import Assessment

TRACTOR = next(path for path in EXAMPLES if path.stem == "orchard_tractor").read_text(encoding="utf-8")
STEEL = 'steel = "8620_carb_63"'
READ = 'hardness = "60 HRC +/- 1"'
UNLOADED = (("240 N*m", "20 N*m"), ("90 N*m", "8 N*m"), ("4800 N*m/s", "200 N*m/s"))


def old_shaft(hardness: str) -> Assessment:
    """A tractor whose shaft is of unknown steel, with an exact reading."""
    return assessed((STEEL, 'steel = "unknown"'), (READ, f'hardness = "{hardness} +/- 0"'), base=TRACTOR)


def reached(found: Assessment) -> float:
    """Chance that the wear of the first joint reaches the service life."""
    wear = found.joints[0].wear
    assert wear is not None
    assert wear.share_reaching_service_life is not None
    return wear.share_reaching_service_life


def test_a_harder_reading_never_wears_sooner() -> None:
    """Wear goes with the hardness of the flank (Archard's law, from memory), whatever lies beneath."""
    chances = [
        reached(old_shaft(hardness)) for hardness in ("30 HRC", "45 HRC", "47 HRC", "52 HRC", "60 HRC")
    ]
    assert all(softer <= harder for softer, harder in itertools.pairwise(chances))
    assert chances[0] < chances[-1]


def test_a_hard_skin_is_not_called_soft() -> None:
    found = old_shaft("60 HRC")
    assert not any("soft beside" in caution.text for caution in found.cautions)
    assert any("in its skin alone" in caution.text for caution in found.cautions)


def test_what_fails_by_the_softest_core_alone_is_undecided() -> None:
    """A shaft hard in its skin may have a core of any strength (common practice, no source)."""
    found = old_shaft("60 HRC")
    assert min(c.safety_factor for c in found.joints[0].checks if c.safety_factor is not None) < 1.0
    assert (found.verdict, found.best_verdict) == ("undecided", "marginal")
    assert "steel or core hardness of the external member" in {entry.reading for entry in found.undecided_by}


def test_a_part_that_holds_with_the_softest_core_needs_no_more() -> None:
    known = assessed(*UNLOADED)
    found = assessed(*UNLOADED, (STEEL, 'steel = "unknown"'))
    assert known.verdict == "pass"
    # the first tooth yields at its flank, and beds in
    assert (found.verdict, found.undecided_by) == ("marginal", ())
    torsion = [
        next(c.safety_factor for c in one.joints[0].checks if c.name == "torsional yield, external member")
        for one in (found, known)
    ]
    assert torsion[0] is not None
    assert torsion[1] is not None
    assert torsion[0] < 0.6 * torsion[1]


@pytest.mark.parametrize(("step", "soft"), [("0.20 mm", False), ("0.30 mm", True)])
def test_a_worn_step_as_deep_as_a_thin_skin_counts_as_the_core(step: str, soft: bool) -> None:
    """Thin cases are about 0.25 mm deep (common practice, no source)."""
    read = 'major_diameter = "1.345 in" }'
    worn = (read, f'major_diameter = "1.345 in", worn_step = "{step}" }}')
    found = assessed(*UNLOADED, (STEEL, 'steel = "unknown"'), worn)
    assert any("as deep as the hard case" in caution.text for caution in found.cautions) is soft
