"""Expected values of motion.json, from closed forms with Python's math module.

Run it to print them: python3 motion_rows.py
"""

import math


def trapezoid(travel, speed, ramp):
    """Time and peak speed from rest to rest with equal ramps at both ends."""
    if travel >= speed**2 / ramp:
        return travel / speed + speed / ramp, speed
    return 2 * math.sqrt(travel / ramp), math.sqrt(travel * ramp)


def share_of_time(travel, time, share):
    """Speed and ramp when a share of the time goes to each ramp."""
    speed = travel / (time * (1 - share))
    return speed, speed / (share * time)


def on_line(open_angle, arm, inertia, moment, stall, no_load):
    """Time to open at a constant arm on a straight load line, no profile.

    m dv/dt = stall (1 - v/no_load) - moment/arm with m = inertia/arm^2 gives
    v = u (1 - exp(-t/tau)), s = u (t - tau (1 - exp(-t/tau))); solved for t.
    """
    mass = inertia / arm**2
    tau = mass * no_load / stall
    u = no_load * (1 - moment / (arm * stall))
    travel = open_angle * arm
    low, high = 0.0, travel / u + 10 * tau
    for _ in range(200):
        t = (low + high) / 2
        if u * (t - tau * (1 - math.exp(-t / tau))) < travel:
            low = t
        else:
            high = t
    return t, u * (1 - math.exp(-t / tau))


quarter = math.pi / 2
print("thirds, 15 s", share_of_time(quarter, 15, 1 / 3))
print("quarters, 12 s", share_of_time(quarter, 12, 1 / 4))
print("trapezoid", trapezoid(quarter, 0.15, 0.05))
print("triangle", trapezoid(quarter, 0.30, 0.05))
speed, ramp = share_of_time(quarter, 15, 1 / 3)
print("leaf of 490 kg m2 against 80 N m: thrust, work, energy, edge speed",
      80 + 490 * ramp, 80 * quarter, 490 / 2 * speed**2, 3.5 * speed)
for row in [
    (quarter, 0.15, 490, 80, 2000, 0.02),
    (quarter, 0.15, 2000, 80, 1200, 0.02),
    (1.9, 0.20, 60, 150, 1000, 0.015),
]:
    print("load line", row, on_line(*row))
