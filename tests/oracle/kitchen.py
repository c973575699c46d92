"""Topics about units, water, ice, altitude and mixing."""

import CoolProp.CoolProp as coolprop
import numpy as np
import pint
from iapws._iapws import _Ice
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from topic import Topic, relative

ureg = pint.UnitRegistry()
SEA_LEVEL_PA = 101325.0
HAND_SKIN_C = 33.0


class Units(Topic):
    name = "units (pint)"
    topic = "units"
    tolerance = 1e-9

    def case(self, random):
        return {
            "celsius": random.uniform(-60, 400),
            "fahrenheit": random.uniform(-70, 700),
            "kelvin": random.uniform(-200, 200),
            "grams": random.uniform(0, 100_000),
            "pounds": random.uniform(0, 200),
            "millilitres": random.uniform(0, 1_000_000),
            "millimetres": random.uniform(0, 2000),
            "inches": random.uniform(0, 78),
        }

    # The model's key, what is given, and pint's names of the two units.
    PAIRS = [
        ("kilograms", "grams", "g", "kg"),
        ("ounces", "grams", "g", "avoirdupois_ounce"),
        ("pounds", "grams", "g", "avoirdupois_pound"),
        ("grams", "pounds", "avoirdupois_pound", "g"),
        ("inches", "millimetres", "mm", "inch"),
        ("centimetres", "millimetres", "mm", "cm"),
        ("millimetres", "inches", "inch", "mm"),
    ]
    # In the order in which the model answers.
    MEASURES = [
        "US_liquid_quart",
        "US_pint",
        "US_liquid_cup",
        "US_fluid_ounce",
        "tablespoon",
        "teaspoon",
        "imperial_pint",
        "imperial_fluid_ounce",
    ]

    def check(self, inputs, answer):
        quantity = ureg.Quantity
        volume = quantity(inputs["millilitres"], "mL")
        if len(answer["measures"]) != len(self.MEASURES):
            return float("inf")
        return max(
            *(
                relative(
                    answer[key], quantity(inputs[given], unit).to(wanted).magnitude, least=1e-6
                )
                for key, given, unit, wanted in self.PAIRS
            ),
            *(
                relative(answered, volume.to(measure).magnitude, least=1e-6)
                for answered, measure in zip(answer["measures"], self.MEASURES)
            ),
            relative(
                answer["fahrenheit"],
                quantity(inputs["celsius"], "degC").to("degF").magnitude,
                least=1.0,
            ),
            relative(
                answer["celsius"],
                quantity(inputs["fahrenheit"], "degF").to("degC").magnitude,
                least=1.0,
            ),
            relative(
                answer["fahrenheit_difference"],
                quantity(inputs["kelvin"], "delta_degC").to("delta_degF").magnitude,
                least=1.0,
            ),
        )


class Water(Topic):
    topic = "water"
    key = ""
    symbol = ""

    def case(self, random):
        return {"t_c": random.uniform(0.5, 99)}

    def check(self, inputs, answer):
        expected = coolprop.PropsSI(
            self.symbol, "T", inputs["t_c"] + 273.15, "P", SEA_LEVEL_PA, "Water"
        )
        return relative(answer[self.key] * self.scale, expected)


class WaterHeat(Water):
    name = "water, specific heat (Choi & Okos against CoolProp)"
    key, symbol, scale = "specific_heat_j_gk", "C", 1000.0
    # Another equation: a parabola fitted from −40 to 150 °C, on which ice-cold water (4.22 at
    # 0 °C, where the parabola has 4.18) is 1 % off; elsewhere it is within 0.2 %.
    tolerance = 0.01


class WaterConductivity(Water):
    name = "water, conductivity (Choi & Okos against CoolProp)"
    key, symbol, scale = "conductivity_w_mk", "L", 1.0
    # Another equation. The published constant is 0.57109 at 0 °C, IAPWS has 0.5556: 2.8 %.
    tolerance = 0.03


class WaterDensity(Water):
    name = "water, density (Choi & Okos against CoolProp)"
    key, symbol, scale = "density_kg_m3", "D", 1.0
    # Another equation: published as 997.18 at 0 °C, where water has 999.84: 0.27 %.
    tolerance = 0.003


class Ice(Topic):
    name = "ice for cold water (enthalpies by CoolProp and IAPWS-06)"
    topic = "ice"
    # The model takes one specific heat each for water and ice, good to half a per cent.
    tolerance = 0.01

    def case(self, random):
        tap = random.uniform(8, 28)
        return {
            "total_g": random.uniform(100, 2000),
            "tap_c": tap,
            "wanted_c": random.uniform(0.5, tap - 2),
            "ice_c": random.uniform(-25, -1),
        }

    def check(self, inputs, answer):
        def water(t_c):
            return coolprop.PropsSI("H", "T", t_c + 273.15, "P", SEA_LEVEL_PA, "Water") / 1000

        ice = _Ice(inputs["ice_c"] + 273.15, SEA_LEVEL_PA / 1e6)["h"]
        tap, wanted = water(inputs["tap_c"]), water(inputs["wanted_c"])
        expected = inputs["total_g"] * (tap - wanted) / (tap - ice)
        together = answer["ice_g"] + answer["water_g"]
        return max(
            relative(answer["ice_g"], expected), relative(together, inputs["total_g"])
        )


