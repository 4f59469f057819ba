"""Heat properties of food from what it is made of: conductivity, density, heat capacity, diffusivity.

Source: Choi and Okos 1986, polynomials in Celsius as printed in the ASHRAE Refrigeration Handbook (2010), chapter 19,
tables 1 and 2. Good for unfrozen food from 0 to 150 °C. The heat capacity of water starts with 4.1762, the first
authors' term, not the 4.1289 of some reprints, which lies 1.3 % under the IAPWS value at 20 °C. Diffusivity is
k / (rho cp); the separate published fit differs from that by up to 4 % and is not used.
"""

from dataclasses import dataclass

_Cubic = tuple[float, float, float]

# component: (conductivity W/m K, density kg/m3, heat capacity kJ/kg K), each c0 + c1 T + c2 T^2
_COMPONENTS: dict[str, tuple[_Cubic, _Cubic, _Cubic]] = {
    "water": ((0.57109, 1.7625e-3, -6.7036e-6), (997.18, 3.1439e-3, -3.7574e-3), (4.1762, -9.0864e-5, 5.4731e-6)),
    "protein": ((0.17881, 1.1958e-3, -2.7178e-6), (1329.9, -0.5184, 0.0), (2.0082, 1.2089e-3, -1.3129e-6)),
    "fat": ((0.18071, -2.7604e-4, -1.7749e-7), (925.59, -0.41757, 0.0), (1.9842, 1.4733e-3, -4.8008e-6)),
    "carbohydrate": ((0.20141, 1.3874e-3, -4.3312e-6), (1599.1, -0.31046, 0.0), (1.5488, 1.9625e-3, -5.9399e-6)),
    "fibre": ((0.18331, 1.2497e-3, -3.1683e-6), (1311.5, -0.36589, 0.0), (1.8459, 1.8306e-3, -4.6509e-6)),
    "ash": ((0.32962, 1.4011e-3, -2.9069e-6), (2423.8, -0.28063, 0.0), (1.0926, 1.8896e-3, -3.6817e-6)),
}


@dataclass(frozen=True, slots=True)
class Composition:
    """Mass fractions of any sum; they are taken in proportion. Raises ValueError for a negative or empty one."""

    water: float = 0.0
    protein: float = 0.0
    fat: float = 0.0
    carbohydrate: float = 0.0
    fibre: float = 0.0
    ash: float = 0.0

    def __post_init__(self) -> None:
        if min(part for _, part in self._written()) < 0 or sum(part for _, part in self._written()) <= 0:
            raise ValueError("a food is made of parts of zero or more, and of something")

    def _written(self) -> tuple[tuple[str, float], ...]:
        return tuple((name, getattr(self, name)) for name in _COMPONENTS)

    def fractions(self) -> tuple[tuple[str, float], ...]:
        """Each component's share of the mass; together 1."""
        whole = sum(part for _, part in self._written())
        return tuple((name, part / whole) for name, part in self._written())


LEAN_MEAT = Composition(water=0.73, protein=0.21, fat=0.05, ash=0.01)
"""Trimmed raw muscle; from memory, rounded. Kinds of lean meat and poultry differ by a few per cent only."""


@dataclass(frozen=True, slots=True)
class Properties:
    """SI units: W/m K, kg/m3, J/kg K, m2/s."""

    conductivity: float
    density: float
    heat_capacity: float

    @property
    def diffusivity(self) -> float:
        """alpha = k / (rho cp)."""
        return self.conductivity / (self.density * self.heat_capacity)


def properties(food: Composition, celsius: float) -> Properties:
    """Properties of unfrozen food at a temperature; conductivity by the parallel model (volume-weighted).

    Raises ValueError outside 0 to 150 °C: below that there is ice, which these sums do not know.
    """
    if not 0.0 <= celsius <= 150.0:
        raise ValueError("food properties hold for unfrozen food from 0 to 150 °C")
    parts = [(share, *(_at(cubic, celsius) for cubic in _COMPONENTS[name])) for name, share in food.fractions()]
    volume = sum(share / rho for share, _, rho, _ in parts)  # m3 per kg
    conductivity = sum(k * share / rho for share, k, rho, _ in parts) / volume
    heat_capacity = 1000.0 * sum(share * cp for share, _, _, cp in parts)
    return Properties(conductivity, 1.0 / volume, heat_capacity)


def _at(cubic: _Cubic, celsius: float) -> float:
    return cubic[0] + cubic[1] * celsius + cubic[2] * celsius**2
