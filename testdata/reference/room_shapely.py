"""Writes room_shapely.json: swings worked by a general geometry library.

Run as: python3 room_shapely.py > room_shapely.json
Needs Shapely; written with Debian's python3-shapely 1.8.5 on GEOS 3.11.1.

Independent of the Go code, which solves every corner and edge pair in closed
form: here whole polygons are turned in small steps, Shapely measures their
distance, and every dip is refined by golden section, every threshold by
bisection. Layouts whose answer isn't unique (two dips alike, a dip that just
grazes the distance to keep) are left out.
"""
import json
import math
import random

from shapely.affinity import rotate, translate
from shapely.geometry import Point, Polygon, box

random.seed(20240521)
STEP = math.radians(0.25)
SOURCE = "Shapely 1.8.5 on GEOS 3.11.1, room_shapely.py"
cases = []


def golden(f, low, high):
    ratio = (math.sqrt(5) - 1) / 2
    a, b = high - ratio * (high - low), low + ratio * (high - low)
    fa, fb = f(a), f(b)
    for _ in range(60):
        if fa <= fb:
            high, b, fb = b, a, fa
            a = high - ratio * (high - low)
            fa = f(a)
        else:
            low, a, fa = a, b, fb
            b = low + ratio * (high - low)
            fb = f(b)
    return (low + high) / 2


