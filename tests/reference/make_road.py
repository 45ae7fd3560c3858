"""Standard speed traces driven by two invented cars: writes road_traces.csv. Standard library alone.

A second implementation of road load, gear rule (a quarter of full throttle in reserve) and slipping clutch, in plain numbers: newtons, metres, seconds.
"""

import csv
import math
import pathlib

HERE = pathlib.Path(__file__).parent
TRACES = HERE.parent.parent / "src" / "day" / "traces"
G = 9.80665
AIR = 1.2
RESERVE = 0.25


def table(name):
    text = (TRACES / f"{name}.csv").read_text()
    numbers = [n for line in text.splitlines() if not line.startswith("#") for n in line.split(",")]
    return [int(n) / 36.0 for n in numbers]


def european():
    """By intervals of constant acceleration, m/s² as the regulation's drivers' chart draws them: start, end, km/h."""
    def pieces(points):
        return [(a, b) for a, b in zip(points, points[1:])]

    urban = [(0, 0), (11, 0), (15, 15), (23, 15), (25, 10), (28, 0), (49, 0), (54, 15), (56, 15), (61, 32), (85, 32),
             (93, 10), (96, 0), (117, 0), (122, 15), (124, 15), (133, 35), (135, 35), (143, 50), (155, 50), (163, 35),
             (176, 35), (178, 32), (185, 10), (188, 0), (195, 0)]
    extra = [(0, 0), (20, 0), (25, 15), (27, 15), (36, 35), (38, 35), (46, 50), (48, 50), (61, 70), (111, 70), (119, 50),
             (188, 50), (201, 70), (251, 70), (286, 100), (316, 100), (336, 120), (346, 120), (362, 80), (370, 50),
             (380, 0), (400, 0)]
    speeds = [0.0]
    for points in [urban] * 4 + [extra]:
        for (t0, v0), (t1, v1) in pieces(points):
            speeds += [(v0 + (v1 - v0) * (t - t0) / (t1 - t0)) / 3.6 for t in range(t0 + 1, t1 + 1)]
    return speeds


CARS = {
    # mass, drag area, rolling, efficiency, rotating, gears m/s at 1000 rpm, idle, lugging, highest rpm, full-load rpm and W,
    # flat from, torque at idle
    "strong": (1400, 0.75, 0.012, 0.88, 1.05, [3.0, 5.0, 8.0, 11.0], 800, 1300, 6500, 5000, 140e3, 0.4, 0.65),
    "weak": (1500, 0.9, 0.013, 0.85, 1.06, [2.2, 4.0, 6.0, 8.5], 900, 1500, 6000, 5000, 40e3, 0.5, 0.6),
}


def most(car, rpm):
    idle, full, power, flat, left = car[6], car[9], car[10], car[11], car[12]
    if rpm < idle:
        return 0.0
    torque = 1.0 if rpm >= flat * full else left + (1 - left) * (rpm - idle) / (flat * full - idle)
    return power * min(1.0, rpm / full) * torque


def engine(car, v, a):
    """rpm, power given, power missing, wheel power."""
    mass, area, rolling, efficiency, rotating, gears, idle, lug, highest = car[:9]
    wheel = v * (mass * G * rolling + 0.5 * AIR * area * v * v + mass * rotating * a)
    if v == 0:
        return idle, 0.0, 0.0, 0.0
    speeds = [1000 * v / gear for gear in gears]
    usable = [rpm for rpm in reversed(speeds) if lug <= rpm <= highest]
    if wheel < 0:
        return (usable[0] if usable else idle), 0.0, 0.0, wheel
    asked = wheel / efficiency
    if not usable:
        asked *= lug / speeds[0]
        given = min(asked, most(car, lug))
        return lug, given, asked - given, wheel
    able = [rpm for rpm in usable if asked <= (1 - RESERVE) * most(car, rpm)]
    if able:
        return able[0], asked, 0.0, wheel
    best = max(usable, key=lambda rpm: most(car, rpm))
    given = min(asked, most(car, best))
    return best, given, asked - given, wheel


def main():
    traces = {"urban": table("urban"), "highway": table("highway"), "worldwide": table("worldwide"), "european": european()}
    rows = []
    for name, speeds in traces.items():
        distance = sum((v0 + v1) / 2 for v0, v1 in zip(speeds, speeds[1:]))
        for key, car in CARS.items():
            revolutions = given = missing = driving = braking = 0.0
            for v0, v1 in zip(speeds, speeds[1:]):
                rpm, power, lacks, wheel = engine(car, (v0 + v1) / 2, v1 - v0)
                revolutions += rpm / 60
                given += power
                missing += lacks
                driving += max(wheel, 0.0)
                braking += min(wheel, 0.0)
            rows.append([name, key, len(speeds) - 1, distance, driving, braking, given, missing, revolutions])
    with open(HERE / "road_traces.csv", "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["trace", "car", "seconds", "distance_m", "driving_work_J", "braking_work_J", "engine_work_J",
                         "missing_work_J", "revolutions"])
        writer.writerows([row[:3] + [f"{x:.9g}" for x in row[3:]] for row in rows])


if __name__ == "__main__":
    main()
