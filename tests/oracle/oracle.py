# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes the engine's numbers again by other means: mpmath for integrals, beams, fins and quantiles, GNU units and udunits2 for conversions.

numbers | python3 oracle.py. Ends with 0 where all agree, 1 where one does not, 77 where mpmath is not there."""
import shutil
import subprocess
import sys

try:
    import mpmath as mp
except ImportError:
    print("oracle: mpmath is not here (python3-mpmath): skipped")
    sys.exit(77)

mp.mp.dps = 30

# What GNU units calls what it does not know by our name; None: a name of the trade that stands for another line here.
NAMES = {
    "thou": "mil", "tenth": "0.1 mil", "tenths": "0.1 mil", "uin": "microinch", '"': "inch", "\u00b5m": "micrometer", "\u03bcm": "micrometer",
    "um": "micrometer", "deg": "degree", "\u00b0": "degree", "rad": "radian", "rpm": "1/minute", "hz": "1/s", "rev/s": "1/s", "1/min": "1/minute",
    "ipm": "inch/minute", "in/min": "inch/minute", "in/s": "inch/s", "mm/min": "mm/minute", "m/min": "m/minute", "ft/min": "ft/minute",
    "sfm": "ft/minute", "fpm": "ft/minute", "ipt": "inch", "lbf/in": "lbf/inch", "ksi": "1000 psi", "hp": "horsepower", "min": "minute",
    "cm3/min": "cm^3/minute", "mm3/min": "mm^3/minute", "in3/min": "inch^3/minute",
}


def plain(name):
    """Our spelling in that of GNU units: exponents marked, teeth left out."""
    if name in NAMES:
        return NAMES[name]
    name = name.replace("/tooth", "").replace("Nm", "N m").replace("in-lbf", "inch lbf")
    for unit in ("mm", "cm", "m", "in", "ft", "s"):
        for power in "23":
            name = name.replace(unit + power, unit + "^" + power)
    return name.replace("in^", "inch^").replace("\u00b5", "u").replace("%", "0.01")


def by_units(name, si):
    si = si.replace("1/rad", "1/radian").replace("m2", "m^2").replace("m3", "m^3").replace("s2", "s^2").replace("rad", "radian").replace("radianian", "radian")
    done = subprocess.run(["units", "-t", "-o", "%.15g", plain(name), si or "1"], capture_output=True, text=True)
    try:
        return float(done.stdout.strip())
    except ValueError:
        return None


def by_udunits(name, si):
    """The SI value of one such unit, offsets of temperatures in it; None: udunits2 does not know it."""
    si = si.replace("1/rad", "1/radian").replace("m2", "m^2").replace("m3", "m^3").replace("s2", "s^2").replace("rad", "radian").replace("radianian", "radian")
    have = plain(name).replace("mil", "0.001 inch")
    done = subprocess.run(["udunits2", "-H", "1 " + have, "-W", si or "1"], capture_output=True, text=True)
    for line in done.stdout.splitlines():
        left, equals, right = line.partition(" = ")
        if equals and left.strip() == "1 " + have:
            try:
                return float(right.split()[0])
            except ValueError:
                return None
    return None


def bend(tip, shank):
    """Integral of 64 x^2/(pi E d^4) from the tip to the holder."""
    first, cone, last = 3 * tip, mp.mpf("2e-3"), mp.mpf("8e-3")
    whole = lambda d: (lambda x: 64 * x**2 / (mp.pi * mp.mpf("580e9") * d(x) ** 4))
    slope = (shank - tip) / cone
    return (mp.quad(whole(lambda x: tip), [0, first]) + mp.quad(whole(lambda x: tip + slope * (x - first)), [first, first + cone])
            + mp.quad(whole(lambda x: shank), [first + cone, first + cone + last]))


def ring(tip, shank):
    """First frequency by the matching of two beams: eight boundary conditions, a determinant."""
    e, rho = mp.mpf("580e9"), mp.mpf(14900)
    lengths, diameters = (mp.mpf("8e-3"), 3 * tip), (shank, tip)  # clamp first

    def det(omega):
        b = [mp.sqrt(omega) * (rho * 16 / (e * d**2)) ** mp.mpf("0.25") for d in diameters]
        ei = [e * mp.pi * d**4 / 64 for d in diameters]
        f = lambda k, x, n: [b[k] ** n * v for v in (
            [mp.cos(x), mp.sin(x), mp.cosh(x), mp.sinh(x)], [-mp.sin(x), mp.cos(x), mp.sinh(x), mp.cosh(x)],
            [-mp.cos(x), -mp.sin(x), mp.cosh(x), mp.sinh(x)], [mp.sin(x), -mp.cos(x), mp.sinh(x), mp.cosh(x)])[n]]
        o = [mp.mpf(0)] * 4
        rows = [f(0, 0, 0) + o, f(0, 0, 1) + o]
        for n in range(4):
            s = 1 if n < 2 else 0
            left = f(0, b[0] * lengths[0], n)
            right = f(1, 0, n)
            rows.append([v * (1 if s else ei[0]) for v in left] + [-v * (1 if s else ei[1]) for v in right])
        rows += [o + f(1, b[1] * lengths[1], 2), o + f(1, b[1] * lengths[1], 3)]
        scaled = [[v / max(abs(w) for w in row) for v in row] for row in rows]
        return mp.det(mp.matrix(scaled))

    low = mp.mpf(2000) * 2 * mp.pi
    step = mp.mpf("1.05")
    before = det(low)
    while True:
        high = low * step
        now = det(high)
        if before * now < 0:
            return mp.findroot(det, (low, high), solver="anderson", tol=1e-40) / (2 * mp.pi)
        low, before = high, now


def bent(tip, shank):
    """Rayleigh's frequency of the shape under 1 N at the tip: deflections by the unit load, one integral inside another."""
    e, rho = mp.mpf("580e9"), mp.mpf(14900)
    first, whole = 3 * tip, 3 * tip + mp.mpf("8e-3")
    d = lambda x: tip if x < first else shank
    cuts = lambda x: [x] + [p for p in (first, whole) if p > x]
    quad = lambda f, over: mp.quad(f, over, method="gauss-legendre", maxdegree=2)  # of polynomials: exact
    y = lambda x: quad(lambda s: (s - x) * s * 64 / (e * mp.pi * d(s) ** 4), cuts(x))
    moved = quad(lambda x: rho * mp.pi / 4 * d(x) ** 2 * y(x) ** 2, [0, first, whole])
    return mp.sqrt(y(mp.mpf(0)) / moved) / (2 * mp.pi)


