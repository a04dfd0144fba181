"""Steels, hardness, allowable stresses and factors: read from the shipped tables, in SI.

Nothing is read before it is asked for; everything read is kept.
"""

from torqcheck.materials.allowables import (
    BELOW_TABLE,
    AllowableStresses,
    allowable_stresses,
    class_of,
    hardness_class,
)
from torqcheck.materials.estimates import as_measured, softened_by_welding, unknown_steel
from torqcheck.materials.expansion import ROOM_TEMPERATURE, Expansion, expansion_materials, thermal_expansion
from torqcheck.materials.factors import (
    LashLimit,
    LifeFactor,
    WearClass,
    application_factor,
    application_factor_source,
    default_lash_limit,
    fatigue_life_factor,
    lash_limits,
    wear_class,
    wear_classes,
)
from torqcheck.materials.hardness import (
    SOFTEST_BRINELL,
    conversion_source,
    hb_from_hrb,
    hb_from_hrc,
    hb_from_hv,
    hrc_from_hb,
    hrc_from_hv,
    hv_from_hb,
    hv_from_hrc,
    listed_yield_source,
    tabulated_strength_from_hb,
    ultimate_strength_from_hb,
    yield_strength_from_hb,
    yield_strength_of_unknown_state,
)
from torqcheck.materials.own_table import load_own_table
from torqcheck.materials.readings import Hardness, at_value, read_hardness
from torqcheck.materials.steels import Steel, SteelNotes, design_ultimate, design_yield, steel, steels
from torqcheck.materials.tables import source, table

__all__ = [
    "BELOW_TABLE",
    "ROOM_TEMPERATURE",
    "SOFTEST_BRINELL",
    "AllowableStresses",
    "Expansion",
    "Hardness",
    "LashLimit",
    "LifeFactor",
    "Steel",
    "SteelNotes",
    "WearClass",
    "allowable_stresses",
    "application_factor",
    "application_factor_source",
    "as_measured",
    "at_value",
    "class_of",
    "conversion_source",
    "default_lash_limit",
    "design_ultimate",
    "design_yield",
    "expansion_materials",
    "fatigue_life_factor",
    "hardness_class",
    "hb_from_hrb",
    "hb_from_hrc",
    "hb_from_hv",
    "hrc_from_hb",
    "hrc_from_hv",
    "hv_from_hb",
    "hv_from_hrc",
    "lash_limits",
    "listed_yield_source",
    "load_own_table",
    "read_hardness",
    "softened_by_welding",
    "source",
    "steel",
    "steels",
    "table",
    "tabulated_strength_from_hb",
    "thermal_expansion",
    "ultimate_strength_from_hb",
    "unknown_steel",
    "wear_class",
    "wear_classes",
    "yield_strength_from_hb",
    "yield_strength_of_unknown_state",
]
