"""From an assessment to a sheet: what is shown, in which order. No arithmetic beyond rounding."""

from collections.abc import Sequence

from torqcheck.assessment.result import Assessment, JointResult, MateResult, WearResult
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.assessment.verdict.beside import percent_beside
from torqcheck.checks import Check, Quantity, weakest_first
from torqcheck.report.alignment import alignment_tables
from torqcheck.report.check_words import BESIDE, BY, legend_of, order_words
from torqcheck.report.fatigue import fatigue_table, is_fatigue
from torqcheck.report.guide_hours import guide_hours
from torqcheck.report.load import load_note
from torqcheck.report.next_step import next_step
from torqcheck.report.numbers import about, band_text, both, significant
from torqcheck.report.play import as_if_mates, play_tables
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.report.verdict_words import verdict_words
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.scenario.ledger import Assumption
from torqcheck.units import System, in_unit

__all__ = [
    "ASSUMPTIONS", "CAUTION", "SOURCES", "amount", "assumption_lines", "assumption_value", "file_line",
    "mate_note", "range_text", "sheet_of", "shown_name", "systems_of",
]  # fmt: skip

CAUTION = (
    "Estimate, not a certificate. Rotating parts can kill: guard them, spin up behind a barrier, and "
    "follow local codes and licensed practice."
)
WIDE = 100
ASSUMPTIONS, SOURCES = "Assumptions", "Weakest mark of each check, and the sources"


def sheet_of(assessment: Assessment, units: str, width: int) -> Sheet:
    """
    Arrange an assessment for people.

    Parameters
    ----------
    assessment : Assessment
        The result.
    units : str
        ``si``, ``inch`` or ``both``; with both, the table of checks shows the second system
        only where `width` allows it.
    width : int
        Columns available.
    """
    systems = systems_of(units)
    return Sheet(
        title=f"torqcheck {assessment.version}: {assessment.title}",
        about=(file_line(assessment),),
        verdict=assessment.verdict,
        words=(*verdict_words(assessment, systems), next_step(assessment)),
        parts=tuple(part for part in _parts(assessment, systems, width) if part is not None),
        closing=(CAUTION,),
    )


def systems_of(units: str) -> tuple[System, ...]:
    """Return the unit systems that an option asks for, the leading one first."""
    if units == "inch":
        return ("inch",)
    return ("si",) if units == "si" else ("si", "inch")


def file_line(answered: Answered) -> str:
    """Name the files that a result rests on, with the heads of their hashes."""
    start, duty = f"build {answered.build}, " if answered.build else "", answered.duty_file
    record = "" if duty is None else f", duty {duty.file}, sha256 {duty.sha256[:12]}"
    return f"{start}file {answered.file}, sha256 {answered.file_sha256[:12]}{record}"


def _parts(assessment: Assessment, systems: tuple[System, ...], width: int) -> list[Table | Note | None]:
    return [
        _checks(assessment, systems, width),
        load_note(assessment, systems),
        _path(assessment, systems),
        _blow(assessment, systems),
        *play_tables(assessment, systems),
        *alignment_tables(assessment, systems),
        _wear(assessment),
        fatigue_table(assessment, systems),
        *(Note(f"At {joint.name}", joint.notes) for joint in assessment.joints if joint.notes),
        *(
            mate_note(joint.name, joint.mate, systems)
            for joint in assessment.joints
            if joint.mate is not None
        ),
        _assumptions(assessment, systems),
        _sources(assessment),
        Note.of("Cautions", (entry.text for entry in assessment.cautions)),
    ]


