"""The scenario file: reading it, its faults, and what it leaves open."""

from torqcheck.scenario.load import load_scenario, scenario_from_text
from torqcheck.scenario.schema import Scenario

__all__ = ["Scenario", "load_scenario", "scenario_from_text"]