def fin_source(tip, shank):
    """Resistance and the air's share, from two solutions: one insulated at the tip, one with a unit of heat entering there."""
    k, h = mp.mpf(80), mp.mpf(400)
    first, cone, last = 3 * tip, mp.mpf("2e-3"), mp.mpf("8e-3")

    def run(temperature, heat):
        x = mp.mpf(0)
        for start_d, end_d, length in ((tip, tip, first), (tip, shank, cone), (shank, shank, last)):
            steps = 300
            dx = length / steps
            for i in range(steps):
                def slope(share, t, q):
                    d = start_d + (end_d - start_d) * share
                    return q / (k * mp.pi * d**2 / 4), h * mp.pi * d * t
                s = mp.mpf(i) / steps
                m = (mp.mpf(i) + mp.mpf("0.5")) / steps
                n = mp.mpf(i + 1) / steps
                a = slope(s, temperature, heat)
                b = slope(m, temperature + dx / 2 * a[0], heat + dx / 2 * a[1])
                c = slope(m, temperature + dx / 2 * b[0], heat + dx / 2 * b[1])
                e = slope(n, temperature + dx * c[0], heat + dx * c[1])
                temperature += dx / 6 * (a[0] + 2 * b[0] + 2 * c[0] + e[0])
                heat += dx / 6 * (a[1] + 2 * b[1] + 2 * c[1] + e[1])
        return temperature

    still = run(mp.mpf(1), mp.mpf(0))  # holder's temperature over the air's for a tip at 1
    fed = run(mp.mpf(0), mp.mpf(-1))  # what a unit of heat adds there for a tip at 0
    return -fed / still, 1 - 1 / still


