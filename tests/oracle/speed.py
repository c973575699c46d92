"""How long the model takes, against SciPy on the same trajectories.

    python3 tests/oracle/speed.py

The windows of a day of filled buns: two proofs of nine trajectories each, and
cream and buns that cool, of three each. SciPy solves the heat equation of every
trajectory on shells (`solve_ivp`, LSODA), integrates the yeast's rate along it
(`quad`) and finds the end (`brentq`). Both must come to the same windows. Not a
part of any suite: times tell about the machine as well. Closes with the ratio.
"""

import sys
from math import exp, log, sqrt
from time import perf_counter

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from bodies import DIMENSION, Body
from proofs import DOUGH, HARDY, LAG, TENDER, rate
from run import ask

SHELLS = 40
HORIZON = 24 * 60.0
FILM = 1.3
# Shells of one fortieth are off by some parts in ten thousand; `run.py` holds the model to as little.
AGREEMENT = 1e-3


def day():
    """The questions of a kitchen at 22 °C."""
    air = [(0.0, 22.0)]
    bowl = {"kind": "bowl", "mass_g": 680.0, "depth_mm": 0.0}
    bun = {"kind": "piece", "mass_g": 130.0, "depth_mm": 0.0}

    def proof(vessel, minutes, dough):
        return {
            "topic": "proof",
            "inputs": {
                "vessel": vessel,
                "range_min": minutes,
                "reference_c": 25.0,
                "dough_c": [dough - 0.5, dough, dough + 0.5],
                "around": air,
                "had_min": 0.0,
                "at_min": 30.0,
            },
        }

    def cools(kind, mass, depth, start, end, around):
        vessel = {"kind": kind, "mass_g": mass, "depth_mm": depth}
        inputs = {"vessel": vessel, "from_c": start, "to_c": end, "around": [(0.0, around)]}
        return {"topic": "cooling_window", "inputs": inputs}

    return [
        proof(bowl, [75.0, 90.0, 110.0], 25.0),
        proof(bun, [48.0, 58.0, 70.0], 23.0),
        cools("ice_bath", 360.0, 15.0, 80.0, 5.0, 1.0),
        cools("baked", 130.0, 0.0, 95.0, 35.0, 22.0),
    ]


def step(body, shape, length, horizon):
    """What is left of a step along one direction, over time: its centre and its mean."""
    dimensions = DIMENSION[shape] + 1
    edges = np.linspace(0, 1, SHELLS + 1)
    volumes = np.diff(edges**dimensions) / dimensions
    areas = edges ** (dimensions - 1)
    width = 1 / SHELLS
    biot = body.film * length / body.conductivity
    # From the middle of the last shell to the air: half a shell, and the film.
    out = 1 / (width / 2 + 1 / biot)
    per_minute = 60 * body.conductivity / body.heat_j_m3k / length**2 / body.lag

    def change(_, left):
        flow = np.zeros(SHELLS + 1)
        flow[1:-1] = areas[1:-1] * np.diff(left) / width
        flow[-1] = -out * left[-1]
        return per_minute * np.diff(flow) / volumes

    solved = solve_ivp(
        change,
        (0, horizon),
        np.ones(SHELLS),
        method="LSODA",
        lband=1,
        uband=1,
        rtol=1e-6,
        atol=1e-8,
        dense_output=True,
    ).sol
    return {
        "core": lambda t: solved(t)[0],
        "mean": lambda t: float(solved(t) @ volumes) * dimensions,
    }


def temperature(body, which, start, around, horizon):
    along = [step(body, shape, length, horizon)[which] for shape, length in body.axes]
    return lambda t: around + (start - around) * float(np.prod([one(t) for one in along]))


def log_proof(told, inputs, wanted, dough, cardinals=DOUGH, lag=1.0):
    [(_, around)] = inputs["around"]
    mean = temperature(Body.of(told, lag=lag), "mean", dough, around, 400.0)
    yardstick = float(rate(inputs["reference_c"], cardinals))
    speed = lambda t: float(rate(mean(t), cardinals)) / yardstick
    gained = lambda t: quad(speed, 0, t, epsabs=1e-4, epsrel=1e-6)[0]
    return log(brentq(lambda t: gained(t) - wanted, 1.0, 399.0, xtol=1e-3))


def proof_window(told, inputs):
    low, likely, high = inputs["range_min"]
    cool, dough, warm = inputs["dough_c"]
    middle = log_proof(told, inputs, likely, dough)
    pairs = [
        (log_proof(told, inputs, low, dough), log_proof(told, inputs, high, dough)),
        (log_proof(told, inputs, likely, cool), log_proof(told, inputs, likely, warm)),
        (
            log_proof(told, inputs, likely, dough, HARDY),
            log_proof(told, inputs, likely, dough, TENDER),
        ),
        (
            log_proof(told, inputs, likely, dough, lag=LAG),
            log_proof(told, inputs, likely, dough, lag=1 / LAG),
        ),
    ]
    earlier = sqrt(sum(min(0.0, *(one - middle for one in pair)) ** 2 for pair in pairs))
    later = sqrt(sum(max(0.0, *(one - middle for one in pair)) ** 2 for pair in pairs))
    return [exp(middle - earlier), exp(middle), exp(middle + later)]


def cooling_window(told, inputs):
    [(_, around)] = inputs["around"]

    def reaches(film):
        body = Body.of(told, film_factor=film)
        core = temperature(body, "core", inputs["from_c"], around, 400.0)
        return brentq(lambda t: core(t) - inputs["to_c"], 1.0, 399.0, xtol=1e-3)

    return [reaches(film) for film in (FILM, 1.0, 1 / FILM)]


def main():
    questions = day()
    timed = ask(
        [{"topic": "timed", "inputs": {"question": one, "times": 2000}} for one in questions],
    )
    ours = theirs = 0.0
    agree = True
    for question, answer in zip(questions, timed):
        told, inputs = answer["answer"]["body"], question["inputs"]
        solve = proof_window if question["topic"] == "proof" else cooling_window
        start = perf_counter()
        window = solve(told, inputs)
        took = perf_counter() - start
        apart = max(
            abs(one - other) / other for one, other in zip(answer["answer"]["minutes"], window)
        )
        agree &= apart <= AGREEMENT
        ours += answer["seconds"]
        theirs += took
        name = f"{question['topic'].replace('_', ' ')}, {inputs['vessel']['kind']}"
        print(
            f"{name}: {1e6 * answer['seconds']:.0f} µs, SciPy {1e3 * took:.0f} ms;"
            f" windows within {apart:.1e}"
        )
    print(
        f"the day's windows: {1e3 * ours:.3f} ms, SciPy {1e3 * theirs:.0f} ms:"
        f" {ours / theirs:.1e} times SciPy's"
    )
    if not agree:
        print(f"the windows differ by more than {AGREEMENT}")
    return 0 if agree else 1


if __name__ == "__main__":
    sys.exit(main())
