"""How good a plan is, in words: the best there is, or what might still be better and by how much at most.

The aims are the planner's, in their order: on time, limits kept, little lost in holds, few oven changes, hands evenly
used, a late first start. Of a plan that is not proven the first open one is told; nothing is known of those after it.
"""

from .plan import Plan, Standing, Status
from .quantity_words import duration_words

BEST = "the best there is"
GOOD = "good, not proven the best"


def quality_words(plan: Plan) -> str:
    """'the best there is', or 'good, not proven the best: the first job might begin up to 25 min later'."""
    if plan.status is Status.OPTIMAL:
        return BEST
    return f"{GOOD}: {better_words(plan.standing, soonest=plan.late_s == 0)}" if plan.standing is not None else GOOD


def better_words(standing: Standing, *, soonest: bool = False) -> str:
    """What might be better in another plan. `soonest`: lateness is of a meal that is eaten as early as can be."""
    gap = standing.gap
    if standing.aim == "oven changes":
        return f"the oven might do with {f'{gap} fewer' if gap else 'fewer'} {'change' if gap == 1 else 'changes'}"
    if standing.unit == "s":
        most = f" up to {duration_words(gap)}" if gap else ""
        what = {
            "on time": f"the meal might be{most} {'sooner' if soonest else 'less late'}",
            "limits": f"what has begun might wait{most} less",
        }
        return what.get(standing.aim, f"the first job might begin{most} later")
    said = {
        "holds": "dishes might stand less before the meal",
        "hands": "the work might be spread more evenly",
        "least change": "less might have to move",
    }[standing.aim]
    if standing.bound is None or standing.aim != "holds":
        return said
    return f"{said} (they lose {_holds(standing.cost)}, and {_holds(standing.bound)} at best)"


def _holds(hundredths: int) -> str:
    """Hundredths of holds: '0.35 of a hold', '5.9 holds', 'nothing'."""
    if hundredths <= 0:
        return "nothing"
    return f"{hundredths / 100:g} of a hold" if hundredths < 100 else f"{hundredths / 100:.1f} holds"
