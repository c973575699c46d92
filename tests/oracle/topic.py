"""What every topic has: a name, seeded cases, a check and an allowed error."""

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
