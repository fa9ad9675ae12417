"""Writes leaf_computed.json: masses, inertias, hinge and post figures worked
with Python's math module, apart from the Go code. Sections and leaves are
summed over thin strips and point masses instead of in closed form.

    python3 leaf_rows.py > leaf_computed.json
"""
import json
import math

G = 9.81
STEEL = 7850.0
ALUMINUM = 2700.0
cases = []


def add(id, model, given, want, source, option=None, relative=None, absolute=None, note=None):
    case = {"id": id, "model": model, "in": given}
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


# Sections, by strips of the rounded outlines.
def chord(b, h, r, y):
    """Breadth of a b by h rectangle with corner radius r at y from its middle."""
    if abs(y) >= h / 2:
        return 0.0
    into = abs(y) - (h / 2 - r)
    return b if into <= 0 else b - 2 * (r - math.sqrt(max(0.0, r * r - into * into)))


def outline(b, h, r, strips=40_000):
    """Area and second moment of a filled outline, each on strips of its own."""
    dy = h / strips
    area = second = 0.0
    for i in range(strips):
        y = -h / 2 + (i + 0.5) * dy
        width = chord(b, h, r, y)
        area += width * dy
        second += width * y * y * dy
    return area, second


def hollow(b, h, t, rounded):
    """Area and second moment for bending along h, mm."""
    ro, ri = 0.0, 0.0
    if rounded:
        ro, ri = (2 * t, t) if t <= 6 else (2.5 * t, 1.5 * t) if t <= 10 else (3 * t, 2 * t)
    outer = outline(b, h, ro)
    if not t:
        return outer
    inner = outline(b - 2 * t, h - 2 * t, ri)
    return outer[0] - inner[0], outer[1] - inner[1]


def circle(d, t):
    di = d - 2 * t if t else 0.0
    return math.pi / 4 * (d * d - di * di), math.pi / 64 * (d**4 - di**4)


for material, rho, b, h, t in (
    ("steel", STEEL, 25, 25, 1.6), ("steel", STEEL, 50, 50, 3), ("steel", STEEL, 50, 100, 3), ("steel", STEEL, 20, 60, 1.6),
    ("steel", STEEL, 150, 150, 8), ("steel", STEEL, 200, 300, 12.5),
    ("steel", STEEL, 12, 40, 0), ("aluminum", ALUMINUM, 50, 50, 3), ("aluminum", ALUMINUM, 40, 80, 2), ("softwood", 420.0, 45, 95, 0),
):
    area, second = hollow(b, h, t, material == "steel" and t > 0)
    add(f"section-{material}-{b}x{h}x{t}", "section", {"width_mm": b, "depth_mm": h, "wall_mm": t},
        {"area_mm2": area, "second_moment_mm4": second, "kg_m": area * rho / 1e6},
        "strips of the outline, corner radii of EN 10219-2 for hollow steel" if t and material == "steel" else "strips of the outline with sharp corners",
        option=material, relative=2e-5)
for d, t in ((48.3, 3.0), (16, 0)):
    area, second = circle(d, t)
    add(f"section-round-{d}x{t}", "section", {"width_mm": d, "wall_mm": t, "round": 1},
        {"area_mm2": area, "second_moment_mm4": second, "kg_m": area * STEEL / 1e6}, "pi (d^2 - di^2)/4 and pi (d^4 - di^4)/64",
        option="steel", relative=1e-9)

# Sheets and mesh
for n, (material, rho, t) in enumerate((("steel", STEEL, 0.6), ("steel", STEEL, 1.5), ("steel", STEEL, 3.0), ("aluminum", ALUMINUM, 2.0)), 1):
    add(f"sheet-{n}", "sheet", {"thickness_mm": t}, {"areal_kg_m2": rho * t / 1000}, "density times thickness", option=material, relative=1e-9)
for id, d, p in (("D-m2", 3, 50), ("D-m3", 7.6, 200)):
    add(id, "welded-mesh", {"wire_mm": d, "pitch_mm": p}, {"areal_kg_m2": 2 * math.pi * (d / 1000) ** 2 / 4 * STEEL / (p / 1000)},
        "2 (pi d^2/4) rho / p", relative=1e-9)

# Inertia
add("M-15a", "plate", {"mass_kg": 120, "length_m": 3.5, "thickness_m": 0.05, "offset_m": 0}, {"inertia_kg_m2": 120 * (3.5**2 / 3 + 0.05**2 / 12)},
    "m (L^2/3 + t^2/12)", relative=1e-9)
