# SPDX-License-Identifier: GPL-3.0-or-later
"""Chips and forces of many cuts in NumPy: see peer_numpy.py."""
from types import SimpleNamespace

import numpy as np

FLUTES = 2
PITCH = np.pi
EVEN_STEPS = 24  # in a pitch
ROUNDING = 1e-9  # rad: an angle this close to a wall is at it


class Angle:
    """An angle with its sine and cosine."""

    def __init__(self, at, sine=None, cosine=None):
        self.at = at
        self.sine = np.sin(at) if sine is None else sine
        self.cosine = np.cos(at) if cosine is None else cosine

    def within(self, low, high):
        below, above = self.at < low.at, self.at > high.at
        pick = lambda a, b, c: np.where(below, b, np.where(above, c, a))
        return Angle(np.clip(self.at, low.at, high.at), pick(self.sine, low.sine, high.sine),
                     pick(self.cosine, low.cosine, high.cosine))

    def __add__(self, other):
        return Angle(self.at + other.at, self.sine * other.cosine + self.cosine * other.sine,
                     self.cosine * other.cosine - self.sine * other.sine)

    def __neg__(self):
        return Angle(-self.at, -self.sine, self.cosine)

    def take(self, rows):
        return Angle(self.at[rows], self.sine[rows], self.cosine[rows])


# ---- chips ----

def engagement(c, slot):
    """The arc of contact of a straight pass, climb."""
    share = np.minimum(c.width / c.diameter, 1.0) if not slot else np.ones_like(c.diameter)
    span = np.arccos(1.0 - 2.0 * share)
    return Angle(np.pi - span), Angle(np.full_like(span, np.pi)), span


def hinges_of(c, feed, enter, leave):
    """The chip of each tooth, min over m of [m fz sin + R_j - R_(j-m)], as a sum of hinges.

    The long tooth cuts min(2 fz s, fz s + TIR), the short one max(0, fz s - TIR)."""
    ratio = c.runout / feed  # above 1 the kink is never reached
    sine = np.minimum(ratio, 1.0)
    kink = Angle(np.arcsin(sine), sine, np.sqrt((1.0 - sine) * (1.0 + sine)))
    zero = np.zeros_like(feed)
    start = Angle(zero, zero, np.ones_like(feed))
    teeth = [[(start, zero, 2.0 * feed, zero), (kink, ratio, -feed, c.runout)],
             [(kink, ratio, feed, -c.runout)]]
    result = []
    for tooth in teeth:
        hinges = []
        for first, starts, slope, offset in tooth:
            last = Angle(np.pi - first.at, first.sine, -first.cosine)
            hinges.append(SimpleNamespace(slope=slope, offset=offset, starts=starts,
                                          low=first.within(enter, leave),
                                          high=last.within(enter, leave)))
        result.append(hinges)
    return result


def chips(c, feed, enter, leave, span):
    teeth = hinges_of(c, feed, enter, leave)
    ends = np.maximum(enter.sine, leave.sine)
    sine_most = np.where((enter.at <= 0.5 * np.pi) & (leave.at >= 0.5 * np.pi), 1.0, ends)
    most = np.zeros_like(feed)
    arc = np.zeros_like(feed)
    area = np.zeros_like(feed)
    for hinges in teeth:
        at_most = np.zeros_like(feed)
        for h in hinges:
            at_most += np.where(sine_most >= h.starts, h.slope * sine_most + h.offset, 0.0)
            area += h.offset * (h.high.at - h.low.at) - h.slope * (h.high.cosine - h.low.cosine)
        most = np.maximum(most, at_most)
        arc += hinges[0].high.at - hinges[0].low.at
    with np.errstate(divide="ignore", invalid="ignore"):
        shared = np.minimum(FLUTES * feed, feed * FLUTES * span / arc)
        mean = np.where(arc > 0.0, area / arc, 0.0)
    real = np.where(arc > 0.0, shared, feed)
    return SimpleNamespace(teeth=teeth, most=most, arc=arc, mean=mean, real=real,
                           sine_most=sine_most)


# ---- forces ----

def antiderivatives(hinge, angle):
    """Of h, h sin, h cos over the angle."""
    return (hinge.offset * angle.at - hinge.slope * angle.cosine,
            0.5 * hinge.slope * (angle.at - angle.sine * angle.cosine)
            - hinge.offset * angle.cosine,
            (0.5 * hinge.slope * angle.sine + hinge.offset) * angle.sine)


def integrals_between(hinges, tip, top):
    """The integrals over the edge of one tooth between its upper end and its tip."""
    total = None
    for i, hinge in enumerate(hinges):
        to, start = tip.within(hinge.low, hinge.high), top.within(hinge.low, hinge.high)
        parts = [a - b for a, b in zip(antiderivatives(hinge, to), antiderivatives(hinge, start))]
        if i == 0:
            edge = [to.at - start.at, start.cosine - to.cosine, to.sine - start.sine]
            total = parts + edge
        else:
            for n, part in enumerate(parts):
                total[n] += part
    return total


def loads(terms, p, factor=1.0):
    """Sum of the tangential forces, Fx, Fy and lift; per R/tan(beta)."""
    area, area_sine, area_cosine, edge, edge_sine, edge_cosine = terms
    kt, kr, ka = factor * p.tangential, factor * p.radial, factor * p.axial
    whole = kt * area + p.edge_tangential * edge
    x = -(kt * area_cosine + p.edge_tangential * edge_cosine) - (
        kr * area_sine + p.edge_radial * edge_sine)
    y = (kt * area_sine + p.edge_tangential * edge_sine) - (
        kr * area_cosine + p.edge_radial * edge_cosine)
    return whole, x, y, ka * area + p.edge_axial * edge


