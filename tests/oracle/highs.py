"""Solves the cases that the search bench prints with a general mixed-integer solver, and compares.

    pip install scipy numpy          (made with scipy 1.17.1, numpy 2.4; HiGHS comes with scipy)
    cargo bench --bench search -- json 12 20 | python3 tests/oracle/highs.py [--keep tests/data/highs_cases.json]

HiGHS gets gap 0 and one thread. The spread is worked out again from each solver's whole numbers.
"""

import json
import sys
import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

LIMIT_SECONDS = 120


def spread(case, turns):
    after = np.array(case["thickness_nm"]) + np.array(case["response_nm"]) @ turns
    return after.max() - after.min()


def highs(case):
    t = np.array(case["thickness_nm"]) / 1e5
    t -= t.mean()
    b = np.array(case["response_nm"]) / 1e5
    stations, arms = b.shape
    # Unknowns: whole turns, lower edge m, height r; m <= t + B k <= m + r.
    cost = np.r_[np.zeros(arms + 1), 1.0]
    above = np.c_[b, -np.ones(stations), np.zeros(stations)]
    below = np.c_[b, -np.ones(stations), -np.ones(stations)]
    most = case["most"]
    start = time.perf_counter()
    found = milp(
        cost,
        constraints=[LinearConstraint(above, -t, np.inf), LinearConstraint(below, -np.inf, -t)],
        integrality=np.r_[np.ones(arms), 0, 0],
        bounds=Bounds(np.r_[-most * np.ones(arms), -np.inf, 0], np.r_[most * np.ones(arms), np.inf, np.inf]),
        options={"mip_rel_gap": 0, "time_limit": LIMIT_SECONDS},
    )
    seconds = time.perf_counter() - start
    turns = np.round(found.x[:arms]).astype(int) if found.x is not None else None
    return turns, seconds, found.status == 0


def main():
    keep = sys.argv[sys.argv.index("--keep") + 1] if "--keep" in sys.argv else None
    ratios, kept, unfinished = [], [], 0
    for line in sys.stdin:
        if not line.startswith("{"):
            continue
        case = json.loads(line)
        turns, seconds, optimal = highs(case)
        if not optimal:
            unfinished += 1
            print(f"HiGHS gave up after {seconds:.0f} s; ours {case['seconds'] * 1e3:.3f} ms")
            ratios.append(seconds / case["seconds"])
            continue
        ours, theirs = spread(case, np.array(case["turns"])), spread(case, turns)
        assert abs(ours - theirs) <= 1e-9 * max(ours, theirs) + 1e-3, (ours, theirs)
        ratios.append(seconds / case["seconds"])
        kept.append({key: case[key] for key in ("thickness_nm", "response_nm", "most")} | {"spread_nm": theirs})
        print(f"spread {theirs:10.3f} nm   HiGHS {seconds * 1e3:10.1f} ms   ours {case['seconds'] * 1e3:8.3f} ms   {ratios[-1]:8.0f} times")
    print(f"median {np.median(ratios):.0f} times faster over {len(ratios)} cases, {unfinished} unfinished by HiGHS")
    if keep:
        with open(keep, "w") as file:
            json.dump(kept, file, indent=0)


main()