def first_under(f, low, high, level):
    """The turn in low..high at which f, over level at low, comes down to it."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if f(middle) > level else (low, middle)
    return high


def swing(distance, turn, keep):
    """Smallest distance, where first, and how far the distance is kept; None where not unique."""
    n = math.ceil(turn / STEP)
    theta = [turn * i / n for i in range(n + 1)]
    d = [distance(t) for t in theta]
    if d[0] == 0:
        return 0.0, 0.0, 0.0
    dips = [(d[0], 0.0), (d[n], turn)]
    for i in range(1, n):
        if d[i] <= d[i - 1] and d[i] <= d[i + 1] and d[i] > 0:
            t = golden(distance, theta[i - 1], theta[i + 1])
            dips.append((distance(t), t))
    least, at = min(dips)
    if 0 in d:
        i = d.index(0)
        least, at = 0.0, first_under(distance, theta[i - 1], theta[i], 0)
        if any(v < 1e-6 and t < at - STEP for v, t in dips):
            return None
    elif least < 1e-6 or any(v - least < 1e-6 and abs(t - at) > 1e-6 for v, t in dips):
        return None
    if abs(least - keep) < 1e-4 and keep > 0 or 0 < abs(d[0] - keep) < 1e-4:
        return None
    if d[0] < keep:
        return least, at, 0.0
    if least >= keep and least > 0:
        return least, at, turn
    if keep == 0:
        return least, at, at
    if any(abs(v - keep) < 1e-4 for v, t in dips if t < at):
        return None
    # The first sample, or dip between samples, that is too near.
    near = sorted([(t, v) for t, v in zip(theta, d)] + [(t, v) for v, t in dips])
    for (t0, v0), (t1, v1) in zip(near, near[1:]):
        if v1 < keep:
            return least, at, first_under(distance, t0, t1, keep)


def leaf():
    width = round(random.uniform(0.8, 4.5), 3)
    thickness = round(random.uniform(0.03, 0.12), 3)
    offset = round(random.uniform(-0.1, 0.1), 3)
    return (width, thickness, offset), box(0, offset - thickness / 2, width, offset + thickness / 2)


def obstacle(width):
    """A star-shaped polygon, not convex in general, or a disc, somewhere about the swing."""
    while True:
        r, a = random.uniform(0.15, 1.25) * width, math.radians(random.uniform(-40, 170))
        cx, cy, size = r * math.cos(a), r * math.sin(a), random.uniform(0.03, 0.6)
        if random.random() < 0.3:
            x, y, size = round(cx, 3), round(cy, 3), round(size, 3)
            if math.hypot(x, y) > size + 0.01:
                return "disc", {"x0": x, "y0": y, "radius_m": size}, lambda s: max(0.0, s.distance(Point(x, y)) - size)
            continue
        n = random.randint(3, 8)
        turns = sorted(random.uniform(0, 2 * math.pi) for _ in range(n))
        corners = [(round(cx + size * random.uniform(0.3, 1) * math.cos(t), 3), round(cy + size * random.uniform(0.3, 1) * math.sin(t), 3)) for t in turns]
        if random.random() < 0.5:
            corners.reverse()
        polygon = Polygon(corners)
        if polygon.is_valid and polygon.area > 1e-3 and polygon.distance(Point(0, 0)) > 0.01:
            named = {}
            for i, (x, y) in enumerate(corners):
                named |= {f"x{i}": x, f"y{i}": y}
            return "outline", named, lambda s: s.distance(polygon)


def add(id, model, given, want, option=""):
    case = {"id": id, "model": model, "in": given}
    if option:
        case["option"] = option
    case |= {"want": {k: round(v, 7) for k, v in want.items()}, "absolute": 1e-5, "source": SOURCE, "basis": "computed"}
    cases.append(case)


def add_swing(id, model, given, result, option=""):
    clearance, at, free_to = result
    add(id, model, given, {"clearance_m": clearance, "at_deg": math.degrees(at), "free_to_deg": math.degrees(free_to)}, option)


count = 0
while count < 300:
    (width, thickness, offset), slab = leaf()
    open_deg, keep = random.randint(60, 130), random.choice([0, 0, 0.02, 0.05, 0.2])
    kind, named, measure = obstacle(width)
    result = swing(lambda t: measure(rotate(slab, t, origin=(0, 0), use_radians=True)), math.radians(open_deg), keep)
    if result is None or result[1] == 0 and random.random() < 0.7:
        continue
    count += 1
    add_swing(f"S{count}", "sweep", {"width_m": width, "thickness_m": thickness, "offset_m": offset, "open_deg": open_deg, "keep_m": keep} | named, result, kind)

count = 0
while count < 50:
    (width, thickness, offset), slab = leaf()
    size, depth = round(random.uniform(0.1, 0.6), 3), round(random.uniform(0.1, 0.6), 3)
    jamb, face, keep = round(random.uniform(-0.15, -0.005), 3), round(random.uniform(-0.1, 0.4), 3), random.choice([0, 0, 0.01])
    if count % 2:
        centre, radius = Point(jamb - size / 2, face - size / 2), size / 2
        measure, kind = lambda s: max(0.0, s.distance(centre) - radius), "round"
    else:
        post = box(jamb - size, face - depth, jamb, face)
        measure, kind = lambda s: s.distance(post), "rectangular"
    result = swing(lambda t: measure(rotate(slab, t, origin=(0, 0), use_radians=True)), math.pi, keep)
    if result is None or result[1] == 0 and random.random() < 0.9:
        continue
    count += 1
    add_swing(f"P{count}", "pier", {"width_m": width, "thickness_m": thickness, "offset_m": offset, "pier_width_m": size, "pier_depth_m": depth,
                                    "jamb_m": jamb, "face_m": face, "keep_m": keep}, result, kind)

count = 0
while count < 40:
    push = count % 2 == 0
    a, b = round(random.uniform(0.08, 0.3), 3), round(random.uniform(0.05, 0.3), 3)
    c, e = round(random.uniform(0.5, 1.2), 3), round(random.uniform(0, 0.12), 3)
    if count % 8 == 3:
        c = round(random.uniform(0.05, 0.2), 3)  # a front pivot nearer to the axis than the rear one
    rx, ry, fx, fy = (a, -b, c, -e) if push else (-a, b, c, e)
    over, ahead, radius, rod = (round(random.uniform(*r), 3) for r in [(0, 0.2), (0.2, 0.6), (0.03, 0.08), (0.01, 0.03)])
    start, open_deg = random.choice([0, 0, 45, 80]), random.randint(85, 115)
    line = round(random.uniform(-0.1, 0.1), 3)
    housing = box(-over, -radius, ahead, radius)
    front_bracket, rear_bracket = (round(fx + 0.05, 3), round(fy / 2, 3)), (round(rx + 0.02, 3), round(ry - 0.03, 3))

    def extent(t, axis):
        front = rotate(Point(fx, fy), t, origin=(0, 0), use_radians=True)
        own = math.atan2(front.y - ry, front.x - rx)
        shapes = [translate(rotate(housing, own, origin=(0, 0), use_radians=True), rx, ry),
                  rotate(Point(front_bracket), t, origin=(0, 0), use_radians=True), Point(rear_bracket)]
        pins = [Point(rx, ry), front]
        return max([s.bounds[2 + axis] for s in shapes] + [p.bounds[2 + axis] + rod for p in pins]) - line

    axis = count % 3 == 2
    if axis:
        start = 0
    low, high = math.radians(start), math.radians(open_deg)
    n = math.ceil((high - low) / STEP)
    theta = [low + (high - low) * i / n for i in range(n + 1)]
    x = [extent(t, axis) for t in theta]
    peaks = [(x[0], low), (x[n], high)]
    for i in range(1, n):
        if x[i] >= x[i - 1] and x[i] >= x[i + 1]:
            t = golden(lambda t: -extent(t, axis), theta[i - 1], theta[i + 1])
            peaks.append((extent(t, axis), t))
    most, at = max(peaks)
    if any(most - v < 1e-6 and abs(t - at) > 1e-6 for v, t in peaks):
        continue
    count += 1
    add(f"D{count}", "drive", {"rear_x": rx, "rear_y": ry, "front_x": fx, "front_y": fy, "overhang_m": over, "housing_m": ahead, "radius_m": radius, "rod_m": rod,
                               "front_bracket_x": front_bracket[0], "front_bracket_y": front_bracket[1], "rear_bracket_x": rear_bracket[0],
                               "rear_bracket_y": rear_bracket[1], "from_deg": start, "open_deg": open_deg, "line_m": line},
        {"open_m": x[n], "furthest_m": most, "at_deg": math.degrees(at)}, "y" if axis else "x")

count = 0
while count < 20:
    (width, thickness, offset), slab = leaf()
    open_deg, line, keep = random.randint(20, 130), round(random.uniform(0.05, 1.2) * width, 3), random.choice([0, 0.1])
    result = swing(lambda t: 100 + line - rotate(slab, t, origin=(0, 0), use_radians=True).bounds[3], math.radians(open_deg), 100 + keep)
    if result is None:
        continue
    count += 1
    add_swing(f"L{count}", "line", {"width_m": width, "thickness_m": thickness, "offset_m": offset, "open_deg": open_deg, "line_m": line, "keep_m": keep},
              (result[0] - 100, *result[1:]))

print('{"topic": "room in plan: swings measured by a general geometry library", "cases": [')
print(",\n".join(json.dumps(c, separators=(",", ":")) for c in cases))
print("]}")
