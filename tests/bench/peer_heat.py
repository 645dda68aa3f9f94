# SPDX-License-Identifier: GPL-3.0-or-later
"""Heat of many cuts in NumPy: see peer_numpy.py."""
from types import SimpleNamespace

import numpy as np

try:
    from scipy.special import erfc
except ImportError:
    def erfc(x):
        """By its series below 2.5 (as erf) and its continued fraction above, good to 1e-12."""
        low, high = np.minimum(x, 2.5), np.maximum(x, 2.5)
        term = total = low
        for n in range(1, 40):
            term = term * (2.0 * low * low / (2.0 * n + 1.0))
            total = total + term
        fraction = high
        for n in range(60, 0, -1):
            fraction = high + 0.5 * n / fraction
        root = np.sqrt(np.pi)
        return np.where(x < 2.5, 1.0 - 2.0 / root * np.exp(-low * low) * total,
                        np.exp(-high * high) / (root * fraction))


def weiner(x):
    """Share of the shear heat that stays in the work (Weiner 1955)."""
    y = np.minimum(0.25 * x, 100.0)
    root = np.sqrt(y)
    closed = 1.0 / x + (1.0 + y - 0.25 / y) * erfc(root) - np.exp(-y) / np.sqrt(np.pi) * (
        0.5 / root + root)
    near = 1.0 + y  # the closed form is a difference of equal terms where y is small
    factorial = 1.0
    for m in range(6):
        factorial *= max(m, 1)
        near = near + root / np.sqrt(np.pi) * 8.0 * (-y) ** m / (
            factorial * (2 * m - 1) * (2 * m + 1) * (2 * m + 3))
    return np.where(y < 0.01, near, closed)


def rectangle(r):
    """Abar of a rectangular source on a half-space, sides in the ratio r."""
    root = np.sqrt(1.0 + r * r)
    return 2.0 / np.pi * (np.arcsinh(r) + r * np.arcsinh(1.0 / r)
                          - (r / (root + r) + r / (root + 1.0)) / 3.0)


def heat_of(c, chip, p, contact, least, removal, engaged, resistance, air_share, through):
    sliding = 0.752
    volumetric = c.density * c.heat_capacity
    a = c.conductivity / volumetric
    speed, teeth = contact.speed, contact.teeth
    h = np.maximum(contact.chip, least)
    teeth_chip = teeth * contact.chip / h
    radius, width = 0.5 * c.diameter, engaged * c.diameter
    peclet = c.feed_rate * radius / a * np.minimum(1.0, width / radius) ** 1.4
    e = np.zeros_like(a) if through else 0.64 * (c.feed_rate * c.depth / a) ** -0.90
    q = 0.85 * peclet ** -0.87 + 0.455 * peclet ** -0.19
    met = np.minimum(c.walk_share / (1.0 + q + e + 0.83 * (q * e) ** 0.68), 1.0)
    deep = 1.0 / (1.0 + (0.25 * c.feed_rate * chip.real / a) ** 1.5)
    sink = c.holder_temperature + air_share * (c.room_temperature - c.holder_temperature)

    tangent = np.cos(c.rake) / (c.chip_ratio - np.sin(c.rake))  # of the shear angle
    gamma = weiner(speed * h / a * tangent)
    length = h * (c.chip_ratio + (1.0 - c.chip_ratio * np.sin(c.rake)) / np.cos(c.rake))
    land = 2.0 * contact.edge_radius
    effusivity = np.sqrt(c.conductivity * volumetric)
    stream = teeth_chip * c.depth * h * speed
    swept = teeth * c.depth * speed
    edge = p.edge_tangential
    plough = c.edge_share * c.sublayer_share
    friction = c.friction_share * p.tangential
    shear = c.heat_share * (1.0 - c.friction_share) * p.tangential

    # contacts: an impedance on either side
    rake_time = np.sqrt(length * c.chip_ratio / speed)
    rake_tool = length * rectangle(0.5 * c.depth / length) / c.tool_conductivity
    rake_area = teeth_chip * length * c.depth
    plain = rake_area / (sliding * rake_time / effusivity + rake_tool)
    capacity = np.where(stream > 0.0, stream * volumetric, 1.0)
    rake = -capacity * np.expm1(-plain / capacity)
    cuts = rake_area > 0.0
    rake_resistance = np.where(cuts, rake_tool / np.where(cuts, rake_area, 1.0), 0.0)
    flank_time = np.sqrt(land / speed)
    flank_work = sliding * flank_time / effusivity
    flank_tool = land * rectangle(0.5 * c.depth / land) / c.tool_conductivity
    flank = teeth * land * c.depth / (flank_work + flank_tool)
    split = plough * flank_work / (flank_work + flank_tool)
    shear_rise = (1.0 - gamma) * shear / volumetric
    rake_drive = c.sublayer_share * sliding * friction * h * c.chip_ratio / (effusivity * rake_time)
    edge_drive = plough * sliding * edge / (effusivity * flank_time)
    into_work = gamma * shear * stream + swept * edge

    # balance of the tool, T = level + gain * preheat, and of the work, at s = 0 and for each s
    conductance = rake + flank + 1.0 / resistance
    gain = (rake + flank * deep) / conductance
    kappa = met / (volumetric * removal)

    def balance(rake_rise, flank_rise, tool_rise, work):
        level = (rake * rake_rise + flank * flank_rise + tool_rise / resistance) / conductance
        cold = flank * (flank_rise - level)
        slope = flank * (deep - gain)
        preheat = kappa * (work - cold) / (1.0 + kappa * slope)
        tool = level + gain * preheat
        return preheat, tool, rake * (rake_rise + preheat - tool), cold + slope * preheat

    without = balance(shear_rise, edge_drive, sink - c.room_temperature, into_work)
    each = balance(rake_drive, 0.0, 0.0, 0.0)
    base = without[1] + rake_resistance * without[2]
    rise = each[1] + rake_resistance * each[2]
    soft = (c.transition - 40.0) - c.room_temperature  # softens from here on, by 0.9 over 100 K
    share = np.clip((1.0 - 0.009 * (base - soft)) / (1.0 + 0.009 * rise), 0.1, 1.0)
    share = np.where(stream > 0.0, share, 1.0)
    preheat, tool, into_rake, into_flank = (x + share * y for x, y in zip(without, each))

    edge_energy = (1.0 - split) * edge
    layer = c.skin_depth * contact.edge_radius
    skin = c.room_temperature + deep * preheat + edge_energy / (
        volumetric * layer + 0.5 * np.sqrt(np.pi) * effusivity * flank_time)
    tool_temperature = c.room_temperature + tool
    tool_effusivity = np.sqrt(c.tool_conductivity * c.tool_density * c.tool_heat_capacity)
    of_chip = shear_rise + (friction * stream - into_rake) / capacity
    rises = preheat + np.where(stream > 0.0, of_chip, 0.0)
    return SimpleNamespace(
        volumetric=volumetric, diffusivity=a, chip_mean=h, preheat=preheat, tool=tool_temperature,
        film=(tool_effusivity * tool_temperature + effusivity * skin)
        / (tool_effusivity + effusivity),
        chip_rise=rises, edge_energy=edge_energy, layer=layer, land=land,
        to_part=(1.0 - met) * (into_work - into_flank))


