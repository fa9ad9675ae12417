"""Writes wind_computed.json: wind figures worked from the standards' formulas
with Python's math module, apart from the Go code. Moments of zoned rules are
summed over thin strips instead of in closed form.

    python3 wind_rows.py > wind_computed.json
"""
import json
import math

STRIPS = 60_000
cases = []


def add(id, model, given, want, source, option=None, relative=None, absolute=None, note=None):
    case = {"id": id, "model": model}
    case["in"] = given
    if option:
        case["option"] = option
    case["want"] = want
    if relative:
        case["relative"] = relative
    if absolute:
        case["absolute"] = absolute
    case["source"] = source + ", computed with Python's math module"
    case["basis"] = "computed"
    if note:
        case["note"] = note
    cases.append(case)


def strips(length, height, coefficient):
    """Force and moment about r = 0 of coefficient(distance from hinge)."""
    dr = length / STRIPS
    force = moment = 0.0
    for i in range(STRIPS):
        r = (i + 0.5) * dr
        f = coefficient(r) * height * dr
        force += f
        moment += f * r
    return force, moment


def worst(length, height, by_distance):
    outer = strips(length, height, lambda r: by_distance(length - r))
    inner = strips(length, height, by_distance)
    return max(outer, inner, key=lambda fm: fm[1])


# Dynamic pressure
for n, v in enumerate((10, 20, 28, 33, 41, 50), 1):
    add(f"W-q{n}", "pressure", {"speed_m_s": v},
        {"asce_pa": 0.613 * v**2, "en_pa": 0.5 * 1.25 * v**2, "asnzs_pa": 0.5 * 1.2 * v**2},
        "q = rho V^2 / 2 with the densities of ASCE 7, EN 1991-1-4 and AS/NZS 1170.2", relative=1e-12)

# EN 1991-1-4, 4.3 to 4.5
ROUGH = {"0": (0.003, 1), "I": (0.01, 1), "II": (0.05, 2), "III": (0.3, 5), "IV": (1.0, 10)}


def peak(vb, category, z):
    z0, least = ROUGH[category]
    z = max(z, least)
    cr = 0.19 * (z0 / 0.05) ** 0.07 * math.log(z / z0)
    iv = 1 / math.log(z / z0)
    qp = (1 + 7 * iv) * 0.5 * 1.25 * (cr * vb) ** 2
    return qp, qp / (0.5 * 1.25 * vb**2), math.sqrt(2 * qp / 1.25), cr * vb


for id, vb, category, z in (
    ("W-E2", 26, "II", 10), ("W-E3", 26, "II", 2), ("W-E4", 26, "III", 2),
    ("W-G1", 24, "0", 1.2), ("W-G2", 24, "I", 0.9), ("W-G3", 24, "II", 0.9), ("W-G4", 28, "III", 6.5), ("W-G5", 28, "IV", 0.9),
):
    qp, ce, v, vm = peak(vb, category, z)
    add(id, "gust", {"mean_m_s": vb, "height_m": z},
        {"peak_pa": qp, "exposure": ce, "gust_m_s": v, "mean_m_s": vm},
        "formulas of EN 1991-1-4 clauses 4.3 to 4.5", option=category, relative=1e-9)

# EN 1991-1-4 table 7.9
TABLE = {3: (2.3, 1.4, 1.2, 1.2), 5: (2.9, 1.8, 1.4, 1.2), 10: (3.4, 2.1, 1.7, 1.2)}


def between(points, x):
    keys = sorted(points)
    if x <= keys[0]:
        return points[keys[0]]
    if x >= keys[-1]:
        return points[keys[-1]]
    for a, b in zip(keys, keys[1:]):
        if a <= x <= b:
            w = (x - a) / (b - a)
            return tuple(p * (1 - w) + q * w for p, q in zip(points[a], points[b]))


def en_zones(ratio, phi):
    w = (phi - 0.8) / 0.2
    return tuple(1.2 * (1 - w) + c * w for c in between(TABLE, ratio))


def en_moment(length, height, phi):
    a, b, c, d = en_zones(length / height, phi)

    def at(x):
        return a if x < 0.3 * height else b if x < 2 * height else c if x < 4 * height else d
    return worst(length, height, at)


for id, ratio, phi in (("W-E5", 4, 1.0), ("W-E6", 5, 0.9), ("W-E8", 7.5, 0.85)):
    add(id, "en-zones", {"length_over_height": ratio, "solidity": phi},
        dict(zip("abcd", en_zones(ratio, phi))),
        "linear interpolation in EN 1991-1-4 table 7.9", absolute=1e-9)

# AS/NZS 1170.2 Appendix B


