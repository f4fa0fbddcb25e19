"""Work-precision points of SciPy's Radau (order 5) with analytic Jacobians on
the problems of numeric/problems, in the columns of cvode.c. The right-hand
sides are Python, so the times say what a script pays, not what the method
costs."""
import time
import warnings

import numpy as np
import scipy
from scipy.integrate import solve_ivp


def rober(t, y):
    a, b, c = 0.04 * y[0], 1e4 * y[1] * y[2], 3e7 * y[1] * y[1]
    return [-a + b, a - b - c, c]


def rober_jac(t, y):
    return np.array([
        [-0.04, 1e4 * y[2], 1e4 * y[1]],
        [0.04, -1e4 * y[2] - 6e7 * y[1], -1e4 * y[1]],
        [0, 6e7 * y[1], 0]])


def hires(t, y):
    r = 280 * y[5] * y[7]
    d6 = r - 1.81 * y[6]
    return [
        -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007,
        1.71 * y[0] - 8.75 * y[1],
        -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4],
        8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3],
        -1.745 * y[4] + 0.43 * (y[5] + y[6]),
        -r + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6],
        d6,
        -d6]


def hires_jac(t, y):
    j = np.zeros((8, 8))
    a, b = 280 * y[7], 280 * y[5]
    j[0, 0:3] = -1.71, 0.43, 8.32
    j[1, 0:2] = 1.71, -8.75
    j[2, 2:5] = -10.03, 0.43, 0.035
    j[3, 1:4] = 8.32, 1.71, -1.12
    j[4, 4:7] = -1.745, 0.43, 0.43
    j[5, 3:8] = 0.69, 1.71, -a - 0.43, 0.69, -b
    j[6, 5:8] = a, -1.81, b
    j[7, 5:8] = -a, 1.81, -b
    return j


def orego(t, y):
    return [77.27 * (y[1] + y[0] * (1 - 8.375e-6 * y[0] - y[1])),
            (y[2] - (1 + y[0]) * y[1]) / 77.27,
            0.161 * (y[0] - y[2])]


def orego_jac(t, y):
    return np.array([
        [77.27 * (1 - 2 * 8.375e-6 * y[0] - y[1]), 77.27 * (1 - y[0]), 0],
        [-y[1] / 77.27, -(1 + y[0]) / 77.27, 1 / 77.27],
        [0.161, 0, -0.161]])


def vdpol(t, y):
    return [y[1], 1000 * (1 - y[0] * y[0]) * y[1] - y[0]]


def vdpol_jac(t, y):
    return np.array([[0, 1], [-2000 * y[0] * y[1] - 1, 1000 * (1 - y[0] * y[0])]])


PROBLEMS = [
    ("ROBER", rober, rober_jac, [1, 0, 0], 1e11, 1e-14,
     [0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050]),
    ("HIRES", hires, hires_jac, [1, 0, 0, 0, 0, 0, 0, 0.0057], 321.8122, 1e-4,
     [0.7371312573325668e-3, 0.1442485726316185e-3, 0.5888729740967575e-4, 0.1175651343283149e-2,
      0.2386356198831331e-2, 0.6238968252742796e-2, 0.2849998395185769e-2, 0.2850001604814231e-2]),
    ("OREGO", orego, orego_jac, [1, 2, 3], 360, 1e-2,
     [1.000814870318523, 1228.178521549917, 132.0554942846706]),
    ("VDPOL", vdpol, vdpol_jac, [2, 0], 2000, 1e-4,
     [1.706167732170469, -0.8928097010248125e-3]),
]

warnings.filterwarnings("ignore")
print("# Radau of SciPy", scipy.__version__)
for name, f, jac, y0, end, scale, ref in PROBLEMS:
    for k in range(4, 23):  # rtol 1e-2 to 1e-11 in half decades
        rtol = 10 ** (-k / 2)
        best = np.inf
        for _ in range(3):
            t0 = time.process_time()
            r = solve_ivp(f, (0, end), y0, method="Radau", jac=jac, rtol=rtol, atol=rtol * scale)
            best = min(best, time.process_time() - t0)
        if not r.success:
            continue
        err = np.max(np.abs(r.y[:, -1] / np.array(ref) - 1))
        print(f"Radau,{name},{rtol:.3e},{rtol * scale:.3e},{err:.3e},{best:.4e},{r.t.size - 1},{r.nfev},{r.njev}", flush=True)
