"""Topics about liquid that is frozen, and flour that is chilled."""

import CoolProp.CoolProp as coolprop
import numpy as np
from iapws._iapws import _Ice
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from bodies import Body
from kitchen import HAND_SKIN_C, SEA_LEVEL_PA, dough_parts, missing_heat
from topic import Topic, relative

FREEZER_C = -18.0
FUSION_J_G = 333.43
COLD_WATER_J_GK = 4.1952
ICE_J_GK = 2.03


class FrozenSplit(Topic):
    name = "frozen liquid: how much (brentq on enthalpies by CoolProp and IAPWS-06)"
    topic = "split"
    # The model takes one specific heat each for liquid and frozen: half a per cent, as for ice, and
    # as much again in what the liquids come to before anything is frozen.
    tolerance = 0.01

    def case(self, random):
        liquids = [
            {
                "food": random.choice(["water", "milk", "milk-reduced-fat", "cream", "orange-juice"]),
                "mass_g": random.uniform(50, 500),
                "coldest_c": random.uniform(4, 18),
            }
            for _ in range(random.choice([1, 1, 2, 3]))
        ]
        chilled = min(liquid["coldest_c"] for liquid in liquids)
        return {
            "liquids": liquids,
            "which": random.randrange(len(liquids)),
            "wanted_c": random.uniform(0.5, chilled - 2.5),
        }

    def check(self, inputs, answer):
        def water(t_c):
            return coolprop.PropsSI("H", "T", t_c + 273.15, "P", SEA_LEVEL_PA, "Water") / 1000

        def solids(liquid):
            # What is not water, by the model's own heat of the whole and Choi and Okos' of water at 20 °C.
            return liquid["specific_heat_j_gk"] - liquid["water"] * 4.17657

        def held(liquid, t_c):
            return liquid["water"] * water(t_c) + solids(liquid) * t_c

        def held_frozen(liquid):
            ice = _Ice(FREEZER_C + 273.15, SEA_LEVEL_PA / 1e6)["h"]
            return liquid["water"] * ice + solids(liquid) * FREEZER_C

        liquids = answer["liquids"]
        which = liquids[inputs["which"]]
        together = sum(one["mass_g"] * held(one, inputs["wanted_c"]) for one in liquids)

        def surplus(frozen_g):
            before = sum(one["mass_g"] * held(one, one["t_c"]) for one in liquids)
            before += frozen_g * (held_frozen(which) - held(which, which["t_c"]))
            return before - together

        # Never more than there is.
        most = which["mass_g"]
        expected = most if surplus(most) > 0 else brentq(surplus, 0, most, xtol=1e-12)
        return max(
            relative(answer["frozen_g"], expected, least=1.0),
            relative(answer["frozen_g"] + answer["rest_g"], most),
        )


class FrozenDough(Topic):
    name = "frozen liquid: the dough of both its parts (brentq, solve_ivp)"
    topic = "frozen_dough"

    def case(self, random):
        kitchen = random.uniform(26, 36)
        parts = [{**part, "t_c": kitchen} for part in dough_parts(random)]
        return {
            "parts": parts,
            "liquid": {
                "food": random.choice(["milk", "cream", "orange-juice"]),
                "mass_g": parts[0]["mass_g"] * random.uniform(0.4, 0.65),
                # Cream's fat begins to melt at 5 °C, which the model's balance of the liquid leaves out.
                "coldest_c": random.uniform(2, 5),
            },
            "target_c": random.uniform(22, 27),
            "kitchen_c": kitchen,
            # Stand mixer, food processor, fold only.
            "method": random.randrange(1, 4),
            "kneading_min": random.uniform(0.5, 10),
        }

    def check(self, inputs, answer):
        sources, liquid = answer["sources"], answer["liquid"]
        frozen_g = answer["frozen_g"]
        liquid_heat, water = liquid["specific_heat_j_gk"], liquid["water"]
        frozen_heat = liquid_heat - water * (COLD_WATER_J_GK - ICE_J_GK)
        # Milk fat is as solid frozen as it is in the fridge.
        rest = {**liquid, "mass_g": liquid["mass_g"] - frozen_g}

        def missing(t_c):
            to_melt = -FREEZER_C * frozen_heat + water * FUSION_J_G + liquid_heat * t_c
            fat_g = liquid["milk_fat_g"]
            at, share = zip(*sources["milk_fat_melted"])
            melts = max(0.0, np.interp(t_c, at, share) - np.interp(FREEZER_C, at, share))
            thawing = frozen_g * to_melt + fat_g * melts * sources["milk_fat_j_g"]
            return missing_heat([*answer["parts"], {**rest, "milk_fat_g": 0.0}], sources, t_c) + thawing

        mixed = brentq(missing, -60, 200, xtol=1e-12)
        tau = answer["time_constant_min"]
        touched = inputs["kitchen_c"] + answer["hand_share"] * (HAND_SKIN_C - inputs["kitchen_c"])
        dough = solve_ivp(
            lambda _, t: (touched - t) / tau + answer["warming_k_min"],
            (0, inputs["kneading_min"]),
            [mixed],
            rtol=1e-10,
            atol=1e-10,
        ).y[0, -1]
        if frozen_g == 0.0:
            # Chilling will do, or the liquid has to be warmed: not what is asked here.
            return 0.0 if answer["reach"] in ("OnTarget", "Frozen") else float("inf")
        reaches = relative(dough, inputs["target_c"]) if answer["reach"] == "Frozen" else 0.0
        return max(relative(answer["dough_c"], dough), reaches)


class Flour(Topic):
    name = "flour in the fridge and the freezer (Chebyshev collocation, brentq)"
    topic = "flour"

    def case(self, random):
        around = random.choice([random.uniform(2, 7), random.uniform(-22, -15)])
        start = random.uniform(17, 35)
        return {
            "from_c": start,
            "around_c": around,
            "to_c": random.uniform(max(around, 0) + 1.5, start - 1),
        }

    def check(self, inputs, answer):
        start, around, wanted = inputs["from_c"], inputs["around_c"], inputs["to_c"]

        def takes(which=None, factor=1.0):
            told = dict(answer["body"])
            if which is not None:
                told[which] *= factor
            body = Body.of(told)

            def above(minutes):
                return around + (start - around) * float(body.ratio(minutes, "mean")) - wanted

            return brentq(above, 0, 600, xtol=1e-10) if above(600) < 0 else 600.0

        likely = takes()
        unsure = {"conductivity_w_mk": 0.28, "density_kg_m3": 0.11, "film_w_m2k": 0.3}
        apart = [
            takes(which, 1 + sign * part) - likely
            for which, part in unsure.items()
            for sign in (-1, 1)
        ]
        earlier = np.sqrt(sum(min(0.0, one) ** 2 for one in apart))
        later = np.sqrt(sum(max(0.0, one) ** 2 for one in apart))
        window = [max(0.0, likely - earlier), likely, likely + later]
        return max(relative(*pair, least=5.0) for pair in zip(answer["minutes"], window))


TOPICS = [FrozenSplit(), FrozenDough(), Flour()]
