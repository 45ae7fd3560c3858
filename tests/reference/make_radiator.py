"""Reference tables of radiator cores and fans: radiator_ducts.csv, radiator_cores.csv, radiator_fans.csv.

A second implementation of the correlations, with the open libraries ht (Gnielinski, rectangular ducts), iapws (water) and
scipy (brentq). Cores and fans are invented.
"""
import csv, math
from pathlib import Path
import ht
from iapws import IAPWS97
from scipy.optimize import brentq

HERE = Path(__file__).parent


def write(name, heads, rows):
    with open(HERE / name, "w", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(heads)
        for row in rows:
            writer.writerow([f"{value:.8g}" for value in row])


def smooth(re):
    return (0.79 * math.log(re) - 1.64) ** -2


def end_value(a):
    # Shah and London, walls of one temperature; the fit for walls of one heat flux is in ht, and checked against it.
    return 7.541 * (1 - 2.610 * a + 4.970 * a**2 - 5.119 * a**3 + 2.702 * a**4 - 0.548 * a**5)


def laminar(re, pr, a, slender):
    x = slender / (re * pr)
    return end_value(a) + 0.024 * x**-1.14 / (1 + 0.0358 * pr**0.17 * x**-0.64)


def nusselt(re, pr, a, slender):
    if re <= 2300:
        return laminar(re, pr, a, slender)
    if re >= 4000:
        return ht.conv_internal.turbulent_Gnielinski(Re=re, Pr=pr, fd=smooth(re))
    part = (re - 2300) / 1700
    high = ht.conv_internal.turbulent_Gnielinski(Re=4000.0, Pr=pr, fd=smooth(4000.0))
    return (1 - part) * laminar(2300.0, pr, a, slender) + part * high


def ducts():
    rows = []
    for re in (50, 400, 1500, 2300, 2800, 3600, 4000, 8000, 20000, 1e5):
        for pr in (0.71, 2.0, 8.0, 30.0):
            for a, slender in ((0.0, 60), (0.08, 150), (0.3, 25)):
                rows.append([re, pr, a, slender, nusselt(re, pr, a, slender)])
    write("radiator_ducts.csv", ["Re", "Pr", "aspect", "slenderness", "Nu"], rows)


# across, along, depth, rows, tube width, tube thickness, tube pitch, wall, fin pitch, fin thickness: mm
CORES = [
    (450, 620, 56, 2, 25, 2.0, 10.0, 0.40, 1.8, 0.10, 1.1, 27, 0.85, 180, 180),
    (620, 450, 75, 4, 13, 2.2, 11.5, 0.15, 2.1, 0.06, 1.2, 25, 0.80, 110, 380),
    (380, 560, 32, 1, 32, 1.8, 9.0, 0.35, 1.5, 0.09, 1.0, 28, 0.88, 180, 180),
    (350, 400, 40, 2, 18, 2.0, 9.5, 0.30, 2.4, 0.08, 0, 0, 0, 110, 380),
    (600, 400, 20, 1, 18, 1.6, 8.0, 0.30, 1.3, 0.07, 0, 0, 0, 180, 180),
]
GAS, KAPPA, PRANDTL, PRESSURE = 287.05, 1006.0, 0.71, 101325.0


def core(sizes, face, flow, air, coolant):
    across, along, depth, rows, w, t, pitch, wall, pf, df, lp, angle, share, kt, kf = sizes
    across, along, depth, w, t, pitch, wall, pf, df, lp = (v * 1e-3 for v in (across, along, depth, w, t, pitch, wall, pf, df, lp))
    n = math.floor(across / pitch + 1e-9)
    fl = pitch - t
    fins = 2 * n * (along / pf) * fl * depth
    tubes = 2 * n * rows * w * along * (1 - df / pf)
    sigma = fl / pitch * (pf - df) / pf
    T = air + 273.15
    rho = PRESSURE / (GAS * T)
    mu = 1.716e-5 * (T / 273.15) ** 1.5 * 383.55 / (T + 110.4)
    flux = rho * face / sigma
    if lp:
        re = flux * lp / mu
        j = (re**-0.49 * (angle / 90) ** 0.27 * (pf / lp) ** -0.14 * (fl / lp) ** -0.29 * (depth / lp) ** -0.23
             * (share * fl / lp) ** 0.68 * (pitch / lp) ** -0.28 * (df / lp) ** -0.05)
        h = j * flux * KAPPA / PRANDTL ** (2 / 3)
    else:
        gap = pf - df
        d = 2 * gap * fl / (gap + fl)
        re = flux * d / mu
        h = nusselt(re, PRANDTL, gap / fl, depth / d) * (mu * KAPPA / PRANDTL) / d
    ml = math.sqrt(2 * h / (kf * df)) * fl / 2
    eta = math.tanh(ml) / ml
    outside = h * (fins * eta + tubes)
    water = IAPWS97(T=coolant + 273.15, P=0.15)
    iw, it = w - 2 * wall, t - 2 * wall
    section = (iw - it) * it + math.pi / 4 * it**2
    edge = 2 * (iw - it) + math.pi * it
    dh = 4 * section / edge
    rec = water.rho * flow / (n * rows * section) * dh / water.mu
    nu = nusselt(rec, water.cp * 1e3 * water.mu / water.k, it / iw, along / dh)
    inside = nu * water.k / dh * n * rows * edge * along
    ua = 1 / (1 / outside + wall / (kt * n * rows * edge * along) + 1 / inside)
    return [re, rec, eta, outside, inside, ua, ua / outside]


def cores():
    heads = ["across", "along", "depth", "rows", "tube_width", "tube_thickness", "tube_pitch", "wall", "fin_pitch", "fin",
             "louvre_pitch", "louvre_angle", "louvre_share", "k_tube", "k_fin", "face", "flow", "air", "coolant",
             "Re_air", "Re_tube", "eta", "outside", "inside", "UA", "air_share"]
    rows = []
    for sizes in CORES:
        for face, flow, air, coolant in ((5, 2.0e-3, 34, 90), (3, 0.6e-3, 20, 80), (9, 3.5e-3, 40, 100)):
            rows.append([*sizes, face, flow, air, coolant, *core(sizes, face, flow, air, coolant)])
    write("radiator_cores.csv", heads, rows)


def fans():
    rows = []
    for stall, free, count in ((220, 0.7, 1), (180, 0.43, 2), (300, 1.4, 1)):
        for area, drawn in ((0.28, 1.0), (0.28, 0.45), (0.18, 0.9)):
            for pressure, exponent in ((160, 1.6), (80, 1.4), (300, 1.8)):
                for turn in (1.0, 0.5, 1.4):
                    for density in (1.2, 0.95):
                        relative = density / 1.2

                        def excess(flow):
                            fan = turn**2 * relative * stall * (1 - flow / (count * turn * free))
                            v = flow / (area * drawn)
                            return fan - pressure * (v / 5) ** exponent * relative ** (exponent - 1)

                        flow = brentq(excess, 0.0, count * turn * free, xtol=1e-14, rtol=1e-12)
                        rows.append([stall, free, count, area, drawn, pressure, exponent, turn, density, flow, flow / area])
    write("radiator_fans.csv", ["stall", "free", "count", "area", "drawn", "pressure", "exponent", "turn", "density", "flow",
                                "face_velocity"], rows)


if __name__ == "__main__":
    ducts()
    cores()
    fans()
