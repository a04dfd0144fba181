"""Torque, blow, stress, wear and mate of the splined joints in a re-powered machine."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from torqcheck.assessment import assess
    from torqcheck.scenario import load_scenario

__all__ = ["__version__", "assess", "load_scenario"]

__version__ = "0.1.0"


def __getattr__(name: str) -> Any:
    """Load the two entry points on first use, so that ``import torqcheck`` stays light."""
    if name == "assess":
        from torqcheck.assessment import assess

        return assess
    if name == "load_scenario":
        from torqcheck.scenario import load_scenario

        return load_scenario
    raise AttributeError(f"module 'torqcheck' has no attribute {name!r}")
