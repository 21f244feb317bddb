"""Reference deflections for tests/beam/references.rs, rounded to doubles.

    pip install mpmath && python3 tests/beam/reference.py

Each beam is solved by the method of initial parameters (Hetenyi, Beams on
Elastic Foundation, 1946) with 400 digits: deflection and slope of the free
left end are carried to the right end by the power series of
EI w'''' + k_f w = 0, and chosen so that shear and moment vanish there.
The method is useless in double precision and exact here, and shares nothing
with the program under test but the equation.
"""

import mpmath as mp

mp.mp.dps = 400


def transfer(x, flexibility, foundation):
    """Matrix that carries (w, w', -EI w''', EI w'') a distance x to the right."""
    q = foundation * flexibility * x**4
    y = []
    for m in range(4):
        term, total, n = mp.mpf(1) / mp.factorial(m), mp.mpf(0), 0
        while abs(term) > mp.mpf(10) ** -420:
            total += term
            for factor in range(4 * n + m + 1, 4 * n + m + 5):
                term /= factor
            term *= -q
            n += 1
        y.append(total)
    f, k = flexibility, foundation
    y0, y1, y2, y3 = y
    return mp.matrix([
        [y0, x * y1, -f * x**3 * y3, f * x**2 * y2],
        [-k * f * x**3 * y3, y0, -f * x**2 * y2, f * x * y1],
        [k * x * y1, k * x**2 * y2, y0, k * f * x**3 * y3],
        [-k * x**2 * y2, -k * x**3 * y3, -x * y1, y0],
    ])


def solve(length, sections, springs, foundation, movements, places):
    """Deflections at places and spring forces k (u - w)."""
    def rigidity(x):
        return [ei for start, ei in sections if start <= x][-1]

    marks = sorted({mp.mpf(0), length, *places,
                    *(x for x, _ in springs), *(x for x, _ in sections)})
    # Each state is affine in the unknown (w0, slope0): columns w0, slope0, 1.
    state = mp.matrix([[1, 0, 0], [0, 1, 0], [0, 0, 0], [0, 0, 0]])
    at = {}
    for i, x in enumerate(marks):
        if i:
            left = marks[i - 1]
            state = transfer(x - left, 1 / rigidity(left), foundation) * state
        at[x] = state[0, :]
        for (position, k), u in zip(springs, movements):
            if position == x:
                state[2, :] += k * state[0, :]
                state[2, 2] -= k * u
    unknown = mp.lu_solve(state[2:4, 0:2], -state[2:4, 2])
    def w(x):
        row = at[x]
        return row[0] * unknown[0] + row[1] * unknown[1] + row[2]
    return [w(x) for x in places], [k * (u - w(x)) for (x, k), u in zip(springs, movements)]


CASES = [
    # name, length, sections, springs, foundation, movements, places
    ("proportions of a press", 5, [(0, "0.05")],
     [("0.5", "1"), ("1.5", "1.2"), ("2.5", "0.9"), ("3.5", "1.1"), ("4.5", "0.8")],
     "0.1", [1, 0, -2, 3, 1], ["0", "1.5", "2.75", "5"]),
    ("almost rigid, arms very close", 3000, [(0, "2.7e13")],
     [("10", "1"), ("11", "2"), ("12", "1"), ("2990", "1")],
     "0", [1, -2, 3, 1], ["0", "11", "11.5", "1500", "3000"]),
    ("almost rigid, close, on a foundation", 3000, [(0, "2.7e13")],
     [("10", "1"), ("11", "2"), ("12", "1"), ("2990", "1")],
     "1e-4", [1, -2, 3, 1], ["0", "11", "11.5", "1500", "3000"]),
    ("thin, on a foundation", 4, [(0, "1e-6")],
     [("0.25", "1"), ("1.25", "1.5"), ("2.75", "0.7"), ("3.5", "1")],
     "0.3", [1, 2, -1, 1], ["0", "0.25", "0.5", "2", "3.75", "4"]),
    ("nearly fixed supports, two very close", 3, [(0, "1")],
     [("0.125", "1e15"), ("0.1259765625", "1e15"), ("1.75", "1e15"), ("2.875", "1e15")],
     "1", [1, "1.0009765625", -2, 1], ["0", "0.12548828125", "1", "1.75", "3"]),
    ("rods from weak to hard", 6, [(0, "3")],
     [("0.5", "1e-9"), ("1.5", "1e9"), ("3", "1"), ("4", "1e-6"), ("5.9", "1e12")],
     "0", [1, 2, -1, 4, 1], ["0", "0.5", "2", "4", "6"]),
    ("stepped jaw", 4, [(0, "0.1"), ("1.1", "0.5"), ("1.9", "0.02"), ("3.2", "0.1")],
     [("0.5", "1"), ("1.5", "1"), ("2.5", "1"), ("3.5", "1")],
     "0.2", [1, 0, 0, -1], ["0", "1.1", "1.3", "2.2", "4"]),
    ("two arms, soft splice", 20, [(0, "1")],
     [("2", "5"), ("18", "3")],
     "0.5", [1, -2], ["0", "1", "2", "10", "20"]),
]

if __name__ == "__main__":
    for name, length, sections, springs, foundation, movements, places in CASES:
        number = mp.mpf
        w, forces = solve(
            number(length),
            [(number(x), number(ei)) for x, ei in sections],
            [(number(x), number(k)) for x, k in springs],
            number(foundation),
            [number(u) for u in movements],
            [number(x) for x in places],
        )
        print(name)
        print("  deflections", ", ".join(repr(float(value)) for value in w))
        print("  forces     ", ", ".join(repr(float(value)) for value in forces))
