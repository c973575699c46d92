"""Topics about the oven and about what mixtures are like."""

from functools import lru_cache
from math import pi

import numpy as np
from scipy.optimize import brentq

from bodies import line
from heat import roots
from topic import Topic, relative

# The model's own constants, as its documentation states them.
CONDUCTIVITY = 0.8
DENSITY = 484.0
FILM = {"still": 21.0, "fan": 30.0}
LARGEST_FILM = 10000.0

# Gauss's nodes along the radius, and their weights.
X, W = np.polynomial.legendre.leggauss(200)
X, W = (X + 1) / 2, W / 2


@lru_cache(maxsize=None)
def ball_series(biot):
    zetas = np.array(roots("sphere", biot, 60))
    modes = np.sinc(np.outer(zetas, X) / pi)
    return zetas, (modes @ (X**2 * W)) / (modes**2 @ (X**2 * W))


class Ball:
    """A ball that is heated through a film until its surface boils, and is held at boiling then.

    The slowest mode of a held ball in the profile of that moment is found by Gauss's quadrature.
    """

    def __init__(self, mass_g, film, oven, dough, boiling):
        radius = (mass_g / 1000 / DENSITY * 3 / (4 * pi)) ** (1 / 3)
        zetas, centres = ball_series(round(film * radius / CONDUCTIVITY, 12))
        self.boiling = boiling

        def left(fourier, r):
            decays = centres * np.exp(-(zetas**2) * fourier)
            return np.sinc(np.outer(r, zetas) / pi) @ decays

        def surface(fourier):
            return oven - (oven - dough) * left(fourier, np.ones(1))[0] - boiling

        self.boils = brentq(surface, 1e-5, 50, xtol=1e-14)
        profile = oven - (oven - dough) * left(self.boils, X)
        # b = ∫ r² u φ dr / ∫ r² φ² dr, with φ = sin(πr)/(πr), 1 at the centre.
        self.gap = 2 * pi * (np.sin(pi * X) * X * W) @ (boiling - profile)

    def done(self, core):
        # The slowest mode is all that the model follows.
        return self.boils + max(0.0, np.log(self.gap / (self.boiling - core)) / pi**2)


class BakeRatio(Topic):
    name = "bake time in another oven (roots by brentq, profile by quadrature)"
    topic = "bake_ratio"

    def case(self, random):
        def oven():
            fan = random.choice(list(FILM))
            return {"fan": fan, "air_c": random.uniform(150, 260)}

        return {
            "piece_g": 10 ** random.uniform(1.6, 3.3),
            "dough_c": random.uniform(4, 35),
            "core_c": random.uniform(80, 88),
            "altitude_m": random.uniform(-200, 2500),
            "from": oven(),
            "to": oven(),
        }

    def check(self, inputs, answer):
        def done(oven):
            ball = Ball(
                inputs["piece_g"],
                FILM[oven["fan"]],
                oven["air_c"],
                inputs["dough_c"],
                answer["boiling_c"],
            )
            return ball.done(inputs["core_c"])

        return relative(answer["ratio"], done(inputs["to"]) / done(inputs["from"]))


class FormRatio(Topic):
    name = "bake time of another form (collocation along each direction)"
    topic = "form_ratio"

    def case(self, random):
        def form():
            return {
                "form": random.choice(["ball", "roll", "filled"]),
                "mass_g": 10 ** random.uniform(1.8, 3.2),
                "width_mm": random.uniform(70, 250),
                "length_mm": random.uniform(100, 350),
            }

        return {
            "from": form(),
            "to": form(),
            "dough_c": random.uniform(4, 35),
            "core_c": random.uniform(80, 96),
        }

    def check(self, inputs, answer):
        boiling = answer["boiling_c"]
        wanted = (boiling - inputs["core_c"]) / (boiling - inputs["dough_c"])

        def axes(told):
            volume = told["mass_g"] / 1000 / DENSITY
            if told["form"] == "ball":
                return [("sphere", (volume * 3 / (4 * pi)) ** (1 / 3))]
            length, width = told["length_mm"] / 1000, told["width_mm"] / 1000
            if told["form"] == "roll":
                return [("cylinder", (volume / (pi * length)) ** 0.5), ("slab", length / 2)]
            depth = volume / (length * width)
            return [("slab", across / 2) for across in (width, length, depth)]

        def taken(told):
            def left(log_time):
                time = np.exp(log_time)
                product = 1.0
                for shape, length in axes(told):
                    one = line(shape, round(LARGEST_FILM * length / CONDUCTIVITY, 9))
                    product *= one.ratio(one.centre_weights, time / length**2)
                return float(product) - wanted

            return np.exp(brentq(left, np.log(1e-6), np.log(1e0), xtol=1e-12))

        def surface(told):
            dimension = {"slab": 1, "cylinder": 2, "sphere": 3}
            return 1 / sum(dimension[shape] / length for shape, length in axes(told))

        one, other = inputs["from"], inputs["to"]
        likely = taken(other) / taken(one)
        by_surface = surface(other) / surface(one)
        return max(
            relative(answer["likely"], likely),
            relative(answer["low"], min(likely, by_surface)),
            relative(answer["high"], max(likely, by_surface)),
        )


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


TOPICS = [BakeRatio(), FormRatio(), Mixture()]
