"""Writes supply_derived.json: rows worked by decimal arithmetic from the tabulated resistances.

Run as: python3 supply_derived.py > supply_derived.json

Independent of the Go code: the drop formula, the copper temperature factor and
the quadratic of a constant-power load in Decimal, and the run of a motor behind
a resistance by its circuit equations, solved by bisection.
"""
import json
from decimal import Decimal as D, getcontext

getcontext().prec = 28
CLASS2 = {"1.5": "12.1", "2.5": "7.41", "4": "4.61", "6": "3.08", "10": "1.83", "16": "1.15"}
CLASS5 = {"1.5": "13.3", "2.5": "7.98", "4": "4.95", "6": "3.30", "10": "1.91", "16": "1.21"}
cases = []


def add(id, model, given, want, absolute, source, option="", note=""):
    case = {"id": id, "model": model, "in": {k: float(v) for k, v in given.items()}}
    if option:
        case["option"] = option
    case |= {"want": {k: round(float(v), 6) for k, v in want.items()}, "absolute": absolute,
             "source": source, "basis": "computed"}
    if note:
        case["note"] = note
    cases.append(case)


DROP = "decimal arithmetic (supply_derived.py) on IEC 60228:2004 resistances as reproduced in public tables"
for id, table, size, length, amps, celsius, volts in [
    ("V5", CLASS5, "2.5", 50, 8, 20, 24), ("V6", CLASS2, "2.5", 50, 8, 20, 24),
    ("V7", CLASS5, "1.5", 30, 5, 20, 24), ("V8", CLASS5, "4", 100, 5, 20, 24),
    ("V9", CLASS5, "6", 100, 10, 40, 24), ("V10", CLASS5, "16", 100, 20, 70, 24),
    ("V16", CLASS5, "2.5", 0, 8, 20, 24),
]:
    r = D(table[size]) / 1000 * (D("234.5") + celsius) / D("254.5")
    drop = 2 * length * amps * r
    add(id, "drop", {"area_mm2": size, "length_m": length, "current_a": amps, "temperature_c": celsius, "voltage_v": volts},
        {"drop_v": drop, "share": drop / volts, "loss_w": drop * amps}, 1e-6, DROP, "class 5" if table is CLASS5 else "class 2")

for id, volts, amps, length, share in [("V11", 24, 5, 100, "0.10"), ("V12", 12, 5, 30, "0.05"), ("V13", 24, 8, 60, "0.05")]:
    most = D(share) * volts / (2 * length * amps) * 1000
    size = next(a for a in CLASS5 if D(CLASS5[a]) <= most)
    add(id, "smallest", {"voltage_v": volts, "current_a": amps, "length_m": length, "drop_limit": share},
        {"area_mm2": size, "most_ohm_per_km": most}, 1e-6, DROP)

loop = 2 * 100 * D(CLASS5["2.5"]) / 1000
root = (24 + (24 * 24 - 4 * 60 * loop).sqrt()) / 2
add("V14", "power", {"loop_ohm": loop, "voltage_v": 24, "power_w": 60},
    {"deliverable": 1, "load_v": root, "current_a": 60 / root, "most_w": 24 * 24 / (4 * loop)}, 1e-6,
    "decimal arithmetic (supply_derived.py) on the quadratic of a constant-power load")
add("V15", "power", {"loop_ohm": loop, "voltage_v": 12, "power_w": 60},
    {"deliverable": 0, "most_w": 12 * 12 / (4 * loop)}, 1e-6,
    "decimal arithmetic (supply_derived.py) on the quadratic of a constant-power load", note="no voltage carries this power: its discriminant is negative")

# D1 and D2: a 24 V motor of 0.8 ohm and 0.06 N m/A behind a line of 0.4 ohm.
# Circuit: 24 = i (0.8 + 0.4) + 0.06 w. The torque at which w reaches 0 by
# bisection, not by the closed form the Go code uses.
def speed(torque, line):
    return (24 - torque / 0.06 * (0.8 + line)) / 0.06


def stall(line):
    low, high = 0.0, 10.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if speed(middle, line) > 0 else (low, middle)
    return low


for id, line in [("D1", 0.4), ("D1-no-line", 0.0)]:
    add(id, "motor", {"voltage_v": 24, "winding_ohm": 0.8, "constant_v_s": 0.06, "no_load_a": 0, "line_ohm": line, "torque_nm": 0.18},
        {"stall_nm": stall(line), "no_load_rad_s": speed(0, line), "rad_s": speed(0.18, line), "current_a": 0.18 / 0.06}, 1e-6,
        "bisection on a motor's circuit equation (supply_derived.py)", note="D2 is the point at 0.18 N m: 340 rad/s with the line, 360 without")

add("D4", "source", {"voltage_v": 24, "loop_ohm": 0.938, "current_a": 8}, {"load_v": 24 - 0.938 * 8}, 5e-3,
    "decimal arithmetic (supply_derived.py): a source of 0.3 ohm and a line of 0.638 ohm")
add("D5", "source", {"voltage_v": 12, "loop_ohm": 0.339, "current_a": 10}, {"load_v": 12 - 0.339 * 10}, 1e-6,
    "decimal arithmetic (supply_derived.py): a battery of 20 mohm and a line of 0.319 ohm")

print('{"topic": "supply run: rows derived by arithmetic from tabulated resistances", "cases": [')
print(",\n".join(json.dumps(c) for c in cases))
print("]}")