def asnzs_net(b, c, h):
    if c / h < 0.2:
        return 1.4 + 0.3 * math.log10(b / c)
    if b / c > 5:
        return 1.7 - 0.5 * c / h
    return 1.3 + 0.5 * (0.3 + math.log10(b / c)) * (0.8 - c / h)


def asnzs_moment(b, c, h, delta):
    kp = 1 - (1 - delta) ** 2
    f = asnzs_net(b, c, h) * kp * b * c
    if b / c <= 5:
        return f, f * 0.7 * b
    unit, (near, middle, far) = (h, (2.4, 1.2, 0.6)) if c / h > 0.7 else (c, (3.0, 1.5, 0.75))

    def at(x):
        return kp * (near if x < 2 * unit else middle if x < 4 * unit else far)
    return max((f, f * b / 2), worst(b, c, at), key=lambda fm: fm[1])


for id, b, c, h in (("W-S1", 2, 2, 2), ("W-S2", 4, 2, 2), ("W-S3", 3.5, 1.8, 1.8), ("W-S4", 12, 2, 2),
                    ("W-S5", 4, 2, 4), ("W-S6", 4, 1, 6)):
    add(id, "asnzs-net", {"length_m": b, "height_m": c, "top_m": h}, {"net": asnzs_net(b, c, h)},
        "formulas of AS/NZS 1170.2:2021 Appendix B", relative=1e-9)
add("W-S7", "asnzs-step", {"ratio": 5, "share": 0.5},
    {"below": asnzs_net(5, 1, 2), "above": 1.7 - 0.5 * 0.5},
    "formulas of AS/NZS 1170.2:2021 Appendix B on both sides of b/c = 5", absolute=1e-9)
for n, delta in enumerate((0.2, 0.3, 0.5, 0.8, 1.0), 1):
    add(f"W-S8.{n}", "asnzs-porosity", {"solidity": delta}, {"factor": 1 - (1 - delta) ** 2},
        "K_p of AS/NZS 1170.2:2021 Appendix B", absolute=1e-12)

# ASCE 7 figure 29.3-1, cells typed again from the figure's rows for s/h from 0.5
B_S = (0.05, 0.1, 0.2, 0.5, 1, 2, 4, 5, 10, 20, 30, 45)
CF = {1.0: (1.80, 1.70, 1.65, 1.55, 1.45, 1.40, 1.35, 1.35, 1.30, 1.30, 1.30, 1.30),
      0.9: (1.85, 1.75, 1.70, 1.60, 1.55, 1.50, 1.45, 1.45, 1.40, 1.40, 1.40, 1.40),
      0.7: (1.90, 1.85, 1.75, 1.70, 1.65, 1.60, 1.60, 1.55, 1.55, 1.55, 1.55, 1.55),
      0.5: (1.95, 1.85, 1.80, 1.75, 1.75, 1.70, 1.70, 1.70, 1.70, 1.70, 1.70, 1.75)}
# case C: B/s -> value at distance x/s from the windward edge


def case_c(ratio, x):
    near = {2: 2.25, 3: 2.60, 4: 2.90, 5: 3.10, 6: 3.30, 7: 3.40, 8: 3.55, 9: 3.65, 10: 3.75, 13: 4.00, 45: 4.30}
    second = {2: 1.50, 3: 1.70, 4: 1.90, 5: 2.00, 6: 2.15, 7: 2.25, 8: 2.30, 9: 2.35, 10: 2.45, 13: 2.60, 45: 2.55}
    third = {3: 1.15, 4: 1.30, 5: 1.45, 6: 1.55, 7: 1.65, 8: 1.70, 9: 1.75, 10: 1.85, 13: 2.00, 45: 1.95}
    rest = {4: 1.10, 5: 1.05, 6: 1.05, 7: 1.05, 8: 1.05, 9: 1.00, 10: 0.95}  # one region up to 10 s
    for limit, long, longest in ((4, 1.50, 1.85), (5, 1.35, 1.85), (10, 0.90, 1.10), (math.inf, 0.55, 0.55)):
        if x < limit:
            rest = {**rest, 13: long, 45: longest}
            break
    if x >= 10:
        rest[10] = 0.55
    row = near if x < 1 else second if x < 2 else third if x < 3 else rest
    return between({n: (v,) for n, v in row.items()}, ratio)[0]


