"""What the surface of a joint feels: a balance of heat between hot air and a body that is wet outside.

Air at T_air gives h (T_air - T); a surface of wetness w (1 wet, 0 dry) loses h w K (p(T) - p_air) by evaporation, with
K = 0.622 L / (cp p0), the Lewis relation at Lewis number 1 (as in texts on wet-bulb thermometers). Where both are equal
lies the temperature that the surface tends to: 45 to 60 °C in an oven as long as it is wet, far higher once it has
dried. Units: °C and Pa.
"""

import numpy as np

from .heat_series import Floats

LATENT = 2.3e6
"""J/kg, water near 70 °C; from memory (steam tables say 2.33)."""
LEWIS = 0.622 * LATENT / (1006.0 * 101_325.0)
_P0, _B, _C = 611.2, 17.62, 243.12  # Magnus's formula over water, Pa (WMO guide no. 8, annex 4.B)
_STEPS = 5


def vapour_pa(celsius: Floats) -> Floats:
    """Saturation pressure; above 100 °C some per cent too high, where little depends on it."""
    return np.asarray(_P0 * np.exp(_B * celsius / (_C + celsius)))


def tends_to(air_c: float, wetness: Floats, air_pa: Floats) -> Floats:
    """Where what the air gives and what evaporation takes are equal: Newton's steps from a close guess."""
    share = wetness * LEWIS
    log = np.log((air_pa + 0.6 * air_c / share) / _P0)
    guess = np.where(log < 0.8 * _B, _C * log / np.maximum(_B - log, 0.2 * _B), air_c)
    at = np.minimum(guess, air_c)
    for _ in range(_STEPS):
        excess = air_c - at - share * (vapour_pa(at) - air_pa)
        at = np.minimum(at + excess / strengthened(at, wetness), air_c)
    return np.asarray(at)


def strengthened(celsius: Floats, wetness: Floats) -> Floats:
    """How much more steeply than a dry one a surface near that temperature gives up heat: 1 + w K dp/dT."""
    steep = vapour_pa(celsius) * _B * _C / (_C + celsius) ** 2
    return np.asarray(1.0 + wetness * LEWIS * steep)
