"""How much of a nut's effect its neighbour gets, for jaws in the proportions that presses are assumed to have.

    pip install numpy                (made with numpy 2.4.6)
    python3 tests/oracle/neighbours.py

Finite differences of the energy, not elements: the jaw of 1800 mm with six arms 300 mm apart, w at
many even points, minimise 1/2 sum EI (w'')^2 h + 1/2 sum_i k (w(x_i) - u_i)^2 + 1/2 sum k_f w^2 h
(trapezoidal ends), with k = 1, a = 300, EI = a^3 / kappa, k_f = rho / a. Two step sizes and
Richardson's extrapolation for an error of order h^2.
"""

import numpy as np


def share(kappa, rho, per_span):
    a = 1.0
    points = 6 * per_span + 1
    h = 6.0 * a / (points - 1)
    arms = [per_span // 2 + per_span * i for i in range(6)]
    ei, kf = a**3 / kappa, rho / a
    w = np.zeros((points, points))
    second = np.zeros((points - 2, points))
    for i in range(points - 2):
        second[i, i : i + 3] = np.array([1.0, -2.0, 1.0]) / h**2
    # Free ends: the curvature is zero there, so the end half-steps bring nothing.
    w += ei * h * second.T @ second
    weights = np.full(points, h)
    weights[[0, -1]] = h / 2
    w += np.diag(kf * weights)
    for arm in arms:
        w[arm, arm] += 1.0
    load = np.zeros(points)
    load[arms[2]] = 1.0
    deflection = np.linalg.solve(w, load)
    return deflection[arms[3]] / deflection[arms[2]]


for kappa in [3.0, 8.0, 20.0, 70.0]:
    row = []
    for rho in [0.0, 0.1, 0.3]:
        coarse, fine = share(kappa, rho, 80), share(kappa, rho, 160)
        row.append(round(float(fine + (fine - coarse) / 3), 5))
    print(kappa, row)
