"""The preload of a bolt between its least and its greatest: wrench, lubrication, scatter, settling."""

from dataclasses import dataclass
from typing import Literal

from torqcheck.capacity.joining import (
    bolt_stiffness,
    clamped_stiffness,
    greatest_preload,
    inch_root_area,
    inch_tensile_area,
    least_preload,
    metric_root_area,
    metric_tensile_area,
    preload_from_torque,
    proof_load,
    settling_loss,
)
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.materials import (
    BoltStrength,
    NutFactor,
    Scatter,
    Thread,
    bolt_strength,
    lubrications,
    nut_factor,
    preload_scatter,
    thread,
)
from torqcheck.provenance import Mark, Source
from torqcheck.scenario.kinds.clamp import ClampScrew
from torqcheck.scenario.kinds.flange import Bolts, Tightening
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.usual import has_tolerance

__all__ = ["BOLT_MODULUS", "Bolt", "Preload", "bolt_of", "preload_of", "settled", "stretch_check"]

USUAL_SHARE = 0.75
"""Of the proof load: what bolts that are taken out again are usually tightened to."""
BOLT_MODULUS = 205e9
SETTLING, SETTLING_LEAST, SETTLING_MOST = 10e-6, 5e-6, 15e-6
"""What threads, heads and one pair of machined faces give way together, m; as in VDI 2230, remembered."""
DRY = "dry"
_STATED = Source("Preload of the bolts as stated", "", "measured")
_HOW_TORQUE = "tighten each bolt once more, crosswise, with a torque wrench to a torque that is written down"
_HOW_LUBRICATION = "look at thread and head: bare, zinc, oil, paste or wax; it decides what a torque pulls"


@dataclass(frozen=True, slots=True)
class Bolt:
    """A bolt with its areas and loads. SI."""

    thread: Thread
    strength: BoltStrength
    tensile_area: float
    root_area: float

    @property
    def proof_load(self) -> float:
        """Load up to which it springs back, N."""
        return float(proof_load(self.tensile_area, self.strength.proof))

    @property
    def yield_load(self) -> float:
        """Load at which it stays stretched, N."""
        return float(proof_load(self.tensile_area, self.strength.yield_strength))

    @property
    def sources(self) -> tuple[Source, ...]:
        """What size, area and strength rest on."""
        area = metric_tensile_area if self.thread.system == "metric" else inch_tensile_area
        return FORMULAS[area].source, self.thread.source, self.strength.source


@dataclass(frozen=True, slots=True)
class Preload:
    """
    Preload of one bolt, N: as meant, the least and the greatest when it has just been tightened.

    The least is `loosest` less its scatter, of which `short` is the share; `torque` is that of the wrench,
    N m, and `factor` the nut factor, None where the preload itself is stated; `words` say how it came about.
    """

    meant: float
    loosest: float
    short: float
    greatest: float
    torque: float | None
    factor: float | None
    words: str
    sources: tuple[Source, ...]

    @property
    def least(self) -> float:
        """Least preload when it has just been tightened, N."""
        return float(least_preload(self.loosest, self.short))


def bolt_of(bolts: Bolts | ClampScrew) -> Bolt:
    """Look the bolts up."""
    size = thread(bolts.size)
    tensile, root = (
        (metric_tensile_area, metric_root_area)
        if size.system == "metric"
        else (inch_tensile_area, inch_root_area)
    )
    return Bolt(
        size,
        bolt_strength(bolts.strength, size),
        float(tensile(size.diameter, size.pitch)),
        float(root(size.diameter, size.pitch)),
    )


def preload_of(written: Tightening | None, bolt: Bolt, key: str, name: str, ledger: Ledger) -> Preload:
    """
    Find the preload from what the file says of the tightening.

    Parameters
    ----------
    written : Tightening or None
        As in the file.
    bolt : Bolt
        Its thread, strength and areas.
    key, name : str
        Place in the scenario and name of the joint.
    ledger : Ledger
        Takes assumptions and what is missing.
    """
    if written is None:
        return _not_stated(bolt, key, name, ledger)
    if written.preload is not None:
        return _stated(written.preload, written.method, key, ledger)
    return _by_torque(written, bolt, key, name, ledger)


def _stated(reading: Reading, method: str | None, key: str, ledger: Ledger) -> Preload:
    """A preload that was measured, with its own tolerance or that of the method."""
    value = reading.value
    if has_tolerance(reading.text):
        low, high = max(value - reading.tolerance, 0.0), value + reading.tolerance
        return Preload(value, low, 0.0, high, None, None, "as stated", (_STATED,))
    scatter = preload_scatter(needed(method))
    ends = _scattered(scatter, value, value, key, ledger)
    return Preload(value, *ends, None, None, _words(scatter), (_STATED, scatter.source))


def _by_torque(written: Tightening, bolt: Bolt, key: str, name: str, ledger: Ledger) -> Preload:
    """A torque wrench: the nut factor by the lubrication, and the scatter by the state of the threads."""
    torque, diameter = needed(written.torque).value, bolt.thread.diameter
    table = nut_factor(written.lubrication) if written.lubrication is not None else None
    scatter = preload_scatter("torque wrench", table.state if table is not None else DRY)
    loose, tight, middle, source = _factors(written, table, key, name, ledger)
    weak, strong, meant = (float(preload_from_torque(torque, diameter, k)) for k in (loose, tight, middle))
    ends = _scattered(scatter, weak, strong, key, ledger)
    sources = (FORMULAS[preload_from_torque].source, source, scatter.source)
    return Preload(meant, *ends, torque, middle, _words(scatter), sources)


