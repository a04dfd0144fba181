"""Off-centre assembly: symmetry, known positions, conventions, words, refusals."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pace import least_seconds, seconds_here

from torqcheck.errors import DomainError
from torqcheck.geometry import InvoluteSpline, ansi_b92_1, iso_4156, neighbour, own_spline
from torqcheck.geometry.pairs._off_centre_contacts import Contacts
from torqcheck.geometry.pairs._off_centre_search import best_state
from torqcheck.geometry.pairs.off_centre import least_clearance

A30, A45 = math.radians(30.0), math.radians(45.0)
SHAFT, HUB = ansi_b92_1.spline(27, "24/48"), ansi_b92_1.spline(28, "24/48")


def scaled(spline: InvoluteSpline, factor: float) -> InvoluteSpline:
    """The same spline, larger."""

    def grown(member: object) -> object:
        values = {f.name: getattr(member, f.name) * factor for f in dataclasses.fields(member)}  # type: ignore[arg-type]
        return dataclasses.replace(member, **values)  # type: ignore[type-var]

    return dataclasses.replace(
        spline,
        module=spline.module * factor,
        external=grown(spline.external),
        internal=grown(spline.internal),
        tooth_thickness=spline.tooth_thickness * factor,
        space_width=spline.space_width * factor,
    )


@given(st.integers(0, 2**32 - 1))
def test_gradients_are_those_of_the_gaps(seed: int) -> None:
    # against central differences, in states of the shaft all over the free range
    random = np.random.default_rng(seed)
    contacts = Contacts(ansi_b92_1.spline(7, "16/32"), iso_4156.spline(8, 1.5e-3), 0.3)
    state = random.uniform((-0.5, -0.5, -2.0, -0.2), (0.5, 0.5, 2.0, 0.4))
    step = 1e-6
    rows = contacts.rows(state)
    for part in range(4):
        nudge = step * np.eye(4)[part]
        ahead, behind = contacts.rows(state + nudge), contacts.rows(state - nudge)
        for row, more, less in zip(rows, ahead, behind, strict=True):
            change = (more.value - less.value) / (2.0 * step)
            # where the nearest space changes between the two, or a point crosses a base circle, there is none
            smooth = np.abs(change - row.gradient[part]) < 10.0 * step
            assert smooth.mean() > 0.97


@pytest.mark.parametrize("teeth", [6, 13, 20, 41])
def test_true_mate_sits_on_centre_with_every_tooth_bearing(teeth: int) -> None:
    pair = ansi_b92_1.spline(teeth, "16/32")
    found = least_clearance(pair, pair)
    assert found.clearance == pytest.approx(0.0, abs=1e-9)
    assert found.offset == pytest.approx(0.0, abs=1e-9)
    assert found.rotation == pytest.approx(0.0, abs=1e-6)
    assert found.bearing_teeth == tuple(range(teeth))
    assert found.slides_as_given


@settings(max_examples=6, deadline=None)
@given(st.sampled_from((6, 8, 13, 20, 30)), st.floats(0.0, 0.3e-3), st.floats(0.0, 0.3e-3))
def test_worn_widths_count_fully(teeth: int, thinner: float, wider: float) -> None:
    # s - t needed does not hang on how much of it is there already: flanks are parallel curves
    pair = iso_4156.spline(teeth, 2e-3)
    mate = neighbour(pair, teeth + 1)
    new = least_clearance(pair, mate)
    worn = least_clearance(
        dataclasses.replace(pair, tooth_thickness=pair.tooth_thickness - thinner),
        dataclasses.replace(mate, space_width=mate.space_width + wider),
    )
    assert new.clearance is not None
    # shared wear between flanks is the same clearance; only corners at the tips, which move along their
    # circles and not along normals, tell whose it is: 7 percent at 6 teeth, below 2 from 13 teeth up
    assert worn.clearance == pytest.approx(new.clearance, rel=0.08 if teeth < 13 else 0.025)
    assert worn.nominal_clearance == pytest.approx(thinner + wider, abs=1e-12)


@pytest.mark.parametrize(
    ("shaft", "hub"), [(SHAFT, HUB), (iso_4156.spline(20, 1.25e-3), ansi_b92_1.spline(20, "20/40"))]
)
def test_result_scales_with_the_parts(shaft: InvoluteSpline, hub: InvoluteSpline) -> None:
    one, three = least_clearance(shaft, hub), least_clearance(scaled(shaft, 3.0), scaled(hub, 3.0))
    assert one.clearance is not None
    assert one.offset is not None
    assert three.clearance == pytest.approx(3.0 * one.clearance, abs=3e-8)
    assert three.offset == pytest.approx(3.0 * one.offset, abs=3e-7)


@pytest.mark.parametrize("teeth", [9, 20, 26])
def test_no_random_start_finds_less(teeth: int) -> None:
    from torqcheck.geometry.pairs._off_centre_search import _descend

    shaft, hub = ansi_b92_1.spline(teeth, "16/32"), ansi_b92_1.spline(teeth + 1, "16/32")
    contacts = Contacts(shaft, hub, 0.5)
    best = best_state(contacts)
    random = np.random.default_rng(teeth)
    for _ in range(20):
        offset, direction = contacts.limit * math.sqrt(random.uniform()), random.uniform(0.0, 2.0 * math.pi)
        start = np.array(
            (offset * math.cos(direction), offset * math.sin(direction), random.uniform(-3.0, 3.0), 0.0)
        )
        start[3] = contacts.need(start)
        if math.isfinite(start[3]):
            assert _descend(contacts, start)[3] > best[3] - 1e-6


def test_every_second_tooth_is_a_real_mate() -> None:
    hub = iso_4156.spline(28, 1e-3)
    shaft = dataclasses.replace(hub, teeth=14, module=2e-3)
    found = least_clearance(shaft, hub)
    assert found.clearance == pytest.approx(0.0, abs=1e-9)
    assert found.offset == pytest.approx(0.0, abs=1e-9)
    assert found.bearing_teeth is not None
    assert len(found.bearing_teeth) == 14


def test_wrong_mate_bears_on_a_few_teeth_off_centre() -> None:
    found = least_clearance(SHAFT, HUB)
    assert found.offset is not None
    assert found.runout == 2.0 * found.offset
    assert found.bearing_teeth is not None
    assert 3 <= len(found.bearing_teeth) <= 6
    assert found.direction is not None
    assert 0.0 <= found.direction <= math.pi / 28 + 1e-9
    assert not found.slides_as_given
    assert found.words == (
        "27 teeth in 28 spaces: they slide together by hand once the flanks have 0.23 mm of clearance, "
        "0.23 mm more than at basic size, 0.69 mm off centre, 4 teeth bearing, runout 1.37 mm."
    )


def test_tips_in_roots_stop_the_shaft_short_of_its_best_place() -> None:
    shaft, hub = ansi_b92_1.spline(13, "16/32"), ansi_b92_1.spline(14, "16/32")
    free = least_clearance(shaft, hub)
    shallow = dataclasses.replace(hub.internal, major_diameter=15.2 * hub.module)
    thick = dataclasses.replace(shaft.external, minor_diameter=11.8 * shaft.module)
    assert free.clearance is not None
    for found in (
        least_clearance(shaft, dataclasses.replace(hub, internal=shallow)),
        least_clearance(dataclasses.replace(shaft, external=thick), hub),
    ):
        assert found.offset_limit == pytest.approx(0.60 * shaft.module, rel=1e-9)
        assert found.offset is not None
        assert found.clearance is not None
        assert free.offset is not None
        # the limit is that of a tooth lying right in the offset; between two teeth there is a little more
        assert 0.999 * found.offset_limit < found.offset < found.offset_limit / math.cos(math.pi / 13)
        assert found.offset < 0.97 * free.offset
        assert found.clearance > free.clearance + 0.05e-3


def test_serrations_one_tooth_apart_slide_together_unworn() -> None:
    # 45 deg teeth are short and leave room: no wear at all is needed for the wrong mate
    found = least_clearance(
        ansi_b92_1.spline(20, "20/40", A45, "fillet"), ansi_b92_1.spline(21, "20/40", A45, "fillet")
    )
    assert found.slides_as_given
    assert found.offset is not None
    assert found.offset > 0.4e-3
    assert "slide together as they are" in found.words
    assert found.missing == 0.0


def test_shaft_with_two_teeth_less_drops_through() -> None:
    found = least_clearance(ansi_b92_1.spline(26, "24/48"), HUB)
    assert found.drops_through
    assert found.slides_as_given
    assert found.clearance is None
    assert "nothing drives" in found.words
    assert found.missing == 0.0


def test_fouling_tips_leave_no_position() -> None:
    found = least_clearance(HUB, SHAFT)
    assert not found.drops_through
    assert not found.slides_as_given
    assert found.clearance is found.offset is found.runout is found.bearing_teeth is None
    assert found.missing > 2e-3
    assert "into roots" in found.words


def test_metal_that_is_missing_from_either_part_lets_it_slide_in() -> None:
    from_teeth, from_spaces = (least_clearance(SHAFT, HUB, share).missing for share in (1.0, 0.0))
    thin = dataclasses.replace(SHAFT, tooth_thickness=SHAFT.tooth_thickness - from_teeth - 1e-7)
    wide = dataclasses.replace(HUB, space_width=HUB.space_width + from_spaces + 1e-7)
    assert least_clearance(thin, HUB).slides_as_given
    assert least_clearance(SHAFT, wide).slides_as_given
    thin = dataclasses.replace(thin, tooth_thickness=thin.tooth_thickness + 2e-6)
    wide = dataclasses.replace(wide, space_width=wide.space_width - 2e-6)
    assert not least_clearance(thin, HUB).slides_as_given
    assert not least_clearance(SHAFT, wide).slides_as_given


@settings(max_examples=15, deadline=None)
@given(st.integers(6, 24), st.integers(6, 24), st.floats(0.3, 0.5))
def test_no_pair_breaks_the_search(teeth: int, spaces: int, share: float) -> None:
    def on_circle(count: int) -> InvoluteSpline:
        return own_spline(
            teeth=count,
            pressure_angle=A30,
            pitch_diameter=0.030,
            root_diameter=0.0286,
            internal_major_diameter=0.0314,
            tooth_thickness=share * math.pi * 0.030 / max(teeth, spaces),
            contact_height=1e-3,
        )

    shaft, hub = on_circle(teeth), on_circle(spaces)
    found = least_clearance(shaft, hub)
    assert found.missing >= 0.0
    if found.clearance is not None:
        assert found.clearance <= found.edge_clearance
        assert found.offset is not None
        # tips stand at a few places of their circle only: between them the offset may pass the limit a little
        assert found.offset <= found.offset_limit * 1.05 + 1e-9
    else:
        assert found.reason
    if teeth == spaces:
        assert found.clearance == pytest.approx(0.0, abs=1e-9)


def test_one_pair_takes_less_than_a_third_of_a_second() -> None:
    def search() -> None:
        least_clearance(ansi_b92_1.spline(35, "24/48"), ansi_b92_1.spline(36, "24/48"))

    assert least_seconds(search) < seconds_here(0.3)


@pytest.mark.parametrize("share", [0.0, 0.25, 1.0])
def test_tips_are_worn_to_an_edge_once_their_flanks_meet(share: float) -> None:
    # half the angle of a tip by the handbook's thickness at a radius: t/D + inv(a) - inv(acos(rb/r))
    def angle(spline: InvoluteSpline, width: float, tip: float) -> float:
        there = math.acos(spline.base_diameter / tip)
        return width / spline.pitch_diameter + math.tan(A30) - A30 - (math.tan(there) - there)

    shaft = angle(SHAFT, SHAFT.tooth_thickness, SHAFT.external.major_diameter) * SHAFT.pitch_diameter
    space = angle(HUB, HUB.space_width, HUB.internal.minor_diameter)
    land = (math.pi / HUB.teeth - space) * HUB.pitch_diameter
    ends = [tip / part for tip, part in ((shaft, share), (land, 1.0 - share)) if part]
    found = least_clearance(SHAFT, HUB, share)
    assert found.edge_clearance - found.nominal_clearance == pytest.approx(min(ends), rel=1e-12)


@pytest.mark.parametrize("share", [-0.1, 1.1, math.nan])
def test_impossible_share_is_refused(share: float) -> None:
    with pytest.raises(DomainError, match="shaft_share"):
        least_clearance(SHAFT, HUB, share)


def test_result_cannot_be_altered() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        least_clearance(SHAFT, SHAFT).missing = 1.0  # type: ignore[misc]
