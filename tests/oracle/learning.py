"""Learning as plain Bayesian linear regression, and the spread of the next piece by Monte Carlo.

    pip install numpy                (made with numpy 2.4.6)
    python3 tests/oracle/learning.py

Everything about three passes on a press with two arms and three stations is written as one normal
vector: responses, profile, and shift and tilt of every piece as unknowns of their own. Posterior:
S = (P^-1 + H' R^-1 H)^-1, m = S (P^-1 m0 + H' R^-1 y) (Bishop, Pattern Recognition and Machine
Learning, 2006, eq. 3.50 and 3.51: cited from memory; it is the conditional normal). Lengths in
micrometres. A reading's variance REPEATABILITY^2 holds its rounding; of that the repeats of a place share
rho, the variance over all places of what rounded readings tend to (Fourier series of the rounding error's
mean; Widrow and Kollar, Quantization Noise, 2008: from memory). The model's numbers stand again in tests/learn_oracle.rs.
"""

import numpy as np

ARMS, STATIONS = 2, 3
ALONG = np.array([-0.5, 0.0, 0.5])
# Response per notch OUT of arm A and B, as expected and its standard deviation.
B_MEAN = np.array([[80.0, 20.0], [45.0, 45.0], [20.0, 80.0]])
B_SD = 15.0
LACING, REPEATABILITY, STEP = 8.0, 6.0, 12.7
K = np.arange(1, 50)
RHO = STEP**2 / (2 * np.pi**2) * (
    np.exp(-4 * np.pi**2 * K**2 * (REPEATABILITY**2 - STEP**2 / 12) / STEP**2) / K**2
).sum()
DEVIATION, SHIFT, TILT = 100.0, 50.0, 20.0
LEVEL = 6350.0  # standard deviation of the unknown level, a quarter inch
NUTS = np.array([[-4.0, -4.0], [-2.0, -4.0], [-2.0, -5.0]])
READ = np.array([[6300.0, 6380.0, 6420.0], [6440.0, 6500.0, 6452.0], [6395.0, 6410.0, 6371.0]])
REPEATS = np.array([[2, 1, 3], [2, 2, 2], [1, 2, 4]])
TURNS = np.array([1.0, 2.0])
TOLERANCE = 76.2
SAMPLES = 20_000_000


def model():
    passes = len(NUTS)
    responses = STATIONS * ARMS
    n = responses + 1 + STATIONS + 2 * passes
    sd = np.r_[[B_SD] * responses, LEVEL, [DEVIATION] * STATIONS, [SHIFT, TILT] * passes]
    reference = READ[0].mean()
    mean = np.r_[B_MEAN.ravel(), np.zeros(n - responses)]
    rows, values, noise = [], [], []
    for p in range(passes):
        for s in range(STATIONS):
            row = np.zeros(n)
            row[s * ARMS : (s + 1) * ARMS] = NUTS[p] - NUTS[0]
            row[responses] = 1
            row[responses + 1 + s] = 1
            row[responses + 1 + STATIONS + 2 * p] = 1
            row[responses + 2 + STATIONS + 2 * p] = ALONG[s]
            rows.append(row)
            values.append(READ[p, s] - reference)
            noise.append(LACING**2 + (REPEATABILITY**2 - RHO) / REPEATS[p, s] + RHO)
    h, y, r = np.array(rows), np.array(values), np.array(noise)
    information = np.diag(1 / sd**2) + (h.T / r) @ h
    cov = np.linalg.inv(information)
    post = cov @ (mean / sd**2 + (h.T / r) @ y)
    return reference, post, cov


def main():
    reference, post, cov = model()
    responses = STATIONS * ARMS
    print("response", np.round(post[:responses], 6).tolist())
    print("response sd", np.round(np.sqrt(np.diag(cov))[:responses], 6).tolist())
    # The press as it stands after the turns: B (n + turns) + level + deviation.
    moved = NUTS[-1] + TURNS - NUTS[0]
    g = np.zeros((STATIONS, len(post)))
    for s in range(STATIONS):
        g[s, s * ARMS : (s + 1) * ARMS] = moved
        g[s, responses] = 1
        g[s, responses + 1 + s] = 1
    press_mean, press_cov = reference + g @ post, g @ cov @ g.T
    print("press mean", np.round(press_mean, 6).tolist())
    print("press sd", np.round(np.sqrt(np.diag(press_cov)), 6).tolist())
    next_cov = press_cov + SHIFT**2 + TILT**2 * np.outer(ALONG, ALONG) + LACING**2 * np.eye(STATIONS)
    print("next sd", np.round(np.sqrt(np.diag(next_cov)), 6).tolist())
    print("next cov 0 2", round(next_cov[0, 2], 6))
    # Deviation from the mean of the three stations: t_s - m.
    about = np.eye(STATIONS) - 1 / STATIONS
    print("sd about level", np.round(np.sqrt(np.diag(about @ next_cov @ about.T)), 6).tolist())
    rng = np.random.default_rng(7)
    draws = []
    for _ in range(20):
        draw = rng.multivariate_normal(press_mean, next_cov, SAMPLES // 20, method="cholesky")
        draws.append(draw.max(axis=1) - draw.min(axis=1))
    spread = np.concatenate(draws)
    inside = (spread <= TOLERANCE).mean()
    print("median", round(float(np.median(spread)), 3), "90 %", round(float(np.quantile(spread, 0.9)), 3))
    print("chance", round(float(inside), 5), "+-", round(float(np.sqrt(inside * (1 - inside) / len(spread))), 6))


if __name__ == "__main__":
    main()
