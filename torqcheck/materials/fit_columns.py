"""What the tables of interference fits and of thermal expansion must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Layout, number, text, word

__all__ = ["FIT_LAYOUTS", "HUB_FAMILIES"]

HUB_FAMILIES = ("steel", "aluminium", "cast iron", "bronze")

FIT_LAYOUTS: Mapping[str, Layout] = {
    "expansion": Layout(
        (
            text("material"),
            number("expansion_um_m_K", 5, 40),
            word("use", "taken", "shown"),
            *SOURCE,
            text("note", required=False),
        ),
        ("material", "expansion_um_m_K"),
    ),
    "fit_friction": Layout(
        (
            text("joining"),
            word("hub", *HUB_FAMILIES),
            number("friction", 0.02, 0.5),
            number("friction_least", 0.02, 0.5),
            number("friction_most", 0.02, 0.5),
            word("use", "taken", "shown"),
            *SOURCE,
            text("note"),
        ),
        ("joining", "hub", "friction"),
    ),
    "heating_limits": Layout(
        (text("condition"), number("temperature_C", 80, 600), *SOURCE, text("note", required=False)),
        ("condition",),
    ),
    "hub_materials": Layout(
        (
            text("material"),
            number("elastic_modulus_GPa", 40, 250),
            number("poisson_ratio", 0.15, 0.4),
            number("density_kg_m3", 1500, 9500),
            number("strength_MPa", 30, 2000),
            number("strength_least_MPa", 30, 2000),
            number("strength_most_MPa", 30, 2000),
            word("failure", "yields", "cracks"),
            *SOURCE,
            text("note"),
        ),
        ("material",),
    ),
}