def surface_rise(c, heat, real, cuts, in_layer, rubs):
    """Sustained rise of a finished surface, and for how long it stays warm."""
    root_sum = lambda m: np.sqrt(4.0 * m + 2.13) - 1.46
    tooth_time = real / c.feed_rate
    both = cuts + rubs
    pulses = np.maximum(root_sum(cuts), root_sum(both) - (1.0 - c.rub_heat) * root_sum(rubs))
    dwell = both * tooth_time
    root = np.sqrt(heat.diffusivity)
    x = heat.layer / (root * (in_layer + c.rub_heat * rubs))
    y = np.sqrt(np.pi * tooth_time) / pulses
    b = c.surface_cooling * np.sqrt(heat.diffusivity * dwell) / c.conductivity
    kept = 1.0 / (1.0 + 0.886 * b + 0.242 * b * b / (1.0 + b))
    energy = c.wall_heat * heat.edge_energy
    return energy * kept * root / (c.conductivity * np.cbrt(x ** 3 + y ** 3)), dwell


def surfaces(c, heat, real, engaged, edge_radius):
    radius = 0.5 * c.diameter
    spring = c.spring_back * edge_radius
    immersed = np.minimum(engaged * c.diameter, radius)
    reach = immersed * (2.0 * radius - immersed)
    soak = c.feed_rate / (16.0 * radius * radius * heat.diffusivity)
    sweep = np.sqrt(reach / (1.0 + reach * np.cbrt(soak * soak)))
    in_layer = np.sqrt(np.minimum(2.0 * radius * heat.layer, reach))
    wall = surface_rise(c, heat, real, 1.0 + 0.37 * sweep / real, 1.0 + 0.85 * in_layer / real,
                        np.sqrt(2.0 * radius * spring) / real)
    one = np.ones_like(real)
    floor = surface_rise(c, heat, real, one, one, spring / (real * 0.034920769491747730))
    return wall, floor


def flow(c, at, decades=0.0):
    """Temperature at which the polymer flows within a time (Williams, Landel and Ferry)."""
    shift = np.minimum(np.log10(100.0 / at) + decades, 0.8 * c.wlf_c1)
    return c.transition + c.wlf_c2 * shift / (c.wlf_c1 - shift)


def relaxed(c, temperature, at):
    above = np.maximum(temperature - c.transition, -0.6 * c.wlf_c2)
    exponent = 0.5 * (np.log(at / 100.0) + np.log(10.0) * c.wlf_c1 * above / (c.wlf_c2 + above))
    return -np.expm1(-np.minimum(np.exp(np.minimum(exponent, 700.0)), 700.0))