def side_of(terms, p):
    """Fy alone."""
    return (p.tangential * terms[1] + p.edge_tangential * terms[4]
            - p.radial * terms[2] - p.edge_radial * terms[5])


class Peaks:
    def __init__(self, lag, scale, factor, pressure, tool):
        zero = np.zeros_like(scale)
        self.lag, self.scale, self.factor, self.pressure, self.tool = (lag, scale, factor, pressure,
                                                                       tool)
        self.whole, self.side, self.up, self.down = zero, zero, zero, zero
        self.climb, self.conventional = zero, zero

    def add(self, terms, tips, slot):
        """terms: positions x cuts; tips: of the long tooth, which finishes the walls."""
        whole, x, y, lift = loads(terms, self.pressure, self.factor)
        self.whole = np.maximum(self.whole, (self.scale * whole).max(axis=0))
        self.side = np.maximum(self.side, (x * x + y * y).max(axis=0) * self.scale ** 2)
        lift = self.scale * lift
        self.up = np.maximum(self.up, lift.max(axis=0))
        self.down = np.minimum(self.down, lift.min(axis=0))
        side = self.scale * side_of(terms, self.pressure)
        self.climb = self.wall(side, tips - np.pi, 1.0, self.climb)
        if slot:
            self.conventional = self.wall(side, tips, -1.0, self.conventional)

    def wall(self, side, past, sign, worst):
        """The height that is at the wall lags the tip by the angle from the wall."""
        ahead = np.maximum(0.0, np.mod(past + ROUNDING, 2.0 * np.pi) - ROUNDING)
        height = ahead * self.scale
        bend = sign * side * (self.tool.compliance + self.tool.slope * (self.tool.load - height))
        bend = np.where(ahead <= self.lag.at + ROUNDING, bend, 0.0)
        most, least = bend.max(axis=0), bend.min(axis=0)
        bend = np.where(most >= -least, most, least)
        return np.where(np.abs(bend) > np.abs(worst), bend, worst)


def sample(teeth, tips, peaks, slot):
    """tips: of the long tooth, angles over a turn, positions x 1 or x cuts."""
    lag = peaks.lag
    shape = (tips.shape[0], lag.at.shape[0])
    terms = [np.zeros(shape) for _ in range(6)]
    for j, hinges in enumerate(teeth):
        at = np.mod(tips - j * PITCH, 2.0 * np.pi)
        first, last = hinges[0].low.at.min(), (hinges[0].high.at + lag.at).max()
        turn = 0.0
        while turn <= last:
            angle = at + turn
            rows = np.flatnonzero(((angle >= first) & (angle <= last)).any(axis=1))
            if rows.size:
                tip = Angle(angle[rows])
                for n, part in enumerate(integrals_between(hinges, tip, tip + -lag)):
                    terms[n][rows] += part
            turn += 2.0 * np.pi
    peaks.add(terms, tips, slot)


def kinks_of(teeth, lag):
    """Tips of the long tooth where the tip or the upper end of an edge passes a hinge's border."""
    tips = []
    for j, hinges in enumerate(teeth):
        for hinge in hinges:
            for border in (hinge.low.at, hinge.high.at):
                tips += [border + j * PITCH, border + lag.at + j * PITCH]
    return np.array(tips)


EVEN_TIPS = (2.0 * np.pi * (np.arange(FLUTES * EVEN_STEPS) + 0.5) / (FLUTES * EVEN_STEPS))[:, None]


def forces(c, chip, pressure, tool, least, slot):
    lag = Angle(np.maximum(c.depth * np.tan(c.helix) / (0.5 * c.diameter), 1e-6))
    scale = c.depth / lag.at
    thickest = np.maximum(chip.most, np.minimum(chip.most + least, 2.0 * least))
    peaks = Peaks(lag, scale, np.where(chip.most > 0.0, thickest / chip.most, 1.0), pressure, tool)
    sample(chip.teeth, EVEN_TIPS, peaks, slot)
    sample(chip.teeth, kinks_of(chip.teeth, lag), peaks, slot)
    mean = [0.0] * 6
    for hinges in chip.teeth:
        whole = integrals_between(hinges, hinges[0].high, hinges[0].low)
        mean = [a + b for a, b in zip(mean, whole)]
    share = c.depth / (2.0 * np.pi)
    whole, x, y, _ = (share * force for force in loads(mean, pressure))
    lift = np.where(peaks.up >= -peaks.down, peaks.up, peaks.down)
    conventional = peaks.conventional if slot else np.full_like(scale, np.nan)
    return SimpleNamespace(whole=peaks.whole, side=np.sqrt(peaks.side), lift=lift,
                           torque=peaks.whole * 0.5 * c.diameter,
                           mean_side=np.hypot(x, y), mean_torque=whole * 0.5 * c.diameter,
                           climb=peaks.climb, conventional=conventional, thickest=thickest)


def pressure_of(c, edge_radius):
    """Linear edge form; radial and axial terms by the usual shares and as of an oblique edge."""
    kt = c.pressure_t
    ke = c.edge_t * np.clip(edge_radius / c.edge_reference, 0.3, 2.0)
    friction = 0.4
    normal = np.arctan(friction * np.cos(c.helix))  # friction angle in the normal plane
    tangent, sine = np.tan(c.helix), np.sin(normal)
    along = np.cos(normal - c.rake)
    axial = (along * tangent - tangent * sine) / (along + tangent * tangent * sine)
    return SimpleNamespace(tangential=kt, radial=0.3 * kt, axial=axial * kt, edge_tangential=ke,
                           edge_radial=1.2 * ke, edge_axial=0.0)