add("M-15b", "plate", {"mass_kg": 120, "length_m": 3.5, "thickness_m": 0, "offset_m": 0}, {"inertia_kg_m2": 490.0}, "m L^2/3", relative=1e-9)
add("M-15c", "plate", {"mass_kg": 120, "length_m": 3.5, "thickness_m": 0.05, "offset_m": 0.04},
    {"inertia_kg_m2": 120 * (3.5**2 / 3 + 0.05**2 / 12 + 0.04**2)}, "m (L^2/3 + t^2/12 + o^2), axis 40 mm beside the plane", relative=1e-9)


def line_density(length, center, pieces=200_000):
    """k^2 of a leaf whose mass per length is a straight line, never negative,
    as long as it can be, with its center at the place asked for."""
    if center < length / 3:
        begin, end, left, right = 0.0, 3 * center, 1.0, 0.0
    elif center > 2 * length / 3:
        begin, end, left, right = 3 * center - 2 * length, length, 0.0, 1.0
    else:
        k = 6 * (center / length - 0.5)
        begin, end, left, right = 0.0, length, 1 - k, 1 + k
    m = mx = mxx = 0.0
    for i in range(pieces):
        u = (i + 0.5) / pieces
        w = left + (right - left) * u
        x = begin + (end - begin) * u
        m += w
        mx += w * x
        mxx += w * x * x
    assert abs(mx / m - center) < 1e-6
    return mxx / m


for n, center in enumerate((0.6, 1.2, 1.5, 1.75, 2.1, 2.6, 3.2), 1):
    add(f"spread-{n}", "spread", {"mass_kg": 100, "length_m": 3.5, "center_m": center}, {"inertia_kg_m2": 100 * line_density(3.5, center)},
        "point masses with a straight-line mass per length", relative=1e-5)

add("M-15d", "spread", {"mass_kg": 120, "length_m": 3.54, "center_m": 1.79}, {"inertia_kg_m2": 120 * (3.5**2 / 12 + 0.05**2 / 12 + 1.79**2)},
    "uniform plate 3.5 m by 50 mm whose edge is 40 mm past the axis", relative=0.01,
    note="the leaf is described by its width from the axis and its center alone, so a share of 0.5 % is the price of the straight line")

# M-23: a barred leaf as lines and points
W, H = 3.5, 1.8
a50, _ = hollow(50, 50, 3, True)
a25, _ = hollow(25, 25, 1.6, True)
# EN 10219-2 area formula for the same sections, the ones the totals are quoted with
f50 = 2 * 3 * (100 - 6) - (4 - math.pi) * (36 - 9)
f25 = 2 * 1.6 * (50 - 3.2) - (4 - math.pi) * (3.2**2 - 1.6**2)
assert abs(a50 / f50 - 1) < 1e-5 and abs(a25 / f25 - 1) < 1e-5
rails = 3 * 3.4 * f50 * STEEL / 1e6
stiles = 2 * 1.8 * f50 * STEEL / 1e6
bars = 28 * 1.65 * f25 * STEEL / 1e6
total = rails + stiles + bars
inertia = stiles / 2 * (0.025**2 + 3.475**2)
inertia += rails * sum((0.05 + 3.4 * (i + 0.5) / 100_000) ** 2 for i in range(100_000)) / 100_000
inertia += bars / 28 * sum((0.05 + 3.4 * i / 29) ** 2 for i in range(1, 29))
center = (stiles * 1.75 + rails * 1.75 + bars / 28 * sum(0.05 + 3.4 * i / 29 for i in range(1, 29))) / total
solidity = (2 * 0.05 * 1.8 + 3 * 0.05 * 3.4 + 28 * 0.025 * 1.65) / (W * H)
add("M-23", "barred-leaf", {"width_m": W, "height_m": H},
    {"rails_kg": rails, "stiles_kg": stiles, "bars_kg": bars, "mass_kg": total, "center_m": center, "inertia_kg_m2": inertia,
     "inertia_over_ml2": inertia / (total * W * W), "solidity": solidity},
    "sum over members as lines and points, section areas of EN 10219-2", relative=1e-4,
    note="frame 50x50x3 with three rails, 28 bars 25x25x1.6, no hardware")

