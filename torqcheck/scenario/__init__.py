"""The scenario file: reading it, its faults, and what it leaves open."""

from torqcheck.scenario.duty_record import DutyRecord
from torqcheck.scenario.inspections import Inspection, inspections_of
from torqcheck.scenario.load import load_scenario, scenario_from_text
from torqcheck.scenario.schema import Scenario

__all__ = [
    "DutyRecord",
    "Inspection",
    "Scenario",
    "inspections_of",
    "load_scenario",
    "scenario_from_text",
]
