"""Bodies that cool or warm, reckoned another way than the model does.

The model sums a series of modes. Here the heat equation is solved by Chebyshev
collocation in s = (x / L)**2, in which the slab (d = 0), the cylinder (1) and
the sphere (2) share one operator without a singularity at the centre:

    du/dFo = 4 s u_ss + 2 (1 + d) u_s,    2 u_s = -Bi u  at s = 1

A history of surroundings is the superposition of answers to steps (Duhamel).
"""

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np
from scipy.interpolate import BarycentricInterpolator
from scipy.optimize import brentq

DIMENSION = {"slab": 0, "cylinder": 1, "sphere": 2}
NODES = 56


def _chebyshev(n):
    """Nodes from 0 to 1 and the differentiation matrix (Trefethen 2000, ch. 6)."""
    k = np.arange(n + 1)
    x = -np.cos(pi * k / n)
    c = np.hstack([2, np.ones(n - 1), 2]) * (-1.0) ** k
    dx = x[:, None] - x[None, :] + np.eye(n + 1)
    d = np.outer(c, 1 / c) / dx
    d -= np.diag(d.sum(axis=1))
    return (x + 1) / 2, 2 * d


class Line:
    """One direction: the ratio left of a step, at the centre and on average."""

    def __init__(self, shape, biot):
        d = DIMENSION[shape]
        s, first = _chebyshev(NODES)
        second = first @ first
        operator = 4 * s[:, None] * second + 2 * (1 + d) * first
        # The boundary condition gives the last node from the others.
        edge = -2 * first[-1, :-1] / (2 * first[-1, -1] + biot)
        reduced = operator[:-1, :-1] + np.outer(operator[:-1, -1], edge)
        values, vectors = np.linalg.eig(reduced)
        start = np.linalg.solve(vectors, np.ones(NODES, dtype=complex))
        whole = np.vstack([vectors, edge @ vectors])

        x, w = np.polynomial.legendre.leggauss(64)
        x, w = (x + 1) / 2, w / 2
        along = BarycentricInterpolator(s, np.eye(NODES + 1))(x * x)
        mean = (w * (d + 1) * x**d) @ along

        # The heat equation only decays; what is imaginary is rounding.
        self.rates = -values.real
        self.centre_weights = (whole[0] * start).real
        self.mean_weights = ((mean @ whole) * start).real

        self.values, self.vectors, self.whole, self.mean = values, vectors, whole, mean

    def ratio(self, weights, fourier):
        decays = np.exp(-np.multiply.outer(np.asarray(fourier, dtype=float), self.rates))
        return decays @ weights

    def after(self, profile, fourier):
        """The profile at the inner nodes, measured from the surroundings, so much later; with centre and mean.

        A profile with more directions is taken along its first."""
        along = np.linalg.solve(self.vectors, profile.astype(complex))
        along = (along.T * np.exp(self.values * fourier)).T
        everywhere = (self.whole @ along).real
        return everywhere[:-1], everywhere[0], self.mean @ everywhere


@lru_cache(maxsize=None)
def line(shape, biot):
    return Line(shape, biot)


@dataclass
class Body:
    """A body as the model describes it, with its film made stronger and its lags longer by factors."""

    axes: list
    volume_m3: float
    density: float
    conductivity: float
    heat_j_m3k: float
    film: float
    lag: float = 1.0

    @classmethod
    def of(cls, told, film_factor=1.0, lag=1.0):
        radius = (told["radius_mm"] or 0) / 1000
        length = (told["length_mm"] or 0) / 1000
        axes, volume = {
            "sphere": ([("sphere", radius)], 4 / 3 * pi * radius**3),
            "stick": ([("cylinder", radius)], float("nan")),
            "layer": ([("slab", length)], float("nan")),
            "dish": ([("cylinder", radius), ("slab", length)], pi * radius**2 * length),
            "roll": ([("cylinder", radius), ("slab", length / 2)], pi * radius**2 * length),
        }[told["form"]]
        return cls(
            axes=axes,
            volume_m3=volume,
            density=told["density_kg_m3"],
            conductivity=told["conductivity_w_mk"],
            heat_j_m3k=told["density_kg_m3"] * told["specific_heat_j_gk"] * 1000,
            film=told["film_w_m2k"] * film_factor,
            lag=lag,
        )

    def ratio(self, minutes, which):
        """What is left of a step, minutes after it; 1 before it."""
        minutes = np.asarray(minutes, dtype=float)
        seconds = np.maximum(minutes, 0) * 60 / self.lag
        area_per_volume = sum((DIMENSION[shape] + 1) / length for shape, length in self.axes)
        if self.film / (self.conductivity * area_per_volume) < 0.1:
            return np.exp(-seconds * self.film * area_per_volume / self.heat_j_m3k)
        left = 1.0
        for shape, length in self.axes:
            one = line(shape, self.film * length / self.conductivity)
            fourier = self.conductivity / self.heat_j_m3k * seconds / length**2
            weights = one.mean_weights if which == "mean" else one.centre_weights
            left = left * one.ratio(weights, fourier)
        return np.where(minutes <= 0, 1.0, left)

    def temperature(self, minutes, initial, around, which):
        """Temperature after a history `around` of (minute, °C), the first from the beginning."""
        minutes = np.asarray(minutes, dtype=float)
        now = around[0][1] + (initial - around[0][1]) * self.ratio(minutes, which)
        for (_, before), (at, after) in zip(around, around[1:]):
            now = now + (after - before) * (1 - self.ratio(minutes - at, which))
        return now

    def carried(self, at, initial, around):
        """Mean and centre at a minute, through `around` of (minute, °C, factor on the film).

        The profile is carried over a change of the film as it is, on a grid over both directions."""
        area_per_volume = sum((DIMENSION[shape] + 1) / length for shape, length in self.axes)
        profile = np.full([NODES] * len(self.axes), float(initial))
        mean = centre = float(initial)
        for index, (begin, around_c, times) in enumerate(around):
            if begin >= at:
                break
            minutes = min([at, *(t for t, _, _ in around[index + 1 :])]) - begin
            film = self.film * times
            if film / (self.conductivity * area_per_volume) < 0.1:
                # One temperature throughout.
                left = np.exp(-minutes * 60 * film * area_per_volume / self.heat_j_m3k)
                mean = centre = around_c + (mean - around_c) * left
                profile = np.full_like(profile, mean)
                continue
            gaps = [profile - around_c] * 3
            for shape, length in self.axes:
                one = line(shape, film * length / self.conductivity)
                fourier = self.conductivity / self.heat_j_m3k * minutes * 60 / length**2
                # The whole, what is left of it at the centre of the directions so far, and on average over them.
                gaps = [
                    np.moveaxis(one.after(gaps[0], fourier)[0], 0, -1),
                    one.after(gaps[1], fourier)[1],
                    one.after(gaps[2], fourier)[2],
                ]
            profile = gaps[0] + around_c
            centre, mean = float(gaps[1]) + around_c, float(gaps[2]) + around_c
        return mean, centre

    def first_crossing(self, target, initial, around, horizon, begin=0.0):
        """The first minute from `begin` at which the core is at or below `target`, or None."""

        def above(t):
            return float(self.temperature(t, initial, around, "core")) - target

        if above(begin) < 1e-6:
            return begin
        grid = begin + np.concatenate([np.geomspace(1e-3, horizon - begin, 4000)])
        core = self.temperature(grid, initial, around, "core") - target
        below = np.flatnonzero(core <= 0)
        if below.size == 0:
            return None
        index = below[0]
        low = grid[index - 1] if index else begin
        return brentq(above, low, grid[index], xtol=1e-10)