def _checks(assessment: Assessment, systems: tuple[System, ...], width: int) -> Table:
    """One line per check, those of the joint before those of its first tooth, each weakest first."""
    shown = systems if width >= WIDE else systems[:1]
    several = len(assessment.joints) > 1
    columns = [Column("Joint", width=20 if width >= WIDE else 13)] if several else []
    columns += [Column("Check"), Column("By")]
    for system in shown:
        unit = "MPa" if system == "si" else "psi"
        columns += [Column(f"Stress {unit}" if len(shown) > 1 else unit, "right")]
        columns += [Column("limit", "right")]
    checks = weakest_first(c for joint in assessment.joints for c in joint.checks)
    # first teeth and fatigue have targets of their own, which the legends tell
    targets = {check.target for check in checks if not check.local and not is_fatigue(check)}
    columns += [Column("Factor", "right"), Column("Range")]
    columns += [Column("Target", "right")] if len(targets) > 1 else []
    columns += [Column("Verdict")]
    unit = "MPa" if shown[0] == "si" else "psi"
    title = f"Checks, {order_words(checks)}"
    if len(shown) == 1:
        title += f" (stress in {unit})"
    if len(targets) == 1:
        title += f", target {targets.pop():g}"
    return Table(
        f"{title}{as_if_mates(assessment)}",
        tuple(columns),
        tuple(_check_row(check, shown, several, len(columns)) for check in checks),
        tuple(check.verdict for check in checks),
        legend_of(checks),
    )


def _check_row(check: Check, systems: tuple[System, ...], several: bool, size: int) -> tuple[str, ...]:
    name = shown_name(check)
    row = [check.joint] if several else []
    row += [name, BY[check.method]]
    for system in systems:
        row += [amount(value, check.quantity, system) for value in (check.value, check.allowable)]
    factor = check.safety_factor
    row += ["unloaded" if factor is None else significant(factor), range_text(check.interval)]
    if len(row) + 2 == size:
        row.append(f"{check.target:.3g}")
    return (*row, VERDICT_WORDS[check.verdict] if check.counts else BESIDE)


def amount(value: float, quantity: Quantity, system: System) -> str:
    """A value of a check; its unit beside it where it is not the stress of the heading."""
    number, unit = in_unit(value, quantity, system)
    return significant(number) if quantity == "stress" else f"{significant(number)} {unit}"


def range_text(interval: tuple[float, float] | None) -> str:
    """Range in a table, as narrow as it can be written."""
    return "-" if interval is None else "-".join(significant(end) for end in interval)


def shown_name(check: Check) -> str:
    """Name of a check, short enough for the table."""
    name = check.name.replace("tooth root bending, first tooth", "first tooth root")
    return name.replace(" member", "").replace("torsional fatigue", "fatigue")


def _sources(assessment: Assessment) -> Note:
    """Weakest mark of each check, and every work that the checks rest on, once."""
    by_mark: dict[str, list[str]] = {}
    works: dict[str, None] = {}
    for check in (check for joint in assessment.joints for check in joint.checks):
        name = f"{shown_name(check)} {BY[check.method]}"
        names = by_mark.setdefault(check.mark, [])
        if name not in names:
            names.append(name)
        works |= dict.fromkeys(str(source) for source in check.sources)
    marks = [f"{mark}: {'; '.join(names)}" for mark, names in by_mark.items()]
    return Note(SOURCES, (*marks, *works))


def _path(assessment: Assessment, systems: tuple[System, ...]) -> Table:
    rows = tuple(
        (step.name, both(step.torque, "torque", systems), both(step.speed, "speed", systems), step.note)
        for step in assessment.path
    )
    columns = (Column(""), Column("Torque", "right"), Column("at most", "right"), Column("Note"))
    return Table("Torque path, steady", columns, rows)


def _blow(assessment: Assessment, systems: tuple[System, ...]) -> Table:
    """The blow when play closes, and what it was computed from."""
    shock = assessment.shock
    rise = "instant" if shock.torque_rise is None else both(shock.torque_rise, "torque rise", systems)
    driven = "held" if shock.driven_inertia is None else both(shock.driven_inertia, "inertia", systems)
    rows = [
        ("peak torque", both(shock.peak_torque, "torque", systems)),
        ("steady, load free to turn", both(shock.steady_torque, "torque", systems)),
        ("peak over steady", f"{significant(shock.dynamic_factor)}, start from {shock.start}"),
        ("peak if load is blocked", both(shock.held_peak_torque, "torque", systems)),
    ]
    if shock.closing_time is not None and shock.closing_speed is not None:
        energy = significant(shock.blow_energy or 0.0)
        rows += [
            ("play closes after", f"{significant(shock.closing_time * 1e3)} ms"),
            ("closing speed", f"{significant(shock.closing_speed)} rad/s, blow energy {energy} J"),
            ("contact losses", f"{shock.contact_losses}"),
        ]
    if shock.slip_time is not None and shock.firm_peak_torque is not None:
        rows += [
            ("slip element lets go", f"after {significant(shock.slip_time * 1e3)} ms"),
            ("peak if nothing slips", both(shock.firm_peak_torque, "torque", systems)),
        ]
    softest, part = shock.compliance[0] if shock.compliance else (shock.softest, 1.0)
    rows += [
        ("torque rise", rise),
        ("driving inertia", both(shock.driving_inertia, "inertia", systems)),
        ("driven inertia", driven),
        ("path stiffness", both(shock.stiffness, "stiffness", systems)),
        ("softest part", f"{softest}, {100.0 * part:.0f} % of the twist"),
        ("natural frequency", f"{significant(shock.natural_frequency)} Hz"),
        ("damping ratio", significant(shock.damping_ratio, 2)),
        ("total lash", both(shock.lash, "angle", systems)),
    ]
    title = f"The blow when play closes, at {shock.joint}"
    return Table(title, (Column(""), Column("")), tuple(rows))