def _factors(
    written: Tightening, table: NutFactor | None, key: str, name: str, ledger: Ledger
) -> tuple[float, float, float, Source]:
    """Nut factor that leaves a bolt loosest, the one that stretches it most, the usual one, and a source."""
    if written.nut_factor is not None:
        k = written.nut_factor
        return k, k, k, Source("Nut factor as stated", "", "measured")
    if table is not None:
        return table.factor, table.factor, table.factor, table.source
    ledger.miss(name, "lubrication of the bolts", _HOW_LUBRICATION)
    known = [nut_factor(word) for word in lubrications()]
    plain, low, high = nut_factor("plain"), min(k.factor for k in known), max(k.factor for k in known)
    loose, tight = _two_ends(
        f"{key}.nut_factor",
        (high, low),
        plain.factor,
        "lubrication of thread and head not stated: anything from a low-friction washer to dry and black",
        "assumed",
        ledger,
    )
    return loose, tight, plain.factor, Source("Nut factor, anything that the table has", "", "assumed")


def _not_stated(bolt: Bolt, key: str, name: str, ledger: Ledger) -> Preload:
    """Nobody knows how the bolts were tightened: by feel, to what is usual."""
    ledger.miss(name, "tightening torque of the bolts", _HOW_TORQUE)
    meant, scatter = USUAL_SHARE * bolt.proof_load, preload_scatter("feel")
    words = f"tightened by feel to {100 * USUAL_SHARE:.0f} % of the proof load"
    ledger.assume_word(f"{key}.tightening", words, "not stated; what bolts are usually tightened to")
    ends = _scattered(scatter, meant, meant, key, ledger)
    source = Source("Usual preload of bolts that are taken out again", "", "assumed")
    return Preload(meant, *ends, None, None, f"not stated, {_words(scatter)}", (source, scatter.source))


def _words(scatter: Scatter) -> str:
    return f"{scatter.method}, +/-{100 * scatter.share:.0f} %"


def _scattered(
    scatter: Scatter, weak: float, strong: float, key: str, ledger: Ledger
) -> tuple[float, float, float]:
    """The weaker preload, the share that it may fall short, and the most that the stronger one can become."""
    s = scatter.share
    least, most = _two_ends(
        f"{key}.preload",
        (1.0 - s, 1.0 + s),
        1.0,
        f"{scatter.method}: share of the preload that a bolt may really have; the grip counts on the least, "
        "the stretch of the bolt on the most",
        scatter.source.mark,
        ledger,
    )
    if most >= 1.0:
        high = float(greatest_preload(strong, most - 1.0))
    else:
        high = float(least_preload(strong, 1.0 - most))
    if least < 1.0:
        return weak, 1.0 - least, high
    return float(greatest_preload(weak, least - 1.0)), 0.0, high


def _two_ends(
    key: str, ends: tuple[float, float], middle: float, why: str, mark: Mark, ledger: Ledger
) -> tuple[float, float]:
    """
    An assumed value of which one end is bad for the grip and the other for the bolt.

    Both ends count where the path is checked as stated; one value, the same for both, where it is drawn, and
    the middle in the hopeful outlook.
    """
    band = (min(ends), max(ends))
    value = ledger.assume(key, ends[0], None, why, band=band, favourable=middle, mark=mark)
    if key in ledger.deviations or ledger.outlook == "favourable":
        return value, value
    return ends


def stretch_check(name: str, member: Literal["bolts", "screws"], bolt: Bolt, preload: Preload) -> Check:
    """Greatest preload against the yield load: a pass up to the proof load, a fail above the yield."""
    return Check(
        joint=name,
        name="bolt preload" if member == "bolts" else "screw preload",
        method="larger load",
        member=member,
        value=preload.greatest,
        allowable=bolt.yield_load,
        target=bolt.yield_load / bolt.proof_load,
        torque=0.0,
        factors={"share of the proof load": preload.greatest / bolt.proof_load},
        sources=(
            FORMULAS[proof_load].source,
            FORMULAS[greatest_preload].source,
            *bolt.sources,
            *preload.sources,
        ),
        quantity="force",
    )


def settled(preload: Preload, bolt: Bolt, clamped_length: float, key: str, ledger: Ledger) -> float:
    """Preload of the worst bolt after the faces have settled, N."""
    settling = ledger.assume(
        f"{key}.settling",
        SETTLING,
        "length",
        "what threads, heads and faces flatten together after they are tightened; short bolts lose most by "
        "it (as in VDI 2230, remembered)",
        band=(SETTLING_LEAST, SETTLING_MOST),
        favourable=SETTLING_LEAST,
        mark="from memory",
    )
    diameter = bolt.thread.diameter
    stiff = bolt_stiffness(bolt.tensile_area, diameter, clamped_length, BOLT_MODULUS)
    parts = clamped_stiffness(diameter, clamped_length, BOLT_MODULUS)
    return float(least_preload(preload.loosest, preload.short, settling_loss(settling, stiff, parts)))
