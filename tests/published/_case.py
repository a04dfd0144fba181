"""A number from outside the project, and the rule by which ours is held against it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from torqcheck.provenance import Mark


@dataclass(frozen=True, slots=True)
class Case:
    """One number from outside the project. The printed digits set the tolerance."""

    source: str  # author, title, year
    where: str  # page, table, equation or example number
    mark: Mark
    inputs: Mapping[str, float]  # SI
    printed: str  # digit for digit as the source prints it
    unit: float = 1.0  # printed unit in SI
    slack: float = 0.0  # extra, in the printed unit ...
    because: str = field(default="")  # ... and the reason; both or neither

    def __post_init__(self) -> None:
        if bool(self.slack) != bool(self.because):
            raise ValueError("slack needs a reason, and a reason needs slack")

    def __str__(self) -> str:
        return f"{self.source}, {self.where}"

    @property
    def tolerance(self) -> float:
        """Half a unit of the last printed digit, plus the slack; in SI."""
        exponent = int(Decimal(self.printed).as_tuple().exponent)
        return (0.5 * 10.0**exponent + self.slack) * self.unit

    def check(self, ours: float) -> None:
        """Fail with both numbers and the mark when they differ by more than the tolerance."""
        printed = float(self.printed) * self.unit
        # a last-digit tie such as 142.5 printed for 142.5 exactly must not fail on a rounding bit
        assert abs(ours - printed) <= self.tolerance * (1.0 + 1e-9), (
            f"{self} prints {self.printed}, we get {ours / self.unit:.6g} (mark: {self.mark})"
        )


def held(
    source: str,
    where: str,
    printed: str,
    ours: float,
    unit: float = 1.0,
    slack: float = 0.0,
    because: str = "",
    mark: Mark = "published",
) -> None:
    """Hold one number of ours against a printed one, where the inputs stand in the test."""
    Case(source, where, mark, {}, printed, unit, slack, because).check(float(ours))
