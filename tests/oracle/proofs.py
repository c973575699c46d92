"""Topics about yeast: its rate, and the window of a proof."""

from math import exp, log, sqrt

import numpy as np
from scipy.integrate import cumulative_simpson, fixed_quad, solve_ivp
from scipy.optimize import brentq, minimize_scalar

from bodies import Body
from heat import SPOTS, doubts_of, history, shifted, vessel, volume_error
from topic import Topic, relative

HORIZON = 5 * 24 * 60.0
DOUGH = (2.0, 38.0, 48.0)
HARDY = (-2.0, 38.0, 48.0)
TENDER = (6.0, 38.0, 48.0)
LAG = 1.3
DOSE_EXPONENT = 0.85
DOSES = (0.25, 2.5)
AROUND = (4.0, 35.0)


def rate(t, cardinals):
    """Rosso, Lobry & Flandrois 1993."""
    low, best, high = cardinals
    t = np.asarray(t, dtype=float)
    inside = (t > low) & (t < high)
    t = np.where(inside, t, best)
    upper = (t - high) * (t - low) ** 2
    lower = (best - low) * (
        (best - low) * (t - best) - (best - high) * (best + low - 2 * t)
    )
    return np.where(inside, upper / lower, 0.0)


class Rate(Topic):
    name = "yeast's rate (the published formula; its maximum by minimize_scalar)"
    topic = "rate"

    def case(self, random):
        low = random.uniform(-2, 8)
        high = random.uniform(42, 50)
        return {
            "t_c": random.uniform(-5, 60),
            "minimum_c": low,
            # The model needs the optimum nearer the maximum.
            "optimum_c": random.uniform((low + high) / 2 + 1, high - 2),
            "maximum_c": high,
        }

    def check(self, inputs, answer):
        cardinals = tuple(inputs[key] for key in ("minimum_c", "optimum_c", "maximum_c"))
        peak = minimize_scalar(
            lambda t: -float(rate(t, cardinals)),
            bounds=(cardinals[0], cardinals[2]),
            method="bounded",
            options={"xatol": 1e-8},
        )
        return max(
            relative(answer["rate"], float(rate(inputs["t_c"], cardinals)), least=1e-3),
            # The formula itself must peak where it says, at 1.
            abs(peak.x - cardinals[1]) * 1e-2,
            abs(-peak.fun - 1),
        )


class Gain:
    """Reference minutes along a dough's course."""

    def __init__(self, inputs, told, dough, cardinals=DOUGH, lag=1.0):
        self.body = Body.of(told, lag=lag)
        self.around = inputs["around"]
        self.dough = dough
        self.cardinals = cardinals
        self.yardstick = max(float(rate(inputs["reference_c"], cardinals)), 1e-3)
        self.breaks = [at for at, _ in self.around] + [HORIZON]

    def speed(self, t):
        mean = self.body.temperature(t, self.dough, self.around, "mean")
        return rate(mean, self.cardinals) / self.yardstick

    def until(self, end):
        """By solve_ivp, from change to change."""
        gained = 0.0
        for low, high in zip(self.breaks, self.breaks[1:]):
            high = min(high, end)
            if high > low:
                done = solve_ivp(
                    lambda t, _: [float(self.speed(t))],
                    (low, high),
                    [0.0],
                    method="DOP853",
                    rtol=1e-9,
                    atol=1e-9,
                    first_step=min(0.01, high - low),
                )
                gained += done.y[0, -1]
        return gained

    def until_by_gauss(self, end):
        """The same by Gauss and Legendre, crowded towards each change: quick enough for a search."""
        gained = 0.0
        for low, high in zip(self.breaks, self.breaks[1:]):
            span = min(high, end) - low
            if span > 0:
                gained += fixed_quad(
                    lambda u: self.speed(low + span * u**3) * 3 * span * u**2, 0.0, 1.0, n=120
                )[0]
        return gained

    def reaches(self, wanted):
        """The minute at which so much is gained, by Simpson's rule on a fine graded grid, or None."""
        if wanted <= 0:
            return 0.0
        gained = 0.0
        for low, high in zip(self.breaks, self.breaks[1:]):
            if high <= low:
                continue
            grid = low + (high - low) * np.linspace(0, 1, 2401) ** 3
            gains = gained + cumulative_simpson(self.speed(grid), x=grid, initial=0.0)
            if gains[-1] >= wanted:
                # The gain may stand still where yeast does; the first crossing counts.
                index = int(np.argmax(gains >= wanted))
                if index == 0:
                    return float(grid[0])
                way = (wanted - gains[index - 1]) / (gains[index] - gains[index - 1])
                return float(grid[index - 1] + way * (grid[index] - grid[index - 1]))
            gained = gains[-1]
        return None