def asce_moment(length, height, top, eps):
    assert 0.5 <= height / top <= 1 and eps >= 0.7
    por = 1 - (1 - eps) ** 1.5
    rows = {k: tuple(v) for k, v in CF.items()}
    row = between(rows, height / top)
    cf = between({b: (c,) for b, c in zip(B_S, row)}, length / height)[0]
    f = 0.85 * cf * por * length * height
    case_b = (f, f * 0.7 * length)
    if length / height < 2:
        return case_b
    factor = 0.85 * por * (1.8 - height / top if height / top > 0.8 else 1)
    return max(case_b, worst(length, height, lambda x: factor * case_c(length / height, x / height)), key=lambda fm: fm[1])


for n, eps in enumerate((0.8, 0.7, 0.5), 1):
    add(f"W-A2.{n}", "asce-porosity", {"solidity": eps}, {"factor": 1 - (1 - eps) ** 1.5},
        "1-(1-eps)^1.5 of ASCE 7 figure 29.3-1", absolute=1e-12)
add("W-A3", "asce-force", {"length_over_height": 2, "height_over_top": 1, "solidity": 0.8},
    {"cf": 1.40, "with_openings": 1.40 * (1 - 0.2**1.5)},
    "cell B/s 2, s/h 1 of ASCE 7 figure 29.3-1 and its porosity note", relative=1e-9)

# Hinge moments of whole panels. E7 is the leaf of 3.5 m by 1.8 m on the ground.
PANELS = (("W-E7", 3.5, 1.8, 1.8, 1.0), ("W-P1", 3.0, 1.2, 1.25, 1.0), ("W-P2", 3.0, 1.2, 1.25, 0.85),
          ("W-P3", 4.5, 1.8, 1.9, 1.0), ("W-P4", 5.0, 0.9, 1.0, 0.9), ("W-P5", 1.2, 1.8, 1.9, 1.0),
          ("W-P6", 6.0, 1.0, 1.1, 1.0), ("W-P7", 8.0, 0.7, 0.95, 0.95), ("W-P8", 2.4, 1.2, 1.7, 0.8),
          ("W-P10", 4.9, 0.7, 1.1, 1.0), ("W-P11", 6.0, 0.8, 1.2, 1.0), ("W-P12", 8.0, 0.35, 0.36, 1.0), ("W-P13", 8.0, 0.3, 0.5, 0.9),
          ("W-P14", 7.8, 0.6, 0.65, 1.0), ("W-P15", 6.1, 0.72, 1.2, 0.95), ("W-P16", 5.5, 1.0, 2.0, 1.0))
for id, length, height, top, solidity in PANELS:
    given = {"length_m": length, "height_m": height, "top_m": top, "solidity": solidity}
    for option, name, (force, moment) in (
        ("asnzs", "AS/NZS 1170.2:2021 Appendix B", asnzs_moment(length, height, top, solidity)),
        ("en", "EN 1991-1-4 table 7.9", en_moment(length, height, solidity)),
        ("asce", "ASCE 7 figure 29.3-1", asce_moment(length, height, top, solidity)),
    ):
        add(f"{id}-{option}", "hinge-moment", given, {"moment_m3": moment, "force_m2": force},
            f"rules of {name}, summed over {STRIPS} strips", option=option, relative=2e-5)
# Case C by itself, since case B is often the worse one; B/s at the figure's columns and between them.
for ratio in (2, 2.5, 3, 3.6, 4, 5, 6, 7, 8, 9, 10, 11.5, 13, 20, 40):
    for height, top in ((1.0, 1.0), (0.9, 1.0), (0.6, 1.0)):
        factor = 0.85 * (1.8 - height / top if height / top > 0.8 else 1)
        force, moment = worst(ratio * height, height, lambda x: factor * case_c(ratio, x / height))
        add(f"W-C{ratio}-{height}", "asce-case-c", {"length_m": ratio * height, "height_m": height, "top_m": top},
            {"moment_m3": moment, "force_m2": force}, f"case C of ASCE 7 figure 29.3-1, summed over {STRIPS} strips", relative=2e-5)
# Open leaves, default rule alone.
for n, delta in enumerate((0.15, 0.3, 0.45), 1):
    force, moment = asnzs_moment(3.0, 1.2, 1.25, delta)
    add(f"W-P9.{n}", "hinge-moment", {"length_m": 3.0, "height_m": 1.2, "top_m": 1.25, "solidity": delta},
        {"moment_m3": moment, "force_m2": force}, "rules of AS/NZS 1170.2:2021 Appendix B",
        option="asnzs", relative=1e-9)
add("W-O3", "uniform", {"length_m": 3.5, "height_m": 1.8, "pressure_pa": 500}, {"moment_n_m": 500 * 1.8 * 3.5**2 / 2},
    "p H L^2 / 2 of a uniform pressure", relative=1e-12)

print(json.dumps({"topic": "wind figures worked from the standards' formulas by wind_rows.py", "cases": cases}, indent=1))
