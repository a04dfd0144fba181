"""What a weld is made of, how readily a steel cracks beside it, and how warm it must be before."""

import math
from dataclasses import dataclass
from functools import cache

from torqcheck.errors import DomainError, TableError
from torqcheck.formulas import Symbol, formula
from torqcheck.materials.tables import mark, number, source, table
from torqcheck.materials.weld_columns import ELEMENTS
from torqcheck.provenance import Source

__all__ = [
    "Composition",
    "Electrode",
    "Preheat",
    "carbon_equivalent",
    "composition_of_grade",
    "electrode",
    "electrodes",
    "preheat_for",
]

KSI = 6.894757293168e6
FREEZING = 273.15
NO_PREHEAT = FREEZING + 20.0
"""A preheat that a workshop has anyway, K."""

_CARBON = Symbol("C", "%", "carbon")


@dataclass(frozen=True, slots=True)
class Electrode:
    """
    One class of electrodes. Pa.

    Parameters
    ----------
    name : str
        Class, "E70" for instance.
    ultimate_strength, yield_strength : float, Pa
        Of the weld metal; `strengths` says how they are known.
    allowable_shear : float, Pa
        What the throat of a weld may carry; holds its own safety.
    source, strengths : Source
        Of the allowable, and of the strengths.
    """

    name: str
    ultimate_strength: float
    yield_strength: float
    allowable_shear: float
    source: Source
    strengths: Source


@dataclass(frozen=True, slots=True)
class Composition:
    """What a steel is made of, by which it welds: carbon equivalent in percent, and sulphur."""

    grade: str
    carbon_equivalent: float
    resulphurised: bool
    source: Source


@dataclass(frozen=True, slots=True)
class Preheat:
    """Range of temperature that a steel must have before it is welded, K."""

    steels: str
    least: float
    most: float
    note: str
    source: Source

    @property
    def needed(self) -> bool:
        """Whether it is more than a warm workshop."""
        return self.least > NO_PREHEAT


@formula(
    "CE = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15",
    result=Symbol("CE", "%", "carbon equivalent"),
    source=Source("IIW, carbon equivalent of 1967", "", "from memory"),
    carbon=_CARBON,
    manganese=Symbol("Mn", "%", "manganese"),
    chromium=Symbol("Cr", "%", "chromium"),
    molybdenum=Symbol("Mo", "%", "molybdenum"),
    vanadium=Symbol("V", "%", "vanadium"),
    nickel=Symbol("Ni", "%", "nickel"),
    copper=Symbol("Cu", "%", "copper"),
)
def carbon_equivalent(
    carbon: float,
    manganese: float,
    chromium: float = 0.0,
    molybdenum: float = 0.0,
    vanadium: float = 0.0,
    nickel: float = 0.0,
    copper: float = 0.0,
) -> float:
    """
    Carbon equivalent of a steel: how hard, and how ready to crack, it is beside a weld.

    ::

        CE = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15

    Parameters
    ----------
    carbon : float, %
        C, by mass.
    manganese : float, %
        Mn.
    chromium : float, %, optional
        Cr.
    molybdenum : float, %, optional
        Mo.
    vanadium : float, %, optional
        V.
    nickel : float, %, optional
        Ni.
    copper : float, %, optional
        Cu.

    Returns
    -------
    float, %
        CE.

    Raises
    ------
    DomainError
        If a share is negative.

    Notes
    -----
    Up to about 0.45 a steel is welded without preheat where it is not thick; 4140 has about 0.8 [2]_. For
    carbon and low-alloy steels: no measure for steels that harden by precipitation, nor for iron.
    NaN in any argument gives NaN.

    References
    ----------
    .. [1] International Institute of Welding, formula of 1967. Mark: from memory.
    .. [2] Welding reference page on 4140. Mark: published.

    Examples
    --------
    >>> print(f"{carbon_equivalent(0.40, 0.88, chromium=0.95, molybdenum=0.20):.2f}")
    0.78
    """
    shares = (carbon, manganese, chromium, molybdenum, vanadium, nickel, copper)
    for element, share in zip(ELEMENTS, shares, strict=True):
        if share < 0.0:
            raise DomainError(f"{element} must not be negative")
    return carbon + manganese / 6.0 + (chromium + molybdenum + vanadium) / 5.0 + (nickel + copper) / 15.0


@cache
def electrodes() -> dict[str, Electrode]:
    """Return the classes of electrodes by name."""
    found = {}
    for row in table("electrodes"):
        strengths = Source(source(row).work, "Table 9-3", mark(row["strengths_mark"]))
        found[row["electrode"]] = Electrode(
            row["electrode"],
            number(row, "ultimate_ksi", KSI),
            number(row, "yield_ksi", KSI),
            number(row, "allowable_shear_ksi", KSI),
            source(row),
            strengths,
        )
    return found


def electrode(name: str) -> Electrode:
    """
    Return one class of electrodes.

    Parameters
    ----------
    name : str
        The class, for example E70.

    Raises
    ------
    TableError
        If there is no such class.
    """
    known = electrodes()
    if name not in known:
        raise TableError(f"there is no electrode {name!r}; known: {', '.join(known)}")
    return known[name]


@cache
def composition_of_grade(grade: str) -> Composition | None:
    """Return what a grade of steels.csv is made of; None where no carbon equivalent is known or holds."""
    for row in table("weld_compositions"):
        if row["grade"] == grade:
            equivalent = carbon_equivalent(*(number(row, f"{element}_percent") for element in ELEMENTS))
            return Composition(grade, float(equivalent), row["resulphurised"] == "yes", source(row))
    return None


def preheat_for(equivalent: float, thickness: float) -> Preheat:
    """
    Return the preheat of a steel by its carbon equivalent (percent) and thickness (m).

    Parameters
    ----------
    equivalent : float, percent
        Carbon equivalent.
    thickness : float, m
        Of the parts at the weld.

    Raises
    ------
    DomainError
        If the carbon equivalent or the thickness is beyond the table.
    """
    millimetres = 1e3 * thickness
    for row in table("weld_preheats"):
        inside = _within(row["carbon_equivalent_min"], equivalent, row["carbon_equivalent_max"])
        if (
            row["use"] == "taken"
            and inside
            and _within(row["thickness_min_mm"], millimetres, row["thickness_max_mm"])
        ):
            return Preheat(
                row["steels"],
                number(row, "preheat_min_C") + FREEZING,
                number(row, "preheat_max_C") + FREEZING,
                row["note"],
                source(row),
            )
    raise DomainError(
        f"no preheat is known for a carbon equivalent of {equivalent:.2f} and {millimetres:.0f} mm; "
        "both must lie within the table"
    )


def _within(low: str, value: float, high: str) -> bool:
    """Above the first and up to the second; a NaN is nowhere."""
    return not math.isnan(value) and float(low) < value <= float(high)
