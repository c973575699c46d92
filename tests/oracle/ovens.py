"""Topics about the oven and about what mixtures are like."""

from math import pi

import numpy as np
from scipy.optimize import brentq

from bodies import DIMENSION, NODES, line
from topic import Topic, relative

# The model's own constants, as its documentation states them.
CONDUCTIVITY = 0.8
DENSITY = 484.0
FILM = {"still": 21.0, "fan": 30.0}
HELD = 10000.0
OFF = 1.0
BELOW_BOILING = 2.0


def box(*sides):
    """The ball with the slowest mode of a box that is held at its faces, for a volume of one."""
    sides = np.array(sides) / np.prod(sides) ** (1 / 3)
    return pi / np.sqrt(((pi / sides) ** 2).sum())


# Each form's series and its length for a volume of one, by the proportions that the model states.
FORMS = {
    "round": ("sphere", (3 / (4 * pi)) ** (1 / 3)),
    "long": ("cylinder", (1 / (8 * pi)) ** (1 / 3)),
    "ring": ("cylinder", (1 / (6 * pi**2)) ** (1 / 3)),
    "tin": ("sphere", box(1, 2.3, 0.8)),
    "touching": ("slab", 0.5 * (1 / 2.25) ** (1 / 3)),
}


class Bread:
    """A body that is heated through a film until its surface boils, and is held at boiling then.

    Solved by collocation; time is Fo.
    """

    def __init__(self, told, boiling):
        shape, part = FORMS[told["form"]]
        self.length = part * (told["piece_g"] / 1000 / DENSITY) ** (1 / 3)
        biot = FILM[told["fan"]] * self.length / CONDUCTIVITY
        self.heated, self.held = line(shape, biot), line(shape, HELD * biot)
        self.oven, self.boiling, dough = told["air_c"], boiling, told["dough_c"]
        self.start = np.full(NODES, dough - self.oven)
        self.dough = dough
        self.core = min(told["core_c"], boiling - BELOW_BOILING)
        # The surface follows from the inside by the boundary condition.
        edge = self.heated.whole[-1] @ np.linalg.inv(self.heated.vectors)

        def surface(fourier):
            return self.oven + (edge @ self.heated.after(self.start, fourier)[0]).real - boiling

        self.boils = brentq(surface, 1e-4, 50, xtol=1e-13)
        profile = self.heated.after(self.start, self.boils)[0]
        self.profile = profile + self.oven - boiling

    def middle(self, fourier):
        if fourier <= self.boils:
            return self.oven + self.heated.after(self.start, fourier)[1]
        return self.boiling + self.held.after(self.profile, fourier - self.boils)[1]

    def reaches(self, core):
        if core <= self.dough:
            return 0.0
        return brentq(lambda fourier: self.middle(fourier) - core, 1e-3, 50, xtol=1e-12)

    def done(self):
        """By the slowest mode only, which is all that the model follows for ratios."""
        amplitudes = np.linalg.solve(self.held.vectors, self.profile.astype(complex))
        slowest = np.argmin(self.held.rates)
        gap = -(self.held.whole[0, slowest] * amplitudes[slowest]).real
        rate = self.held.rates[slowest]
        return self.boils + max(0.0, np.log(gap / (self.boiling - self.core)) / rate)

    def takes(self):
        return self.done() * self.length**2


def baked(random):
    return {
        "piece_g": 10 ** random.uniform(1.6, 3.3),
        "form": random.choice(list(FORMS)),
        "dough_c": random.uniform(4, 35),
        "core_c": random.uniform(80, 96),
        "altitude_m": random.uniform(-200, 2500),
        "fan": random.choice(list(FILM)),
        "air_c": random.uniform(150, 260),
    }


class BakeRatio(Topic):
    name = "bake time in another oven, form, mass and height (collocation)"
    topic = "bake_ratio"
    # The held surface is reckoned with a film that is only nearly endless.
    tolerance = 3e-4

    def case(self, random):
        return {"from": baked(random), "to": baked(random)}

    def check(self, inputs, answer):
        one, other = (
            Bread(inputs[which], answer[f"{which}_boiling_c"]).takes() for which in ("from", "to")
        )
        return relative(answer["ratio"], other / one)


