"""Topics about cooling: the two-stage rule, and windows with their spread."""

from math import isfinite

import numpy as np
from scipy.optimize import brentq

from bodies import Body
from heat import SPOTS, doubts_of, history, shifted, vessel
from topic import Topic, relative


class TwoStage(Topic):
    name = "two-stage cooling (brentq on the core)"
    topic = "two_stage"

    def case(self, random):
        around = history(random, 120, 0, 4.5)
        if random.random() < 0.5:
            around = [(0.0, random.uniform(16, 28)), (random.uniform(5, 90), around[0][1])]
        return {
            "vessel": vessel(random, ("fridge", "ice_bath", "stirred")),
            # From just above 57 °C the clock starts within seconds, where collocation itself
            # still ripples from the jump at the surface.
            "initial_c": random.choice([random.uniform(30, 57), random.uniform(59, 95)]),
            "around": around,
        }

    def check(self, inputs, answer):
        body = Body.of(answer["body"])

        def cooled(target, begin):
            if begin is None:
                return None
            return body.first_crossing(
                target, inputs["initial_c"], inputs["around"], 2880.0, begin
            )

        hot = cooled(57.0, 0.0)
        warm = cooled(21.0, hot)
        cold = cooled(5.0, warm)
        errors = []
        for said, t in ((answer["minutes_to_21"], warm), (answer["minutes_to_5"], cold)):
            if t is None or said is None:
                errors.append(0.0 if t is None and said is None else float("inf"))
            else:
                errors.append(relative(said, t - hot, least=10.0))
        passes = warm is not None and cold is not None
        passes = passes and warm - hot <= 120 and cold - hot <= 360
        margin = min(abs((warm or 0) - (hot or 0) - 120), abs((cold or 0) - (hot or 0) - 360))
        if passes != answer["passes"] and margin > 0.05:
            errors.append(float("inf"))
        return max(errors)


class CoolingWindow(Topic):
    name = "cooling windows (film ±30 %, collocation)"
    topic = "cooling_window"

    def case(self, random):
        around = random.uniform(0, 24)
        return {
            "vessel": vessel(random, ("fridge", "ice_bath", "baked", "stirred")),
            "from_c": random.uniform(50, 97),
            "to_c": around + random.uniform(2, 20),
            "around": [(0.0, around)],
        }

    def check(self, inputs, answer):
        errors = []
        for said, factor in zip(answer["minutes"], (1.3, 1.0, 1 / 1.3)):
            body = Body.of(answer["body"], film_factor=factor)
            t = body.first_crossing(inputs["to_c"], inputs["from_c"], inputs["around"], 2880.0)
            errors.append(relative(said, 2880.0 if t is None else t, least=5.0))
        return max(errors)


class CoolingWindowInDoubt(CoolingWindow):
    """One error of a spot moves all its stretches together; likely ends are logarithms in quadrature."""

    name = "cooling windows in surroundings that may be off (collocation, each error alone)"
    # An end within seconds of a change, where the model's shortened series isn't good yet.
    tolerance = 5e-4

    def case(self, random):
        around = history(random, 120, 0, 24)
        # What it comes to where it is first can be colder than where it is last.
        return {
            "vessel": vessel(random, ("fridge", "ice_bath", "baked", "stirred")),
            "from_c": random.uniform(50, 97),
            "to_c": random.choice(around)[1] + random.uniform(1, 20),
            "around": around,
            "doubts": doubts_of(random, around),
        }

    def check(self, inputs, answer):
        least, horizon = 1 / 60, 2880.0

        def after(factor=1.0, around=inputs["around"]):
            body = Body.of(answer["body"], film_factor=factor)
            t = body.first_crossing(inputs["to_c"], inputs["from_c"], around, horizon)
            return horizon if t is None else t

        likely = after()
        ends = [after(1.3), after(1 / 1.3)]
        ends += [after(around=shifted(inputs, spot, by)) for spot in SPOTS for by in (-1, 1)]
        logs = np.log(np.maximum(ends, least) / max(likely, least))
        earlier, later = (np.sqrt(np.sum(side**2)) for side in (np.minimum(logs, 0), np.maximum(logs, 0)))
        window = [likely * np.exp(-earlier), likely, min(likely * np.exp(later), horizon)]
        return max(relative(*pair, least=5.0) for pair in zip(answer["minutes"], window))


class Deepest(Topic):
    name = "deepest layer that passes (brentq on both limits)"
    topic = "deepest"
    # The model looks to 0.05 mm; these layers are 5 mm and more.
    tolerance = 0.01

    def case(self, random):
        return {"ice_bath": random.random() < 0.5, "around_c": random.uniform(0, 4.7)}

    def check(self, inputs, answer):
        film = 200.0 if inputs["ice_bath"] else 10.0
        told = {
            "form": "layer",
            "radius_mm": None,
            "conductivity_w_mk": 0.54,
            "density_kg_m3": 1053.0,
            "specific_heat_j_gk": 3.663,
            "film_w_m2k": film,
        }

        def spare_k(depth_mm):
            body = Body.of({**told, "length_mm": depth_mm})
            around = [(0.0, inputs["around_c"])]
            first = 21.0 - body.temperature(120.0, 57.0, around, "core")
            both = 5.0 - body.temperature(360.0, 57.0, around, "core")
            return float(min(first, both))

        expected = brentq(spare_k, 1.0, 200.0, xtol=1e-6)
        if answer["depth_mm"] is None:
            return 0.0 if expected < 2.0 else float("inf")
        error = relative(answer["depth_mm"], expected, least=5.0)
        return error if isfinite(error) else float("inf")


TOPICS = [
    TwoStage(),
    CoolingWindow(),
    CoolingWindowInDoubt(),
    Deepest(),
]