# Leaves with a sheet, aluminum and wood
add("sheeted-leaf", "sheeted-leaf", {"width_m": 3.0, "height_m": 1.6, "infill_kg_m2": 11.775, "hardware_kg": 6},
    {"mass_kg": (2 * 1.6 + 2 * 2.92) * (2 * 2 * (40 + 40 - 4)) * ALUMINUM / 1e6 + 11.775 * 2.92 * 1.52 + 6,
     "low_kg": 0.9 * ((2 * 1.6 + 2 * 2.92) * 304 * ALUMINUM / 1e6 + 11.775 * 2.92 * 1.52) + 6,
     "high_kg": 1.1 * ((2 * 1.6 + 2 * 2.92) * 304 * ALUMINUM / 1e6 + 11.775 * 2.92 * 1.52) + 6},
    "frame 40x40x2 with sharp corners and a sheet inside it", relative=1e-9)

# Hinges
add("M-2", "hinge-reactions", {"mass_kg": 120, "center_m": 1.75, "spacing_m": 1.4}, {"horizontal_n": 120 * G * 1.75 / 1.4, "vertical_each_n": 120 * G / 2},
    "moments about one hinge", relative=1e-9)
for n, mu in enumerate((0.12, 0.30, 0.05), 1):
    add(f"M-19.{n}", "hinge-friction", {"mass_kg": 120, "center_m": 1.75, "spacing_m": 1.4, "pin_m": 0.010, "inner_m": 0, "outer_m": 0.010, "friction": mu},
        {"moment_n_m": mu * 0.010 * 2 * 120 * G * 1.75 / 1.4 + 2 / 3 * mu * 0.010 * 120 * G}, "journal and full-disc thrust friction", relative=1e-9)
ring = 2 / 3 * (0.015**3 - 0.010**3) / (0.015**2 - 0.010**2)
add("M-19.4", "hinge-friction", {"mass_kg": 80, "center_m": 1.5, "spacing_m": 0.9, "pin_m": 0.010, "inner_m": 0.010, "outer_m": 0.015, "friction": 0.25},
    {"moment_n_m": 0.25 * (0.010 * 2 * 80 * G * 1.5 / 0.9 + ring * 80 * G)}, "journal and ring thrust friction", relative=1e-9)

# Lean: torque from the height of the center of mass in three dimensions
def height(x, beta, theta):
    """Center of mass over the hinge's foot: the axis tilted by beta towards
    theta = 0, the leaf turned by theta about it."""
    return -x * math.sin(beta) * math.cos(theta)


for id, m, x, beta, theta in (("M-16", 120, 1.75, 1, 90), ("M-17", 120, 1.75, 1, 45), ("M-18", 120, 1.75, 2, 30), ("G-4", 120, 1.75, 1.5, 90), ("G-5", 120, 1.75, 1.0, 90)):
    b, th, step = math.radians(beta), math.radians(theta), 1e-5
    slope = m * G * (height(x, b, th + step) - height(x, b, th - step)) / (2 * step)
    add(id, "lean", {"mass_kg": m, "center_m": x, "lean_deg": beta, "angle_deg": theta},
        {"moment_n_m": slope, "rise_mm": 1000 * (height(x, b, th) - height(x, b, 0))},
        "slope of the potential energy about a leaning axis", relative=1e-6)
for id, length, beta in (("G-4.tip", 3.5, 1.5), ("G-5.tip", 3.5, 1.0)):
    b = math.radians(beta)
    add(id, "lean", {"mass_kg": 120, "center_m": length, "lean_deg": beta, "angle_deg": 90},
        {"moment_n_m": 120 * G * length * math.sin(b), "rise_mm": 1000 * length * math.sin(b)},
        "rise of the free edge, as of a mass that sits there", relative=1e-6)

# A whole resistance
m, x, beta, low, wind = 120.0, 1.75, math.radians(0.8), math.radians(20), 150.0
friction = 0.15 * (0.010 * 2 * m * G * x / 1.4 + ring * m * G)
angles = [math.radians(d) for d in (0, 22.5, 45, 67.5, 90)]
tilt = [m * G * x * math.sin(beta) * math.sin(t - low) for t in angles]
want = {}
for i, t in enumerate(tilt):
    want[f"opening_{i}_n_m"] = friction + t + wind + (0.4 * friction if i == 0 else 0)
    want[f"closing_{i}_n_m"] = friction - t + wind + (0.4 * friction if i == 4 else 0)
