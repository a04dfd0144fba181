"""Letters and the source that several closed forms of this folder share."""

from torqcheck.formulas import Symbol
from torqcheck.provenance import Source

__all__ = ["DRIVEN", "DRIVING", "LASH", "MODEL", "STIFFNESS"]

MODEL = Source("Two-inertia torsional model, closed form and independent integration", "", "derived")
DRIVING = Symbol("J1", "kg m^2", "inertia of the driving side")
DRIVEN = Symbol("J2", "kg m^2", "inertia of the driven side; inf if it is held")
STIFFNESS = Symbol("k", "N m/rad", "torsional stiffness of the path in contact")
LASH = Symbol("b", "rad", "whole lash, from coast flank to drive flank")
