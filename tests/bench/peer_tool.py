# SPDX-License-Identifier: GPL-3.0-or-later
"""Tools of many cuts in NumPy, elastic, conducting and vibrating: see peer_numpy.py."""
from types import SimpleNamespace

import numpy as np

from peer_force import FLUTES

CONE_TANGENT = 0.26794919243112270  # 15 degrees, between flutes and shank

def shaft_of(c, share):
    """Steps from the tip: (length, diameter at the tip's side, at the holder's side)."""
    flutes = np.minimum(c.flute_length, c.stickout)
    left = c.stickout - flutes
    whole = (c.shank_diameter - c.diameter) * (0.5 / CONE_TANGENT)
    cone = np.minimum(whole, left)
    with np.errstate(divide="ignore", invalid="ignore"):
        grown = np.where(whole > 0.0, cone / whole, 1.0)
        end = c.diameter + (c.shank_diameter - c.diameter) * grown
    thin = share * c.diameter
    return [(flutes, thin, thin), (cone, c.diameter, end),
            (left - cone, c.shank_diameter, c.shank_diameter)]


def reaches(steps, load):
    """Of each step, from the load towards the holder: ends, and diameters there."""
    start = 0.0
    for length, tip, holder in steps:
        end = start + length
        cut = np.clip(load, start, end)
        share = (cut - start) / np.where(length > 0.0, length, 1.0)
        yield np.maximum(start - load, 0.0), np.maximum(end - load, 0.0), \
            tip + (holder - tip) * share, holder
        start = end


def bending(c, load):
    """Compliance at the load, m/N, and slope, rad/N; a cone in closed form, shear by Cowper."""
    square = line = area = 0.0
    steps = shaft_of(c, c.stiff_share)
    for start, end, near, far in reaches(steps, load):
        w1, w2, scale = start / near, end / far, (end - start) / (near * far)
        square = square + scale * (w1 * w1 + w1 * w2 + w2 * w2)
        line = line + scale * (2.0 * (w1 / near + w2 / far) + w1 / far + w2 / near)
        area = area + scale
    flexibility = 64.0 / (np.pi * c.tool_modulus)
    shear = c.tool_modulus / (2.0 * (1.0 + c.tool_poisson))
    kappa = 6.0 * (1.0 + c.tool_poisson) / (7.0 + 6.0 * c.tool_poisson)
    tool = flexibility * square / 3.0 + 4.0 * area / (np.pi * kappa * shear)
    return SimpleNamespace(tool=tool, compliance=tool + 1.0 / c.machine_stiffness,
                           slope=flexibility * line / 6.0, load=load,
                           frequency=rayleigh(c, steps))


GAUSS = np.polynomial.legendre.leggauss(4)  # exact up to the seventh power


def rayleigh(c, steps):
    """Frequency of the shape that a force at the tip bends: w^2 = y(0)/integral of rho A y^2."""
    x = c.stickout
    y = slope = moved = np.zeros_like(x)
    for length, tip, holder in reversed(steps):
        square = tip * holder
        curve = 64.0 / (np.pi * c.tool_modulus * square * square)
        for at, weight in zip(*GAUSS):
            u = 0.5 * (1.0 + at) * length
            there = y + slope * u + curve * u * u * (0.5 * x - u / 6.0)
            moved = moved + 0.5 * weight * length * square * there * there
        y = y + slope * length + curve * length * length * (0.5 * x - length / 6.0)
        slope = slope + curve * length * (x - 0.5 * length)
        x = x - length
    return np.sqrt(y / (0.25 * np.pi * c.tool_density * moved)) / (2.0 * np.pi)


def stress_of(c, load, side, torque):
    """Largest principal stress over the ends of the steps, on the core."""
    worst = np.zeros_like(side)
    for start, end, near, far in reaches(shaft_of(c, c.core_share), load):
        for arm, diameter in ((start, near), (end, far)):
            cube = np.pi * diameter ** 3
            sigma, tau = 32.0 * side * arm / cube, 16.0 * torque / cube
            stress = 0.5 * sigma + np.sqrt(0.25 * sigma * sigma + tau * tau)
            worst = np.where(end > start, np.maximum(worst, stress), worst)
    return worst


