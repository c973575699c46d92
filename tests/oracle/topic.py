"""What every topic has: a name, seeded cases, a check and an allowed error.

Both sides mostly solve the same equations, so that only rounding and the lengths of steps may differ: 1e-4. Looser are,
with what makes the difference (the numbers of each stand at its topic):

- water's specific heat (1e-2), conductivity (3e-2) and density (3e-3): another equation. The model has the parabolas of
  Choi and Okos, the library IAPWS; they differ by as much at 0 °C.
- ice for cold water (1e-2) and frozen liquids (1e-2): the model takes one specific heat each for liquid and frozen, good
  to half a per cent; the libraries have enthalpies.
- bodies of two directions that are moved (5e-4): the model cuts its series short, so a profile that is carried over
  within minutes of another change isn't good yet.
- cooling windows in surroundings that may be off (5e-4): the same, where an end lies seconds after a change.
- the deepest layer (1e-2): the model looks to 0.05 mm, of layers of 5 mm and more.
- bake times elsewhere (3e-4): a surface that is held at boiling has a film that is only nearly endless.
- the middle as it bakes, and windows once it was read (5e-3, which is 0.5 K of a hundred): from a surface that boils on
  the model follows the modes that matter, and that surface comes to boil in one step.

Where a number is small, `relative` takes the error as a part of `least` instead, below which nobody would notice: 5 or
10 min, or 10 °C.
"""

from math import isnan


class Topic:
    """One kind of question to the model.

    `case` draws inputs; `check` returns the relative error of the model's answer.
    """

    name = ""
    topic = ""
    cases = 300
    # Both sides solve the same equations, so only rounding and steps may differ.
    tolerance = 1e-4

    def case(self, random):
        raise NotImplementedError

    def check(self, inputs, answer):
        raise NotImplementedError


def relative(got, expected, least=1e-9):
    """Distance as a part of the expected value, or of `least` where that is larger."""
    if got is None or isnan(got):
        return float("inf")
    return abs(got - expected) / max(abs(expected), least)
