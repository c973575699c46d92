"""Topics about heat: series, and vessels in what is around them."""

from math import pi

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.special import jn_zeros, jv

from bodies import Body
from topic import Topic, relative

SHAPES = ("slab", "cylinder", "sphere")


def roots(shape, biot, n):
    """The first n roots of the shape's equation, each bracketed and found by brentq."""
    if shape == "slab":
        brackets = [(k * pi, (k + 0.5) * pi) for k in range(n)]
        f = lambda z: z * np.sin(z) - biot * np.cos(z)
    elif shape == "cylinder":
        zeros = np.concatenate([[0.0], jn_zeros(0, n)])
        brackets = list(zip(zeros, zeros[1:]))
        f = lambda z: z * jv(1, z) - biot * jv(0, z)
    else:
        brackets = [(max(k * pi, 1e-4), (k + 1) * pi) for k in range(n)]
        f = lambda z: z * np.cos(z) - (1 - biot) * np.sin(z)
    return [brentq(f, low, high, xtol=1e-14) for low, high in brackets]


def weights(shape, zeta):
    """Weights at the centre and in the mean, by projecting 1 on the mode with quad."""
    d = SHAPES.index(shape)
    mode = {
        "slab": lambda x: np.cos(zeta * x),
        "cylinder": lambda x: jv(0, zeta * x),
        "sphere": lambda x: np.sinc(zeta * x / pi),
    }[shape]
    area = quad(lambda x: mode(x) * x**d, 0, 1, epsabs=1e-13, limit=200)[0]
    norm = quad(lambda x: mode(x) ** 2 * x**d, 0, 1, epsabs=1e-13, limit=200)[0]
    return area / norm, (d + 1) * area**2 / norm


class Series(Topic):
    name = "transient series (roots by brentq, weights by quad)"
    topic = "series"

    def case(self, random):
        return {
            "shape": random.choice(SHAPES),
            "biot": 10 ** random.uniform(-2, 2),
            "fourier": 10 ** random.uniform(-1.7, 0.5),
            "terms": 8,
        }

    def check(self, inputs, answer):
        zetas = roots(inputs["shape"], inputs["biot"], 16)
        both = [weights(inputs["shape"], zeta) for zeta in zetas]
        decays = np.exp(-np.square(zetas) * inputs["fourier"])
        centre = float(np.dot([one[0] for one in both], decays))
        mean = float(np.dot([one[1] for one in both], decays))
        errors = [relative(answer["centre"], centre), relative(answer["mean"], mean)]
        for k in range(inputs["terms"]):
            errors.append(relative(answer["eigenvalues"][k], zetas[k]))
            errors.append(relative(answer["centre_weights"][k], both[k][0]))
            errors.append(relative(answer["mean_weights"][k], both[k][1]))
        return max(errors)


def vessel(random, kinds):
    return {
        "kind": random.choice(kinds),
        "mass_g": 10 ** random.uniform(1.6, 3.3),
        "depth_mm": random.uniform(8, 60),
    }


def history(random, span_min, low, high):
    changes = sorted(random.uniform(1, span_min) for _ in range(random.randrange(3)))
    return [(at, random.uniform(low, high)) for at in [0.0, *changes]]


SPOTS = ("kitchen", "fridge", "own")


def doubts_of(random, around):
    """Of each stretch whose temperature it is and how far that may be off; the first always is."""
    doubts = [
        [random.choice(SPOTS), random.uniform(0.3, 3.5)] if random.random() < 0.8 else None
        for _ in around
    ]
    doubts[0] = doubts[0] or ["kitchen", 2.0]
    return doubts


def shifted(inputs, spot, by):
    """The history with every stretch of a spot warmer by so many times its doubt."""
    return [
        (at, celsius + (by * doubt[1] if doubt and doubt[0] == spot else 0.0))
        for (at, celsius), doubt in zip(inputs["around"], inputs["doubts"])
    ]


def volume_error(vessel, body):
    """The body must hold the mass it was made for.

    A tin is a box of 1 by 2.3 by 0.8, taken as the ball with the same slowest mode when its faces are held:
    the squares of pi over its sides add up to that of pi over the radius.
    """
    if vessel["kind"] == "tin":
        sides = np.array([1, 2.3, 0.8])
        sides *= (vessel["mass_g"] / 1000 / body.density / sides.prod()) ** (1 / 3)
        (_, radius), = body.axes
        return relative(radius, (sides**-2.0).sum() ** -0.5)
    return relative(body.volume_m3 * body.density, vessel["mass_g"] / 1000)


class Course(Topic):
    name = "vessels in changing surroundings (collocation, superposed steps)"
    topic = "course"
    kinds = ("bowl", "piece", "tin", "jar", "bag", "baked", "fridge", "ice_bath", "stirred")

    def case(self, random):
        at = sorted(random.uniform(0, 500) for _ in range(12))
        return {
            "vessel": vessel(random, self.kinds),
            "initial_c": random.uniform(0, 95),
            "around": history(random, 300, -5, 45),
            "at_min": at,
        }

    def check(self, inputs, answer):
        body = Body.of(answer["body"])
        around = inputs["around"]
        everything = [inputs["initial_c"], *(c for _, c in around)]
        span = max(everything) - min(everything)
        errors = [volume_error(inputs["vessel"], body)]
        at = np.array(inputs["at_min"])
        # The model cuts its series short and says so: good from a tenth of the lag after a change.
        settled = np.all(
            [(at < t) | (at > t + 0.1 * answer["time_constant_min"]) for t, _ in around], axis=0
        )
        for which in ("mean", "core"):
            expected = body.temperature(at, inputs["initial_c"], around, which)
            off = np.abs(np.array(answer[which + "_c"]) - expected) / span
            errors.extend(off[settled])
        return float(max(errors))


class Moved(Topic):
    name = "dough moved between air and water (collocation, profile carried over)"
    topic = "moved"
    kinds = ("bowl",)

    def case(self, random):
        changes = sorted(random.uniform(5, 240) for _ in range(random.randrange(1, 4)))
        around = [
            (at, random.uniform(2, 45), random.choice([1.0, 10 ** random.uniform(-0.3, 1.4)]))
            for at in [0.0, *changes]
        ]
        return {
            "vessel": vessel(random, self.kinds),
            "initial_c": random.uniform(4, 35),
            "around": around,
            "at_min": sorted(random.uniform(0, 400) for _ in range(10)),
        }

    def check(self, inputs, answer):
        body = Body.of(answer["body"])
        around = inputs["around"]
        everything = [inputs["initial_c"], *(c for _, c, _ in around)]
        span = max(max(everything) - min(everything), 1.0)
        errors = []
        for at, mean, core in zip(inputs["at_min"], answer["mean_c"], answer["core_c"]):
            if any(0 <= at - t < 0.1 * answer["time_constant_min"] for t, _, _ in around):
                continue
            expected = body.carried(at, inputs["initial_c"], around)
            errors.append(abs(mean - expected[0]) / span)
            errors.append(abs(core - expected[1]) / span)
        return float(max(errors, default=0.0))


class MovedInTwo(Moved):
    name = "jars, bags and dishes moved likewise (collocation on a grid)"
    kinds = ("jar", "bag", "fridge")
    # Out and in again within a few minutes, the profile that is carried over isn't good yet.
    tolerance = 5e-4


TOPICS = [
    Series(),
    Course(),
    Moved(),
    MovedInTwo(),
]