class Boiling(Topic):
    name = "boiling against altitude (standard atmosphere, CoolProp)"
    topic = "boiling"

    def case(self, random):
        return {"altitude_m": random.uniform(-500, 6000)}

    def check(self, inputs, answer):
        # The barometric formula from the standard atmosphere's own constants.
        lapse, ground, molar, gas, gravity = 0.0065, 288.15, 0.0289644, 8.31432, 9.80665
        ratio = (1 - lapse * inputs["altitude_m"] / ground) ** (gravity * molar / (gas * lapse))
        boiling = coolprop.PropsSI("T", "P", SEA_LEVEL_PA * ratio, "Q", 0, "Water") - 273.15
        return max(
            relative(answer["pressure_ratio"], ratio), relative(answer["boiling_c"], boiling)
        )


RELEASES = {"Flour": ("hydration_j_g", 1), "Sugar": ("sugar_j_g", -1), "Salt": ("salt_j_g", -1)}


def missing_heat(parts, sources, t_c):
    """Heat in J that is missing for all parts to be at t_c."""
    at, share = zip(*sources["milk_fat_melted"])
    total = 0.0
    for part in parts:
        total += part["mass_g"] * part["specific_heat_j_gk"] * (t_c - part["t_c"])
        melts = max(0.0, np.interp(t_c, at, share) - np.interp(part["t_c"], at, share))
        total += part["milk_fat_g"] * melts * sources["milk_fat_j_g"]
        if part["kind"] in RELEASES:
            key, sign = RELEASES[part["kind"]]
            total -= sign * part["mass_g"] * sources[key]
    return total


def dough_parts(random):
    """An enriched dough without its liquid."""
    flour = random.uniform(200, 1200)
    amounts = {
        random.choice(["bread-flour", "all-purpose-flour", "whole-wheat-flour"]): 1.0,
        "egg": random.uniform(0, 0.3),
        "butter": random.uniform(0, 0.4),
        "sugar": random.uniform(0, 0.2),
        "salt": random.uniform(0.015, 0.022),
        random.choice(["yeast-fresh", "yeast-active-dry"]): random.uniform(0.01, 0.04),
    }
    return [
        {"food": food, "mass_g": flour * part, "t_c": random.uniform(3, 28)}
        for food, part in amounts.items()
    ]


class Mixing(Topic):
    name = "mixing: the heat balance (brentq)"
    topic = "mixing"

    def case(self, random):
        liquid = {
            "food": random.choice(["water", "milk"]),
            "mass_g": random.uniform(100, 700),
            "t_c": random.uniform(2, 45),
        }
        return {"parts": [*dough_parts(random), liquid]}

    def check(self, inputs, answer):
        f = lambda t_c: missing_heat(answer["parts"], answer["sources"], t_c)
        expected = brentq(f, -60, 400, xtol=1e-12)
        asked = sum(part["mass_g"] for part in inputs["parts"])
        told = sum(part["mass_g"] for part in answer["parts"])
        return max(relative(answer["mixed_c"], expected, least=10.0), relative(told, asked))


class Liquid(Topic):
    name = "liquid temperature (brentq around solve_ivp of kneading)"
    topic = "liquid"

    def case(self, random):
        return {
            "parts": dough_parts(random),
            "liquid": random.choice(["water", "milk"]),
            "liquid_g": random.uniform(200, 700),
            "target_c": random.uniform(22, 30),
            "kitchen_c": random.uniform(16, 30),
            "method": random.randrange(4),
            "kneading_min": random.uniform(0, 10),
        }

    def check(self, inputs, answer):
        sources, tau = answer["sources"], answer["time_constant_min"]
        touched = inputs["kitchen_c"] + answer["hand_share"] * (HAND_SKIN_C - inputs["kitchen_c"])

        def dough(liquid_c):
            parts = [*answer["parts"], {**answer["liquid"], "t_c": liquid_c}]
            mixed = brentq(lambda t: missing_heat(parts, sources, t), -500, 2000, xtol=1e-11)
            return solve_ivp(
                lambda _, t: (touched - t) / tau + answer["warming_k_min"],
                (0, inputs["kneading_min"]),
                [mixed],
                rtol=1e-10,
                atol=1e-10,
            ).y[0, -1]

        wanted = answer["wanted_c"]
        if -59 < wanted < 399:
            # What the liquid must be is the steeper question; what it makes is asked as well.
            expected = brentq(lambda t: dough(t) - inputs["target_c"], -60, 400, xtol=1e-9)
            return max(
                relative(wanted, expected, least=10.0),
                relative(answer["dough_c"], inputs["target_c"]),
            )
        # At the end of the range: the target really lies beyond it.
        beyond = dough(wanted) - inputs["target_c"]
        return 0.0 if beyond * (1 if wanted < 0 else -1) > -1e-3 else float("inf")


TOPICS = [
    Units(),
    WaterHeat(),
    WaterConductivity(),
    WaterDensity(),
    Ice(),
    Boiling(),
    Mixing(),
    Liquid(),
]
