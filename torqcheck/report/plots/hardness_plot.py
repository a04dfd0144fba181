"""What the guide allows against the hardness, with the members of the splined joints marked."""

from string import ascii_uppercase
from typing import Any

from torqcheck.assessment.pictured import MemberPlace
from torqcheck.materials import allowable_stresses, band_words, hardness_bands
from torqcheck.report.numbers import significant
from torqcheck.report.sheet import Column, Figure, Table
from torqcheck.units import System, in_unit

__all__ = ["hardness_figure"]

WIDTH, HEIGHT = 7.2, 4.3
_THROUGH: dict[str, Any] = {"color": "black", "linewidth": 2.0, "linestyle": "solid"}
_AIRCRAFT: dict[str, Any] = {"color": "black", "linewidth": 2.0, "linestyle": "dotted"}
_SURFACE: dict[str, Any] = {"color": "black", "linewidth": 2.0, "linestyle": (0, (4, 1.5))}
_STEP: dict[str, Any] = {"color": "#777777", "linewidth": 0.8, "linestyle": "solid"}
_SPOT: dict[str, Any] = {"color": "black", "markersize": 7, "linestyle": "none", "markerfacecolor": "white"}


def hardness_figure(members: tuple[MemberPlace, ...], system: System) -> Figure | None:
    """Bands and members, with the same in a table; None where no joint is splined."""
    if not members:
        return None
    crowned = any(member.crowned for member in members)
    caption = (
        "Allowable stress of the guide before its life factor. Solid: through-hardened steel, dotted: of "
        "aircraft quality, dashed: hardened surface; thin line: what lies between two bands takes the lower "
        "one. Circles: shafts, squares: hubs, at the low end of the hardness of their flanks. A part that "
        "stands off its line rests on a softer core, or on the band below."
    )
    if crowned:
        caption += " Crowned flanks are allowed more than the line for straight ones."
    return Figure(
        "Allowable stress against hardness",
        lambda figure: _draw(figure, members, system),
        caption,
        _words(members, system),
    )


def _letter(index: int) -> str:
    return ascii_uppercase[index % len(ascii_uppercase)] * (1 + index // len(ascii_uppercase))


def _words(members: tuple[MemberPlace, ...], system: System) -> Table:
    """Every mark as a row."""
    unit = in_unit(0.0, "stress", system)[1]
    columns = (
        Column(""), Column("Joint, member"), Column("Steel"), Column("Band"), Column("HV", "right"),
        Column(f"shear {unit}", "right"), Column(f"flank {unit}", "right"),
    )  # fmt: skip
    rows = tuple(
        (
            _letter(index),
            f"{member.joint}, {'shaft' if member.side == 'external' else 'hub'}",
            member.steel,
            band_words(member.hardness_class),
            significant(member.vickers),
            *(significant(in_unit(value, "stress", system)[0]) for value in (member.shear, member.flank)),
        )
        for index, member in enumerate(members)
    )
    return Table("The figure in numbers", columns, rows)


def _draw(figure: Any, members: tuple[MemberPlace, ...], system: System) -> None:
    """Shear above, flank pressure below, on one scale of hardness."""
    figure.set_size_inches(WIDTH, HEIGHT)
    upper, lower = figure.subplots(2, 1, sharex=True)
    figure.subplots_adjust(left=0.1, right=0.98, top=0.95, bottom=0.1, hspace=0.22)
    scale, unit = in_unit(1.0, "stress", system)
    _panel(upper, members, "shear", scale)
    _panel(lower, members, "flank", scale)
    upper.set_title(f"shear, {unit}", loc="left", fontsize=9)
    lower.set_title(f"flank pressure of straight flanks, {unit}", loc="left", fontsize=9)
    lower.set_xlabel("hardness of the flank, HV")
    for axes in (upper, lower):
        axes.set_ylim(bottom=0.0)
        axes.margins(y=0.15)
        for side in ("top", "right"):
            axes.spines[side].set_visible(False)


def _panel(axes: Any, members: tuple[MemberPlace, ...], what: str, scale: float) -> None:
    """Bands as lines, members as lettered marks."""
    before: tuple[float, float] | None = None
    for band in hardness_bands():
        allowed = allowable_stresses(band.hardness_class)
        value = scale * (allowed.shear if what == "shear" else allowed.flank_straight)
        style = _AIRCRAFT if "aircraft" in band.description else _THROUGH
        style = _SURFACE if "surface" in band.description or "case" in band.description else style
        if before is not None and style is _THROUGH:
            axes.plot((before[0], band.low, band.low), (before[1], before[1], value), **_STEP)
        axes.plot((band.low, band.high), (value, value), **style)
        if style is _THROUGH:
            before = band.high, value
    _marks(axes, members, what, scale)


def _marks(axes: Any, members: tuple[MemberPlace, ...], what: str, scale: float) -> None:
    """Members of the same place share one line of letters."""
    spots: dict[tuple[int, int], list[int]] = {}
    for index, member in enumerate(members):
        value = scale * (member.shear if what == "shear" else member.flank)
        axes.plot([member.vickers], [value], marker="o" if member.side == "external" else "s", **_SPOT)
        spots.setdefault((round(member.vickers / 12.0), round(value)), []).append(index)
    for indices in spots.values():
        first = members[indices[0]]
        value = scale * (first.shear if what == "shear" else first.flank)
        axes.annotate(
            ", ".join(_letter(index) for index in indices),
            (first.vickers, value),
            (0, 8),
            textcoords="offset points",
            ha="center",
            fontweight="bold",
            fontsize=8.5,
        )