def chip(enter, leave, flutes, feed):
    """h_j = max(0, min over m of [m fz sin phi + R_j - R_(j-m)]), its integral over the arc, all teeth."""
    tir = mp.mpf("8e-6")
    turn = 2 * mp.pi / flutes
    place = mp.pi / 2 - turn / 2
    radius = lambda j: tir / 2 * mp.cos(place - turn * j) if flutes > 1 else mp.mpf(0)
    total = mp.mpf(0)
    for j in range(flutes):
        step = lambda m: mp.mpf(0) if m == flutes else radius(j) - radius(j - m)
        h = lambda phi: max(mp.mpf(0), min(m * feed * mp.sin(phi) + step(m) for m in range(1, flutes + 1)))
        points = 4000
        with mp.workdps(16):
            dx = (leave - enter) / points
            total += sum(h(enter + dx * (i + mp.mpf("0.5"))) for i in range(points)) * dx
    return total


def direction(enter, leave, ratio):
    """Means of what a tooth's forces do along both axes, by quadrature."""
    s, c = mp.sin, mp.cos
    whole = (lambda p: -(s(2 * p) + ratio * (1 - c(2 * p))), lambda p: -((1 + c(2 * p)) + ratio * s(2 * p)),
             lambda p: (1 - c(2 * p)) - ratio * s(2 * p), lambda p: s(2 * p) - ratio * (1 + c(2 * p)))
    return [mp.quad(f, [enter, leave]) for f in whole]


def main():
    counts, failed = {}, 0
    have_units = shutil.which("units") is not None
    have_udunits = shutil.which("udunits2") is not None

    def compare(what, name, got, wanted, share):
        nonlocal failed
        counts[what] = counts.get(what, 0) + 1
        if abs(got - wanted) > share * max(abs(wanted), mp.mpf("1e-300")):
            failed += 1
            print("oracle: %s %s: %s, but %s by other means" % (what, name, mp.nstr(mp.mpf(got), 12), mp.nstr(mp.mpf(wanted), 12)))

    for line in sys.stdin:
        what, *rest = line.rstrip("\n").split("\t")
        if what == "unit":
            name, si, scale, offset = rest
            difference = name in ("degc", "degf") and float(offset) == 0.0  # which udunits2 takes for a temperature
            if have_udunits and name and not difference:
                other = by_udunits(name, si)
                if other is None:
                    counts["unit not known to udunits2"] = counts.get("unit not known to udunits2", 0) + 1
                else:
                    compare("unit by udunits2", name, float(scale) + float(offset), other, 2e-6)  # it prints six digits
            if not have_units or float(offset) != 0.0 or not name:
                continue
            other = by_units(name, si)
            if other is None:
                counts["unit not known to the oracle"] = counts.get("unit not known to the oracle", 0) + 1
            else:
                compare("unit", name, float(scale), other, 1e-12)
            continue
        numbers = [mp.mpf(x) for x in rest]
        if what == "normal":
            compare(what, rest[0], numbers[1], mp.sqrt(2) * mp.erfinv(2 * numbers[0] - 1), 1e-9)
        elif what == "bend":
            compare(what, rest[0], numbers[2], bend(*numbers[:2]), 1e-12)
        elif what == "ring":
            compare(what, rest[0], numbers[2], ring(*numbers[:2]), 1e-9)
        elif what == "bent":
            compare(what, rest[0], numbers[2], bent(*numbers[:2]), 1e-9)
        elif what == "fin":
            resistance, air = fin_source(*numbers[:2])
            compare(what, rest[0], numbers[2], resistance, 1e-7)
            compare(what, rest[0], numbers[3], air, 1e-6)
        elif what == "chip":
            compare(what, rest[0], numbers[4], chip(numbers[0], numbers[1], int(numbers[2]), numbers[3]), 1e-5)
        elif what == "direction":
            for got, wanted in zip(numbers[3:], direction(*numbers[:3])):
                if abs(wanted) > 1e-6:
                    compare(what, rest[0], got, wanted, 1e-12)
        else:
            failed += 1
            print("oracle: nobody makes %s again" % what)
    if not have_units:
        print("oracle: units is not here: conversions skipped")
    if not have_udunits:
        print("oracle: udunits2 is not here: conversions skipped")
    print("oracle: " + ", ".join("%d %s" % (n, w) for w, n in sorted(counts.items())) + "; %d disagree" % failed)
    return 1 if failed or not counts else 0


sys.exit(main())
