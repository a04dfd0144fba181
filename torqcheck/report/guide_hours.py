"""Hours by the guide's wear-life factor, for people."""

from torqcheck.capacity import WEAR_LIFE_TABLE
from torqcheck.report.numbers import about

__all__ = ["guide_hours"]


def guide_hours(revolutions: float | None, hours: float | None) -> str:
    """Hours that the guide's wear-life factor grants, no further than its table goes."""
    if hours is None or revolutions is None:
        return "-"
    low, high = WEAR_LIFE_TABLE
    inside = min(max(revolutions, low), high)
    sign = "> " if revolutions > high else "< " if revolutions < low else ""
    return f"{sign}{about(hours * inside / revolutions)}"