def _wear(assessment: Assessment) -> Table | None:
    rows = [_wear_row(assessment, joint, joint.wear) for joint in assessment.joints if joint.wear is not None]
    if not rows:
        return None
    columns = (
        Column("Joint", width=20),
        Column("p10", "right"),
        Column("p50", "right"),
        Column("p90", "right"),
        Column("Reach", "right"),
        Column("Ends by / why not stated"),
        Column("Guide h", "right"),
    )
    legend = (
        "p10, p50, p90: hours after which one, five and nine joints in ten are worn out. Reach: share of the "
        f"estimates that reach the service life of {about(assessment.service_life / 3600)} h. Guide h: hours "
        "by the guide's wear-life factor, which knows no slip and no lubricant; its table goes from 1e4 to "
        "1e10 turns (< and > beyond). Two models, not blended."
    )
    return Table("Wear life in running hours", columns, tuple(rows), legend=legend)


def _wear_row(assessment: Assessment, joint: JointResult, wear: WearResult) -> tuple[str, ...]:
    life = wear.guide_life
    guide = guide_hours(wear.guide_revolutions, None if life is None else life / 3600)
    if wear.life is None:
        return (joint.name, "-", "-", "-", "-", wear.reason, guide)
    share = wear.share_reaching_service_life or 0.0
    ranking = " (rough: to rank, not to plan)" if wear.spread is not None and wear.spread > 1.5 else ""
    return (
        joint.name,
        *(about(value / 3600) for value in wear.life),
        f"{percent_beside(share, assessment.reliability)} %",
        f"{wear.limit}{ranking}",
        guide,
    )


def mate_note(name: str, mate: MateResult, systems: tuple[System, ...]) -> Note:
    """What was found about one pair, in sentences."""
    lines = [*mate.reasons]
    if mate.missing is not None and "inch" in systems:
        lines.append(f"Missing metal, centred: {both(mate.missing, 'length', systems)}.")
    if mate.runout is not None:
        lines.append(
            f"A runout of {both(mate.runout, 'length', systems)} of the unclamped shaft would betray it."
        )
    lines += [f"Reading that would tell more: {reading}." for reading in mate.next_readings]
    return Note(f"Mate at {name}: {mate.verdict.upper()}", tuple(lines))


def _assumptions(assessment: Assessment, systems: tuple[System, ...]) -> Note | None:
    """What was assumed, with band, mark and reason."""
    return Note.of(ASSUMPTIONS, assumption_lines(assessment.assumptions, systems))


def assumption_lines(assumptions: Sequence[Assumption], systems: tuple[System, ...]) -> tuple[str, ...]:
    """One line for each assumption: key, value, band, mark and reason."""
    return tuple(
        f"{entry.key} = {assumption_value(entry, systems)} [{entry.mark}]: {entry.why}"
        for entry in assumptions
    )


def assumption_value(entry: Assumption, systems: tuple[System, ...]) -> str:
    """What was assumed, with its band."""
    if entry.value is None:
        return entry.word
    text = significant(entry.value) if entry.kind is None else both(entry.value, entry.kind, systems)
    if entry.low is None or entry.high is None:
        return text
    return f"{text}, band {band_text((entry.low, entry.high), entry.kind, systems[:1])}"