class OvenCourse(Topic):
    name = "the middle as it bakes, and its window once it was read (collocation)"
    topic = "oven_course"
    # 0.5 K of a hundred: the model keeps the modes that matter, and its surface comes to boil in one step.
    tolerance = 5e-3

    def case(self, random):
        baking = baked(random) | {"core_c": random.uniform(80, 88), "altitude_m": random.uniform(0, 800)}
        likely = 10 ** random.uniform(1, 1.8)
        return {
            "baking": baking,
            "likely_min": likely,
            "at_min": [likely * part for part in (0.2, 0.4, 0.6, 0.8, 1.0, 1.2)],
            "low_min": likely * random.uniform(0.8, 0.95),
            "high_min": likely * random.uniform(1.05, 1.3),
            "read_at_min": likely * random.uniform(0.4, 1.1),
            "read_c": random.uniform(50, 78),
        }

    def check(self, inputs, answer):
        bread = Bread(inputs["baking"], answer["boiling_c"])
        likely = inputs["likely_min"]
        per_minute = bread.reaches(bread.core) / likely
        middles = [bread.middle(at * per_minute) for at in inputs["at_min"]]
        apart = max(abs(got - one) for got, one in zip(answer["core_c"], middles)) / 100

        def said(core):
            return bread.reaches(core) / per_minute

        # The two beliefs of the pace, weighed by their squared spreads, as the model documents it.
        at, core = inputs["read_at_min"], inputs["read_c"]
        half = 0.5 * np.log(inputs["high_min"] / inputs["low_min"])
        seen = 0.5 * np.log(said(core + OFF) / said(core - OFF))
        weight = half**2 / (half**2 + seen**2)
        pace = weight * np.clip(np.log(at / said(core)), -1.1, 1.1)

        def rest(core, ln_slower):
            return (likely - said(core)) * np.exp(ln_slower)

        # What was believed as far as the reading left it open, and the reading's own error, which misleads
        # about the place and the pace at once; as logarithms in quadrature.
        left = 1 - weight
        ends = [
            rest(core, pace - left * np.log(likely / inputs["low_min"])),
            rest(core + OFF, pace - weight * seen),
            rest(core, pace + left * np.log(inputs["high_min"] / likely)),
            rest(core - OFF, pace + weight * seen),
        ]
        middle = rest(core, pace)
        logs = np.log(np.array(ends) / middle)
        earlier, later = (np.sqrt((side**2).sum()) for side in (np.minimum(logs, 0), np.maximum(logs, 0)))
        window = at + middle * np.exp([-earlier, 0.0, later])
        return max(apart, *(relative(*pair) for pair in zip(answer["window_min"], window)))


# Choi and Okos (1986): specific heat in J/(g K), conductivity in W/(m K), density in kg/m³, of
# water, protein, fat, carbohydrate without fibre, fibre and ash; lowest power of °C first.
HEAT = np.array([
    [4.1762, -9.0864e-5, 5.4731e-6],
    [2.0082, 1.2089e-3, -1.3129e-6],
    [1.9842, 1.4733e-3, -4.8008e-6],
    [1.5488, 1.9625e-3, -5.9399e-6],
    [1.8459, 1.8306e-3, -4.6509e-6],
    [1.0926, 1.8896e-3, -3.6817e-6],
])
CONDUCTS = np.array([
    [0.57109, 1.7625e-3, -6.7036e-6],
    [0.17881, 1.1958e-3, -2.7178e-6],
    [0.18071, -2.7604e-4, -1.7749e-7],
    [0.20141, 1.3874e-3, -4.3312e-6],
    [0.18331, 1.2497e-3, -3.1683e-6],
    [0.32962, 1.4011e-3, -2.9069e-6],
])
DENSE = np.array([
    [997.18, 3.1439e-3, -3.7574e-3],
    [1329.9, -0.5184, 0.0],
    [925.59, -0.41757, 0.0],
    [1599.1, -0.31046, 0.0],
    [1311.5, -0.36589, 0.0],
    [2423.8, -0.28063, 0.0],
])
FOODS = [
    "bread-flour", "whole-wheat-flour", "milk", "cream", "egg", "egg-yolk", "butter", "sugar",
    "honey", "salt", "yeast-fresh", "cornstarch", "almonds-ground", "plum-jam", "orange-juice",
]


class Mixture(Topic):
    name = "what mixtures are like (numpy, Choi and Okos)"
    topic = "mixture"
    tolerance = 1e-9

    def case(self, random):
        foods = random.sample(FOODS, random.randrange(1, 9))
        return {
            "parts": [[food, 10 ** random.uniform(0, 3)] for food in foods],
            "at_c": random.uniform(0, 100),
        }

    def check(self, inputs, answer):
        grams = np.array([mass for _, mass in inputs["parts"]])
        # Water, protein, fat, carbohydrate with fibre, fibre, ash.
        rows = np.array(answer["compositions"])
        shares = grams @ rows / grams.sum()
        shares[3] -= shares[4]
        shares /= shares.sum()
        powers = np.array([1.0, inputs["at_c"], inputs["at_c"] ** 2])
        volumes = shares / (DENSE @ powers)
        return max(
            relative(answer["specific_heat_j_gk"], shares @ (HEAT @ powers)),
            relative(answer["density_kg_m3"], 1 / volumes.sum()),
            relative(answer["conductivity_w_mk"], volumes @ (CONDUCTS @ powers) / volumes.sum()),
        )


TOPICS = [BakeRatio(), OvenCourse(), Mixture()]