add("resistance-1", "resistance", {"mass_kg": m, "width_m": 3.5, "spacing_m": 1.4, "lean_deg": 0.8, "lean_direction_deg": 20, "open_deg": 90, "wind_n_m": wind},
    want, "sum of hinge friction, lean and wind", relative=1e-9)

# Posts: deflection by integrating the curvature twice
E = 210e9


def deflect(second, loads, at, steps=20_000):
    dz = at / steps
    slope = deflection = 0.0
    for i in range(steps):
        z = (i + 0.5) * dz
        moment = sum(p * (a - z) for p, a in loads if a > z)
        curvature = moment / (E * second)
        deflection += slope * dz + curvature * dz * dz / 2
        slope += curvature * dz
    return deflection


def post(id, kind, b, t, loads, height, at, w=None):
    area, second = circle(b, t) if kind == "round" else hollow(b, b, t, True)
    second *= 1e-12
    moment = sum(p * a for p, a in loads)
    return {"deflection_mm": 1000 * deflect(second, loads, at), "stress_mpa": moment / (2 * second / (b / 1000)) / 1e6}


for id, kind, b, t in (("B-21", "square", 100, 4), ("B-22a", "square", 100, 5), ("B-22b", "round", 114.3, 4), ("B-22c", "square", 80, 4)):
    add(id, "post", {"width_mm": b, "wall_mm": t, "post_m": 1.8, "load1_n": 1000, "height1_m": 1.8, "load2_n": 0, "height2_m": 0, "at_m": 1.8},
        post(id, kind, b, t, [(1000, 1.8)], 1.8, 1.8), "twice integrated curvature of a bar held at its foot", option=kind, relative=1e-4)
add("B-24", "post", {"width_mm": 100, "wall_mm": 4, "post_m": 2.0, "load1_n": 1500, "height1_m": 1.6, "load2_n": -900, "height2_m": 0.3, "at_m": 1.2},
    post("B-24", "square", 100, 4, [(1500, 1.6), (-900, 0.3)], 2.0, 1.2), "twice integrated curvature of a bar held at its foot", option="square", relative=1e-4)
# Oblique loads: the stress where it is largest, looked for around the outline,
# with sharp corners as the place of a rectangular post's corner fiber
along, across, at = 800.0, 600.0, 1.5
second_x, second_y = hollow(60, 100, 4, True)[1] * 1e-12, hollow(100, 60, 4, True)[1] * 1e-12  # across (depth 100), along (width 60)
corner = max(abs(along * at * x / second_y + across * at * y / second_x) for x in (-0.03, 0.03) for y in (-0.05, 0.05))
add("B-25a", "post-oblique", {"width_mm": 60, "depth_mm": 100, "wall_mm": 4, "post_m": at, "height_m": at, "along_n": along, "across_n": across},
    {"stress_mpa": corner / 1e6, "foot_n_m": at * math.hypot(along, across),
     "deflection_mm": 1000 * at**3 / (3 * E) * math.hypot(along / second_y, across / second_x)},
    "largest M x/I + M y/I over the corners, P L^3/(3 E I) in each plane", option="square", relative=1e-4)
area, second = circle(114.3, 4)
second *= 1e-12
around = max(abs(along * at * 0.05715 * math.cos(u) + across * at * 0.05715 * math.sin(u)) / second for u in (2 * math.pi * i / 100_000 for i in range(100_000)))
add("B-25b", "post-oblique", {"width_mm": 114.3, "wall_mm": 4, "post_m": at, "height_m": at, "along_n": along, "across_n": across},
    {"stress_mpa": around / 1e6, "foot_n_m": at * math.hypot(along, across), "deflection_mm": 1000 * at**3 / (3 * E) * math.hypot(along, across) / second},
    "largest (M x + M y)/I around the rim, P L^3/(3 E I)", option="round", relative=1e-6)

area, second = hollow(100, 100, 4, True)
add("B-23", "post-uniform", {"width_mm": 100, "wall_mm": 4, "post_m": 1.8, "load_n_m": 1000}, {"deflection_mm": 1000 * 1000 * 1.8**4 / (8 * E * second * 1e-12)},
    "w L^4/(8 E I)", relative=1e-4)

print(json.dumps({"topic": "leaf, hinge and post figures worked by leaf_rows.py", "cases": cases}, indent=1))
