"""What makes a wear life uncertain, in closed form: squares of independent sigmas add."""

from torqcheck.assessment.lifetime.wear_model import rate_sigmas
from torqcheck.assessment.ranges.influence_result import WearShares
from torqcheck.assessment.result import WearResult
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.scenario.usual import in_words
from torqcheck.wear import LIMIT_SIGMA, combined_sigma

__all__ = ["wear_shares"]

_TILT = in_words("joint[1].tilt")[1]
_WEAR = in_words("joint[1].wear_coefficient")[1]
_STATE = "look at the lubricant, and write down its state"
_LOAD = "log the torque over some working days, and write the duty list from the log"
_LIMIT = "state targets.lash_limit: the play at which this machine is no longer accepted"


def wear_shares(state: SplineState, wear: WearResult, *, limit_stated: bool) -> WearShares | None:
    """
    Split the spread of the logarithm of a wear life; None where no life is stated.

    Parameters
    ----------
    state : SplineState
        The joint.
    wear : WearResult
        Its wear life.
    limit_stated : bool
        The scenario states the lash limit.
    """
    if wear.life is None:
        return None
    known = state.joint.lubrication is not None
    lubrication = f"wear coefficient of {state.lubrication}" if known else "state of the lubrication"
    tilt = "measured" if state.tilt.measured else "not measured"
    of = rate_sigmas(state)
    sigmas = [
        (lubrication, of["coefficient"], _WEAR if known else _STATE),
        (f"slip, from the tilt ({tilt})", of["slip"], _TILT),
        ("load and its sharing", of["load"], _LOAD),
    ]
    if wear.limit == "lash limit" and not limit_stated:
        sigmas.append(("limit at which it is worn out", LIMIT_SIGMA, _LIMIT))
    total = float(combined_sigma(*(sigma for _, sigma, _ in sigmas)))
    parts = [(what, sigma, (sigma / total) ** 2, better) for what, sigma, better in sigmas]
    return WearShares(
        joint=state.name,
        sigma=total,
        sigma_drawn=wear.spread,
        parts=tuple(sorted(parts, key=lambda part: -part[1])),
        grease=state.lubrication == "sealed grease",
    )
