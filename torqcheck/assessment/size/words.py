"""The answer for one unknown in plain words, in SI."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from torqcheck.assessment.size.rounding import plain_number
from torqcheck.assessment.size.search import Sample
from torqcheck.assessment.size.trial import Demand, Trial
from torqcheck.assessment.size.unknown import Unknown
from torqcheck.assessment.verdict.beside import factor_beside, percent_beside
from torqcheck.units import in_unit

__all__ = ["demand_words", "no_more_words", "number_reason", "value_words"]

NEARLY, WORTH_SAYING = 0.98, 0.85
"""Share of the best margin from which more brings next to nothing; of the range, no news from there."""
SHAFT_ITSELF = ("root shear", "torsional", "yield in torsion", "torsion")
HUB_ITSELF = ("bursting", "hoop", "hub wall")


def value_words(unknown: Unknown, value: float) -> str:
    """A value as a reader takes it in."""
    number, unit = in_unit(value, unknown.kind, "si")
    return f"{plain_number(number)} {unit}"


def demand_words(demand: Demand) -> str:
    """Say what is not met."""
    if demand.sort == "check" and demand.factor is not None and demand.target is not None:
        factor = factor_beside(demand.factor, demand.target)
        return f"{demand.name} of {demand.joint}, factor {factor} against {demand.target:.3g}"
    if demand.sort == "wear" and demand.factor is not None and demand.target is not None:
        return (
            f"wear life of {demand.joint}, {percent_beside(demand.factor, demand.target)} of 100 estimates "
            f"reach the service life, {plain_number(100.0 * demand.target)} are wanted"
        )
    if demand.sort == "reading":
        return f"reading missing, {demand.words}"
    return f"{demand.name} of {demand.joint}" + (f": {demand.words.rstrip('.')}" if demand.words else "")


def number_reason(unknown: Unknown, fields: Mapping[str, Any], trials: Sequence[Trial]) -> str:
    """Why the answer is what it is, in a sentence or three."""
    value, reached, apart = fields["value"], fields["out_of_reach"], fields["stopped_by"]
    if all(trial.refused for trial in trials):
        return f"No {unknown.meaning} of the range can be: {trials[0].refused}."
    sentences = []
    if fields["idle"]:
        sentences.append(
            f"Nothing that is judged depends on the {unknown.meaning}, from "
            f"{value_words(unknown, fields['range_low'])} to {value_words(unknown, fields['range_high'])}: "
            "there is no value to advise."
        )
    elif value is None:
        sentences.append(_no_value(unknown, fields, reached))
    else:
        sentences.append(_edge_words(unknown, fields))
    if apart:
        sentences.append(
            f"The {unknown.meaning} does not change this, which stops a pass: "
            + "; ".join(demand_words(demand) for demand in apart)
            + "."
        )
    return " ".join(sentences)


def _no_value(unknown: Unknown, fields: Mapping[str, Any], reached: Sequence[Demand]) -> str:
    low, high = (value_words(unknown, fields[key]) for key in ("range_low", "range_high"))
    best = fields["best"]
    if not reached:
        where = f"; nearest at {best.label}: {best.governing}" if best is not None else ""
        return f"No {unknown.meaning} from {low} to {high} meets all targets at once{where}."
    at = f" at {best.label}" if best is not None else ""
    limits = "; ".join(demand_words(demand) for demand in reached)
    text = f"No {unknown.meaning} from {low} to {high} helps. At its best{at} this is not met: {limits}."
    if fields["rest"] is not None:
        text += f" Everything else would be met with {fields['rest'].text}."
    return text


def _edge_words(unknown: Unknown, fields: Mapping[str, Any]) -> str:
    at, beyond, exact = fields["at"], fields["beyond"], fields["exact"]
    if beyond is None:
        end = "lower" if unknown.wanted == "smallest" else "upper"
        words = f"Even the {end} end of the range holds ({unknown.range_words}); {_governs(at)}."
    else:
        past = "Below" if unknown.wanted == "smallest" else "Above"
        words = f"{past} {value_words(unknown, exact)} {_fails(beyond)}."
    if fields["holds_to"] is not None:
        ends = "longer" if unknown.kind == "length" else "larger"
        side = ends if unknown.wanted == "smallest" else "smaller"
        words += f" It holds as far as {value_words(unknown, fields['holds_to'])}; {side} values fail again."
    return words


def _governs(at: Any) -> str:
    if at.safety_factor is None:
        return f"{at.governing} governs"
    return f"{at.governing} governs with a factor of {at.safety_factor:.3g}"


def _fails(beyond: Any) -> str:
    if beyond.refused:
        return f"it cannot be: {beyond.governing}"
    plain = ("wear life", "fatigue life", "worn mate", "false fit", "alignment", "reading", "blow at the end")
    if beyond.governing.startswith(plain):
        return f"this is not met: {beyond.governing}"
    return f"{beyond.governing} falls below its target"


def no_more_words(unknown: Unknown, samples: Sequence[Sample], trial: Callable[[float], Trial]) -> str:
    """Say from where on more engagement no longer helps, and why; empty for other unknowns."""
    if unknown.find != "engagement":
        return ""
    tried = [(s.value, trial(s.value)) for s in samples]
    sound = [(value, one.margin()) for value, one in tried if not one.refused]
    if not sound:
        return ""
    best = max(margin for _, margin in sound)
    place = next(i for i, (_, margin) in enumerate(sound) if margin >= NEARLY * best)
    if sound[place][0] > WORTH_SAYING * sound[-1][0]:
        return ""
    value, last = sound[place][0], sound[-1][1]
    worse = last < NEARLY * best
    numbers = [d for d in trial(sound[-1][0]).demands if d.margin is not None]
    number = min(numbers, key=lambda d: d.margin or 0.0, default=None)
    if number is None:
        return ""
    turn = "makes it worse again" if worse else "adds next to nothing"
    why = _why_no_more(number, trial(sound[-1][0]))
    return f"Beyond about {value_words(unknown, value)} more engagement {turn}: {number.name} governs, {why}."


def _why_no_more(demand: Demand, longest: Trial) -> str:
    name = demand.name.casefold()
    if any(word in name for word in SHAFT_ITSELF):
        return "which is the shaft itself, no stronger for a longer engagement"
    if any(word in name for word in HUB_ITSELF):
        return "which is the wall of the hub, no thicker for a longer engagement"
    if demand.sort == "wear":
        return "and it hangs on tilt and lubrication more than on length"
    if longest.tilt_factor is not None and longest.tilt_factor > (longest.axial_factor or 1.0):
        return (
            "and at this tilt the gap at the end of the teeth grows with their length "
            "(load-distribution factor of the guide)"
        )
    if longest.effective_length is not None:
        return (
            "and the load gathers at the end where the torque enters: the longest carries like "
            f"{longest.effective_length * 1e3:.3g} mm of teeth that share evenly"
        )
    return "and length does not enter it"
