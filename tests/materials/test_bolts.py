"""Names of bolts as people write them, and what a name that is none is told."""

import pytest

from torqcheck.errors import DomainError
from torqcheck.materials import (
    bolt_strength,
    bolt_strengths,
    dowel_pin,
    face_conditions,
    face_friction,
    lubrications,
    nut_factor,
    preload_scatter,
    thread,
    threads,
    tightening_methods,
)


@pytest.mark.parametrize(
    ("written", "size"),
    [
        ("M10", "M10"),
        ("m 10", "M10"),
        ("M10x1.5", "M10"),
        ("M10 x 1.25", "M10x1.25"),
        ("M12\u00d71.5", "M12x1.5"),
        ("3/8-16", "3/8-16"),
        ("3/8 - 16 UNC", "3/8-16"),
        ('1/2"-20', "1/2-20"),
        ("1 in-8", "1-8"),
    ],
)
def test_sizes_are_read_as_people_write_them(written: str, size: str) -> None:
    assert thread(written).size == size


def test_fine_pitch_is_taken_from_the_name() -> None:
    fine = thread("M10x1.25")
    assert (fine.diameter, fine.pitch) == pytest.approx((0.010, 0.00125))
    assert fine.source.mark == "measured"
    assert thread("M10").source.mark == "from memory"


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("M7", "no size of the tables of threads; they have M4, M5, M6"),
        ("M10x0.1", "no size"),
        ("M10x2", "no size"),
        ("3/8-18", "they have 3/8-16, 3/8-24"),
        ("10", "and inch sizes such as 3/8-16"),
        ("", "no size"),
    ],
)
def test_unknown_sizes_are_refused(written: str, says: str) -> None:
    with pytest.raises(DomainError, match=says):
        thread(written)


@pytest.mark.parametrize(
    ("written", "size", "name"),
    [
        ("8.8", "M10", "8.8"),
        ("class 10.9", "M12", "10.9"),
        ("Property class 12.9", "M6", "12.9"),
        ("grade 5", "3/8-16", "grade 5"),
        ("Grade  8", "1/2-13", "grade 8"),
        ("SAE 5", "1/4-20", "grade 5"),
        ("5", "1/4-20", "grade 5"),
        ("ASTM A574", "1/4-20", "a574"),
    ],
)
def test_strengths_are_read_as_people_write_them(written: str, size: str, name: str) -> None:
    assert bolt_strength(written, thread(size)).name == name


@pytest.mark.parametrize(
    ("written", "size", "says"),
    [
        ("grade 12", "1/2-13", "'grade 12' is no strength of bolts; 1/2-13 has grade 2, grade 5"),
        ("8.8", "3/8-16", "'8.8' is a metric strength and 3/8-16 a thread of the other system"),
        ("grade 8", "M10", "'grade 8' is an inch strength"),
        ("9.9", "M10", "M10 has 4.6, 5.8, 8.8, 10.9, 12.9"),
        ("5.8", "M30", "no strengths are tabled for 5.8 in the size M30"),
    ],
)
def test_unknown_strengths_are_refused(written: str, size: str, says: str) -> None:
    with pytest.raises(DomainError, match=says):
        bolt_strength(written, thread(size))


def test_strength_goes_with_the_size() -> None:
    assert bolt_strength("8.8", thread("M16")).proof == 580e6
    assert bolt_strength("8.8", thread("M18")).proof == 600e6
    assert bolt_strength("grade 2", thread("3/4-10")).proof > bolt_strength("grade 2", thread("7/8-9")).proof
    assert bolt_strength("a574", thread("1/2-13")).proof > bolt_strength("a574", thread("5/8-11")).proof


def test_other_values_stand_beside_the_one_that_is_taken() -> None:
    plain = nut_factor("plain")
    assert (plain.factor, plain.source.mark) == (0.20, "published")
    assert [value for value, _ in plain.others] == [0.30]
    assert {nut_factor(name).state for name in lubrications()} == {"dry", "cadmium", "lubricated"}


def test_scatter_of_a_wrench_goes_with_the_threads_and_of_nothing_else() -> None:
    wrench = [preload_scatter("torque wrench", state).share for state in ("dry", "cadmium", "lubricated")]
    assert wrench == sorted(wrench, reverse=True)
    for method in set(tightening_methods()) - {"torque wrench"}:
        shares = {preload_scatter(method, state).share for state in ("dry", "cadmium", "lubricated")}
        assert len(shares) == 1


def test_friction_lies_within_its_band() -> None:
    for condition in face_conditions():
        found = face_friction(condition)
        assert found.least <= found.friction <= found.most
    assert face_friction("oily").friction == min(face_friction(name).friction for name in face_conditions())


@pytest.mark.parametrize("diameter", [0.00635, 0.006, 0.0127, 0.016])
def test_dowel_is_found_by_its_diameter(diameter: float) -> None:
    assert dowel_pin(diameter + 1e-5).diameter == pytest.approx(diameter)


def test_what_no_table_has_is_refused_with_what_there_is() -> None:
    with pytest.raises(DomainError, match=r"no dowel of 7 mm is tabled; there are 6, 8, 10, 12, 16 mm"):
        dowel_pin(0.007)
    with pytest.raises(DomainError, match="it has oily; degreased"):
        face_friction("clean")
    with pytest.raises(DomainError, match="it has plain; black, no oil"):
        nut_factor("greasy")
    with pytest.raises(DomainError, match="it has feel; torque wrench"):
        preload_scatter("guess")


def test_no_two_threads_share_a_name() -> None:
    names = [bolt.size for bolt in threads()]
    assert len(names) == len(set(names))
    assert bolt_strengths("metric") == ("4.6", "5.8", "8.8", "10.9", "12.9")