class Proof(Topic):
    name = "proofs: reference minutes (solve_ivp) and windows (Simpson, quadrature of logarithms)"
    topic = "proof"

    def case(self, random):
        likely = random.uniform(30, 180)
        dough = random.uniform(12, 34)
        return {
            "vessel": vessel(random, ("bowl", "piece", "tin")),
            "range_min": [likely * random.uniform(0.7, 1), likely, likely * random.uniform(1, 1.4)],
            "reference_c": random.uniform(20, 30),
            "dough_c": [dough - random.uniform(0, 2), dough, dough + random.uniform(0, 2)],
            "around": history(random, 200, 8, 38),
            "had_min": random.choice([0.0, 0.0, random.uniform(0, 100)]),
            "at_min": random.uniform(5, 400),
        }

    def more(self, inputs, told):
        """The logarithms of the time with other inputs at either end."""
        return []

    def check(self, inputs, answer):
        told = answer["body"]
        had = inputs["had_min"]
        low, likely, high = inputs["range_min"]
        cool, dough, warm = inputs["dough_c"]

        def log_time(wanted=likely, dough=dough, **changed):
            after = Gain(inputs, told, dough, **changed).reaches(wanted - had)
            return log(max(had + (HORIZON if after is None else after), 1 / 60))

        usual = Gain(inputs, told, dough)
        expected = usual.reaches(likely - had)
        stalls = expected is None
        expected = HORIZON if stalls else expected
        middle = log(max(had + expected, 1 / 60))
        pairs = [
            (log_time(wanted=low), log_time(wanted=high)),
            (log_time(dough=cool), log_time(dough=warm)),
            (log_time(cardinals=HARDY), log_time(cardinals=TENDER)),
            (log_time(lag=LAG), log_time(lag=1 / LAG)),
            *self.more(inputs, told),
        ]
        earlier = sqrt(sum(min(0.0, *(one - middle for one in pair)) ** 2 for pair in pairs))
        later = sqrt(sum(max(0.0, *(one - middle for one in pair)) ** 2 for pair in pairs))
        window = [
            min(max(after, 0.0), HORIZON)
            for after in (exp(middle - earlier) - had, expected, exp(middle + later) - had)
        ]
        window[0] = min(window[0], expected)
        window[2] = max(window[2], expected)
        errors = [volume_error(inputs["vessel"], Body.of(told))]
        errors += [relative(*pair, least=10.0) for pair in zip(answer["minutes"], window)]
        at = min(inputs["at_min"], HORIZON)
        errors.append(relative(answer["reference_minutes"], had + usual.until(at), least=10.0))
        errors.append(0.0 if stalls == answer["stalls"] else float("inf"))
        return max(errors)


class ProofInDoubt(Proof):
    """The same where kitchen, fridge and other places may be off.

    An error of a spot moves all its stretches, what it has made of the dough by the start, and what the rise asks for."""

    name = "proofs in surroundings that may be off (Simpson, each spot's error alone)"

    def case(self, random):
        inputs = super().case(random)
        carries = random.random() < 0.5
        return inputs | {
            "doubts": doubts_of(random, inputs["around"]),
            "carried_k": [random.uniform(0, 2.5) if carries else 0.0 for _ in SPOTS],
            "asked": [random.uniform(-0.2, 0.2) if carries else 0.0 for _ in SPOTS],
        }

    def more(self, inputs, told):
        had = inputs["had_min"]
        _, likely, _ = inputs["range_min"]
        _, dough, _ = inputs["dough_c"]

        def log_time(spot, by):
            place = SPOTS.index(spot)
            off = inputs | {"around": shifted(inputs, spot, by)}
            wanted = likely * exp(by * inputs["asked"][place])
            gain = Gain(off, told, dough + by * inputs["carried_k"][place])
            after = gain.reaches(wanted - had)
            return log(max(had + (HORIZON if after is None else after), 1 / 60))

        return [(log_time(spot, -1), log_time(spot, 1)) for spot in SPOTS]


class Backwards(Topic):
    """What makes a proof ready at a moment: its dose, the air around it, or a time in the fridge first."""

    name = "wishes: dose, temperature and time in the fridge (brentq over Gauss, and solve_ivp)"
    topic = "backwards"

    def case(self, random):
        likely = random.uniform(30, 180)
        return {
            "vessel": vessel(random, ("bowl", "piece", "tin")),
            "range_min": [likely, likely, likely],
            "reference_c": random.uniform(20, 30),
            "dough_c": random.uniform(15, 32),
            "kitchen_c": random.uniform(12, 32),
            "fridge_c": random.uniform(1, 8),
            "ready_min": likely * random.uniform(0.2, 1) * random.choice([1, 2, 5]),
        }

    def check(self, inputs, answer):
        told, ready = answer["body"], inputs["ready_min"]
        wanted = inputs["range_min"][1]
        kitchen, fridge = inputs["kitchen_c"], inputs["fridge_c"]

        def gain(*around):
            return Gain({**inputs, "around": around}, told, inputs["dough_c"])

        def over(*around):
            """How much more is gained by the moment than is wanted, in parts of that."""
            return gain(*around).until_by_gauss(ready) / wanted - 1

        def by_air(air):
            return over((0.0, air))

        def by_minutes_in_the_kitchen(minutes):
            return over((0.0, fridge), (ready - minutes, kitchen))

        usual = by_air(kitchen) + 1
        errors = [
            volume_error(inputs["vessel"], Body.of(told)),
            met(answer["times"], lambda times: usual * times**DOSE_EXPONENT - 1, *DOSES, 0.1),
            met(answer["around_c"], by_air, *AROUND, 10.0),
            met(answer["kitchen_min"], by_minutes_in_the_kitchen, 0.0, ready, 10.0),
        ]
        if isinstance(answer["around_c"], float):
            # The search itself must not hang on how the gain is summed.
            gained = gain((0.0, answer["around_c"])).until(ready)
            errors.append(relative(gained, wanted))
        return max(errors)


def met(got, over, low, high, least):
    """The error of an answer between two ends, or of the reason why there is none; `over` rises."""
    # How far an end is from being the answer itself: there it may be given or refused.
    if got == "too early":
        return max(over(high), 0.0)
    if got == "too late":
        return max(-over(low), 0.0)
    if over(high) < 0 or over(low) > 0:
        return max(-over(high), over(low))
    return relative(got, brentq(over, low, high, xtol=1e-10), least)


TOPICS = [Rate(), Proof(), ProofInDoubt(), Backwards()]
