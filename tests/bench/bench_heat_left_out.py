"""How well a measured curve is foretold that had no say in how the forecast's allowances were chosen.

Run: python -m tests.bench.bench_heat_left_out [--short]. Leave one out: the allowances are chosen again, by
`tests/outside/left_out.py`, from simulated roasts and the other curve, then the curve left out is foretold at 25, 50
and 75 % of the way; then the same with both left out. Everything else in the model is physics or common practice and
was fitted to no curve. Some minutes of arithmetic.
"""

import sys
from statistics import median

from tests.outside.beef_pulls import MENUS, PIECES, SHARES, asked, error, truth
from tests.outside.left_out import CHOICES, TRAINING_SEEDS, chosen, scores
from tests.outside.roast_simulator import roast
from timerboard.core.heat_model import USUAL, Allowance


def main() -> None:
    """Prints what was chosen and how far off it was."""
    short = "--short" in sys.argv
    roasts = [roast(seed) for seed in TRAINING_SEEDS[:2] if short] or [roast(seed) for seed in TRAINING_SEEDS]
    table = {allowance: scores(allowance, roasts) for allowance in (CHOICES[::18] if short else CHOICES)}
    print(f"{len(roasts)} simulated roasts, {len(table)} combinations")
    said("leave one out", {out: chosen(table, (p for p in PIECES if p != out)) for out in PIECES})
    said("both left out, chosen from simulated roasts alone", dict.fromkeys(PIECES, chosen(table, ())))
    both = chosen(table, PIECES)
    said("none left out", dict.fromkeys(PIECES, both))
    said("as built in", dict.fromkeys(PIECES, USUAL))
    print("what is built in is what is chosen" if both == USUAL else f"built in is {USUAL}, chosen {both}")


def said(name: str, by_piece: dict[str, Allowance]) -> None:
    """One line for the choice, one for each share of the way."""
    print(f"{name}: " + "; ".join(f"{piece} with {allowance}" for piece, allowance in by_piece.items()))
    for share in SHARES:
        errors = [error(piece, share, menu, allowance) for piece, allowance in by_piece.items() for menu in MENUS]
        off = sorted(abs(e) for e in errors)
        right = [abs(error(piece, share, "right", allowance)) for piece, allowance in by_piece.items()]
        held = sum(_held(piece, share, menu, allowance) for piece, allowance in by_piece.items() for menu in MENUS)
        print(
            f"  {share:.0%} of the way: off by {median(off):.1%} of the time left (median of {len(off)}), worst "
            f"{off[-1]:.1%}; with a menu that is right at most {max(right):.1%}; band held {held} of {len(off)}"
        )


def _held(piece: str, share: float, menu: str, allowance: Allowance) -> bool:
    found = asked(piece, share, menu, allowance)
    return (found.early or 0) <= truth(piece) * 1000 <= (found.late or 0)


if __name__ == "__main__":
    main()
