"""The curve through even values, against the functions that the values were taken from."""

import numpy as np
import pytest

from core.sky.even_curve import NODES, EvenCurve


def test_a_polynomial_of_the_seventh_degree_is_met_everywhere() -> None:
    polynomial = np.polynomial.Polynomial([3.0, -1.0, 0.5, 0.25, -0.125, 0.0625, 0.01, -0.002])
    nodes = np.arange(12.0)
    curve = EvenCurve(0.0, 1.0, polynomial(nodes)[:, np.newaxis])
    at = np.linspace(0.0, 11.0, 301)
    assert curve(at)[0] == pytest.approx(polynomial(at), rel=1e-9, abs=1e-6)


def test_a_circle_is_met_closely_between_the_middle_nodes() -> None:
    step = 0.25
    nodes = 100.0 + step * np.arange(40)
    curve = EvenCurve(100.0, step, np.column_stack([np.cos(nodes), np.sin(nodes)]))
    at = np.linspace(nodes[3], nodes[-4], 997)
    assert np.abs(curve(at) - np.stack([np.cos(at), np.sin(at)])).max() < 1e-7


def test_the_values_themselves_come_back_and_any_shape_may_be_asked() -> None:
    values = np.random.default_rng(7).normal(size=(NODES + 5, 3))
    curve = EvenCurve(-2.0, 0.5, values)
    nodes = -2.0 + 0.5 * np.arange(NODES + 5, dtype=np.float64)
    assert pytest.approx(values, abs=1e-9) == curve(nodes).T
    four_by_three = np.asarray(nodes[:12].reshape(3, 4), dtype=np.float64)
    assert curve(four_by_three).shape == (3, 3, 4)