BESSEL_TERMS = 24
FACTORIAL = np.cumprod(np.concatenate(([1.0], np.arange(1.0, BESSEL_TERMS + 3))))
HARMONIC = np.concatenate(([0.0], np.cumsum(1.0 / np.arange(1.0, BESSEL_TERMS + 2))))
BESSEL_I = [1.0 / (FACTORIAL[:BESSEL_TERMS] * FACTORIAL[n:BESSEL_TERMS + n]) for n in range(3)]
BESSEL_K = [BESSEL_I[0] * (HARMONIC[:BESSEL_TERMS] - np.euler_gamma),
            BESSEL_I[1] * (HARMONIC[:BESSEL_TERMS] + HARMONIC[1:BESSEL_TERMS + 1]
                           - 2.0 * np.euler_gamma)]


def bessel(z):
    """I1, I2, K1, K2 by their power series (Abramowitz and Stegun 9.6.10, 9.6.11), z below 6."""
    square = 0.25 * z * z
    terms = 12 if square.max() < 1.0 else BESSEL_TERMS
    polynomial = lambda coefficients: np.polynomial.polynomial.polyval(square, coefficients[:terms])
    i0, i1, i2 = (polynomial(BESSEL_I[n]) * (0.5 * z) ** n for n in range(3))
    logarithm = np.log(0.5 * z)
    k0 = polynomial(BESSEL_K[0]) - logarithm * i0
    k1 = 1.0 / z + logarithm * i1 - 0.25 * z * polynomial(BESSEL_K[1])
    return i1, i2, k1, k0 + 2.0 * k1 / z


def fin(c):
    """The tool as a fin heated at its tip: resistance, K/W, and share of the air's temperature."""
    k, transfer = c.tool_conductivity, c.cooling
    resistance, passed = np.zeros_like(c.diameter), np.ones_like(c.diameter)
    for n, (length, tip, holder) in reversed(list(enumerate(shaft_of(c, c.core_share)))):
        mean = np.sqrt(tip * holder)
        m = np.sqrt(4.0 * transfer / (k * mean))
        own = 0.25 * np.pi * mean * mean * k * m
        a, b, g, d = np.cosh(m * length), np.sinh(m * length) / own, own * np.sinh(m * length), \
            np.cosh(m * length)
        if n == 1:
            cone = holder - tip >= 1e-7 * mean
            a, b, g, d = (np.where(cone, new, old) for new, old in
                          zip(cone_port(np.where(cone, length, 1.0), tip,
                                        np.where(cone, holder, 2.0 * tip), k, transfer),
                              (a, b, g, d)))
        over = 1.0 / (d + g * resistance)
        conducts = m * length < 1e-4
        plain = resistance + 4.0 * length / (np.pi * k * tip * holder)
        resistance = np.where(conducts, plain, (a * resistance + b) * over)
        passed = np.where(conducts, passed, passed * over)
    return resistance, 1.0 - passed


def cone_port(length, tip, holder, k, transfer):
    """Rise and flow at the tip of a conical fin, theta = (c1 I1(z) + c2 K1(z))/z, from those at the
    holder; the flow is pi k s d z/8 times d theta/dz, s the taper."""
    taper = (holder - tip) / length
    root = 4.0 * np.sqrt(transfer / k) / taper
    zt, zh = root * np.sqrt(tip), root * np.sqrt(holder)
    it1, it2, kt1, kt2 = bessel(zt)
    ih1, ih2, kh1, kh2 = bessel(zh)
    lead = 0.125 * np.pi * k * taper
    lt, lh = lead * tip * zt, lead * holder * zh
    scale = zh * zh / zt
    return (scale * (kh2 * it1 + ih2 * kt1), scale / lh * (ih1 * kt1 - kh1 * it1),
            scale * lt * (ih2 * kt2 - kh2 * it2), scale * lt / lh * (kh1 * it2 + ih1 * kt2))


# ---- chatter ----

def eigenvalues(span, ratio):
    """Of the averaged directional factors: real, imaginary, phase of i times them."""
    sine = np.sin(span)
    square = (ratio * sine) ** 2 - (span - sine) * (span + sine)
    root = np.sqrt(np.abs(square))
    for sign in (1.0, -1.0):
        real = -ratio * span + sign * np.where(square > 0.0, root, 0.0)
        imaginary = sign * np.where(square > 0.0, 0.0, root)
        yield real, imaginary, np.mod(np.arctan2(imaginary, real) + 0.5 * np.pi, 2.0 * np.pi)


