"""The effect of play for people: one block for each splined joint."""

from collections.abc import Callable

from torqcheck.assessment.bench.play_result import FirstTooth, PlayResult, PlayRow, Spread
from torqcheck.assessment.result import Assessment, JointResult
from torqcheck.report.numbers import both, or_dash, significant
from torqcheck.report.sheet import Column, Table
from torqcheck.units import Kind, System, in_unit

__all__ = ["NOT_MATES", "as_if_mates", "play_tables"]

NOT_MATES = "; as if the parts were mates, which they are not"


def as_if_mates(assessment: Assessment) -> str:
    """What stands behind a title where parts are computed that are no mates; else nothing."""
    mates = (joint.mate for joint in assessment.joints if joint.mate is not None)
    return NOT_MATES if any(mate.verdict == "false fit" for mate in mates) else ""


def play_tables(assessment: Assessment, systems: tuple[System, ...]) -> list[Table]:
    """
    Lay out, joint by joint, what the play does: as it is, as new, at the lash limit.

    Parameters
    ----------
    assessment : Assessment
        The result.
    systems : tuple of str
        Unit systems; the first is shown.
    """
    return [_table(joint, joint.play, systems[0]) for joint in assessment.joints if joint.play is not None]


def _table(joint: JointResult, play: PlayResult, system: System) -> Table:
    columns = (Column(""), *(Column(row.state, "right") for row in play.rows))
    title = f"Effect of play at {joint.name}"
    if joint.mate is not None and joint.mate.verdict == "false fit":
        title += NOT_MATES
    rows = tuple((label, *(text(row) for row in play.rows)) for label, text in _lines(play, system))
    return Table(title, columns, rows, legend=_legend(play, system))


def _lines(play: PlayResult, system: System) -> list[tuple[str, Callable[[PlayRow], str]]]:
    """Return what each line is called, and its text for a row of the result."""

    def quantity(
        name: str, kind: Kind, value: Callable[[PlayRow], float]
    ) -> tuple[str, Callable[[PlayRow], str]]:
        unit = in_unit(0.0, kind, system)[1]
        return f"{name}, {unit}", lambda row: significant(in_unit(value(row), kind, system)[0])

    lines = [
        quantity("lash along the pitch circle", "length", lambda row: row.clearance),
        quantity("lash", "angle", lambda row: row.lash),
        quantity("radial play, stop to stop", "length", lambda row: row.radial_play),
        quantity("peak torque of the blow", "torque", lambda row: row.blow_torque),
        ("lowest factor, guide, simulated", lambda row: or_dash(row.safety_factor)),
        ("closing speed from rest, rad/s", lambda row: or_dash(row.closing_speed)),
        ("blow energy from rest, J", lambda row: or_dash(row.blow_energy)),
    ]
    lines += _tooth_lines("held off centre", system, lambda row: row.held)
    if any(row.held.pressure is not None for row in play.rows):
        unit = in_unit(0.0, "stress", system)[1]
        lines.append(
            (f"- its flank pressure, {unit}", lambda row: _spread(row.held.pressure, "stress", system))
        )
    return lines + _tooth_lines("free to centre", system, lambda row: row.centred)


def _tooth_lines(
    how: str, system: System, tooth: Callable[[PlayRow], FirstTooth]
) -> list[tuple[str, Callable[[PlayRow], str]]]:
    unit = in_unit(0.0, "force", system)[1]
    return [
        (f"first tooth, {how}, %", lambda row: _percent(tooth(row).share)),
        (f"- its load, {unit}", lambda row: _spread(tooth(row).load, "force", system)),
    ]


def _percent(share: Spread) -> str:
    return " / ".join(f"{100.0 * part:.0f}" for part in share)


def _spread(values: Spread | None, kind: Kind, system: System) -> str:
    if values is None:
        return "-"
    return " / ".join(significant(in_unit(value, kind, system)[0], 2) for value in values)


def _legend(play: PlayResult, system: System) -> str:
    crushed = ""
    if any(row.held.pressure is not None for row in play.rows):
        crushed = f" The softer member yields at {both(play.flank_yield, 'stress', (system,))}."
    return (
        "Only the play of this joint is changed; its teeth stay as worn as they are. First tooth: material "
        f"method, beside the guide and never blended with it; median / 95th percentile of {play.draws} draws "
        "of the errors of spacing and of the way the shaft lies off centre, in % of the load of the joint, "
        "which lies even along each tooth here; tilt and twist come in only under Load on the teeth. "
        "Held off centre: bearings or pilot keep the shaft there through the blow (assumed); otherwise the "
        "teeth push it to its centre."
        f"{crushed} {' '.join(play.notes)}"
    )