def ratio_at(zeta, x):
    """Frequency over natural frequency where the response lags by psi, x = -cot(psi)."""
    root = np.sqrt(1.0 + (zeta * x) ** 2)
    return np.where(x > 0.0, root + zeta * x, 1.0 / (root - zeta * x)), root


def first_guess(zeta, tau, wanted):
    p = 2.0 / np.pi
    rest = wanted - np.pi - tau
    size = np.abs(rest)
    line = tau * zeta + 2.0 - p * size
    square = tau * zeta * p
    root = np.sqrt(line * line + 4.0 * square * size)
    x = np.where(line > 0.0, 2.0 * size / (line + root), (root - line) / (2.0 * square))
    low = np.maximum(wanted / (tau + np.pi), (wanted - np.pi) / tau)
    w = np.where(rest < 0.0, np.minimum(np.maximum(1.0 - zeta * x, low), 1.0),
                 np.minimum(np.maximum(1.0 + zeta * x, 1.0), wanted / tau))
    return (w * w - 1.0) / (2.0 * zeta * w)


def lobe_depth(real, imaginary, phase, lobe, zeta, stiffness, force, tau):
    """w tau + 2 psi = 2 c + 2 pi lobe, by Householder's method of the third order."""
    wanted = 2.0 * phase + 2.0 * np.pi * lobe
    exists = wanted > 0.0
    wanted = np.where(exists, wanted, 1.0)
    x = first_guess(zeta, tau, wanted)
    for _ in range(3):
        w, root = ratio_at(zeta, x)
        u = 1.0 / (1.0 + x * x)
        curve = tau * zeta * zeta / root ** 3
        gap = tau * w + 2.0 * np.arctan(x) - (wanted - np.pi)
        d1 = tau * zeta * w / root + 2.0 * u
        d2 = curve - 4.0 * x * u * u
        d3 = (12.0 * x * x - 4.0) * u ** 3 - 3.0 * curve * zeta * zeta * x / (root * root)
        x = x - 3.0 * gap * (2.0 * d1 * d1 - gap * d2) / (
            6.0 * d1 * (d1 * d1 - gap * d2) + gap * gap * d3)
    w, _ = ratio_at(zeta, x)
    grows = imaginary - x * real
    exists &= grows > 0.0
    depth = 4.0 * np.pi * stiffness * zeta * w * (1.0 + x * x) / (
        force * np.where(exists, grows, 1.0))
    return np.where(exists, depth, np.inf)


def mode_depth(c, roots, k_t, span, surface_speed, edge_radius, frequency, stiffness, zeta):
    tau = 2.0 * np.pi * frequency / (FLUTES * c.spindle_speed)
    force = FLUTES * k_t
    best = np.full_like(tau, np.inf)
    for real, imaginary, phase in roots:
        cotangent = real / (np.hypot(real, imaginary) + imaginary)
        w = np.maximum(1.0 - zeta * cotangent, 0.0)
        lag = np.arctan2(2.0 * zeta * w, 1.0 - w * w)
        first = np.floor((w * tau + 2.0 * lag - 2.0 * phase) / (2.0 * np.pi))
        for lobe in (first, first + 1.0):
            best = np.minimum(best, lobe_depth(real, imaginary, phase, lobe, zeta, stiffness, force,
                                               tau))
    damping = 2.0 * edge_radius * force * span * frequency / (surface_speed * stiffness * zeta)
    share = best * damping  # the flank presses on the waves
    with np.errstate(invalid="ignore"):
        return np.where(share < 0.98, best / np.where(share < 0.98, 1.0 - share, 1.0), np.inf)


def chatter(c, span, k_t, surface_speed, edge_radius, tool):
    roots = list(eigenvalues(span, 0.3))
    of = lambda *mode: mode_depth(c, roots, k_t, span, surface_speed, edge_radius, *mode)
    alone = of(c.tool_frequency_share * tool.frequency, 1.0 / tool.tool, c.tool_damping)
    stiffness, share = c.machine_stiffness, c.frame_share
    spindle = of(c.spindle_frequency, stiffness / (1.0 - share), c.spindle_damping)
    frame = of(c.frame_frequency, stiffness / share, c.frame_damping)
    return alone, np.minimum(alone, np.minimum(spindle, frame))
