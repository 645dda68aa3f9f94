#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The evaluation of many milling cuts in NumPy: a peer for the library's speed and numbers.

Slots and climb side cuts of a square end mill of two flutes with runout, in an amorphous polymer
whose pressure is stated as K and Ke. The equations are those of DEVELOPERS.md and of the headers of
core/physics; the code is written from them, vectorised over the cuts, as one would in NumPy: angles
with their sines and cosines so that no sine is computed twice, samples that no tooth of any cut is
in contact with left out, and chunks of cuts that fit into the cache.

usage: peer_numpy.py CASES RESULTS CHUNK ROUNDS

CASES: "# name value" lines of what all cuts share, a line of column names, a row per cut (SI).
RESULTS: a line of output names, a row per cut. Prints the least and the median CPU time per cut, s.
"""
import csv
import sys
import time
from types import SimpleNamespace

import numpy as np

from peer_force import FLUTES, chips, engagement, forces, pressure_of
from peer_heat import flow, heat_of, relaxed, surfaces
from peer_tool import bending, chatter, fin, stress_of

DISH = 0.034906585039886591  # two degrees


# ---- limits ----

def use(demand, capacity):
    capacity = np.maximum(capacity, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(capacity > 0.0, np.minimum(demand / capacity, 1e6), 1e6)


def worse_of(pairs):
    """(demand, capacity) of the surface that uses more of it; a cut without a floor has one."""
    demand, capacity = pairs[0]
    for other, most in pairs[1:]:
        more = other * capacity > demand * most
        demand, capacity = np.where(more, other, demand), np.where(more, most, capacity)
    return use(demand, capacity)


def welding(c, heat, packed):
    cooled = 1.0 + 2.0 * c.surface_cooling / (heat.volumetric * heat.chip_mean * c.spindle_speed)
    rise = heat.chip_rise * (1.0 + c.recutting * packed ** 4 / cooled)
    growth = 0.0033
    warmed = (np.sqrt(1.0 + 2.0 * growth * np.maximum(rise, 0.0)) - 1.0) / growth
    rise = np.where(rise > 0.0, warmed, rise)
    tool = heat.tool - c.room_temperature
    chip_margin = flow(c, 1.0 / c.spindle_speed, c.tack_decades) - c.room_temperature
    tool_margin = flow(c, 1.0, c.tack_decades) - c.room_temperature
    return worse_of([(rise, chip_margin), (tool, tool_margin)])


def evaluate(c, slot, through):
    """All outputs, by name."""
    edge_radius = c.edge_radius * c.edge_wear
    feed = c.feed_rate / (c.spindle_speed * FLUTES)
    enter, leave, span = engagement(c, slot)
    chip = chips(c, feed, enter, leave, span)
    width = 0.5 * c.diameter * (1.0 - np.cos(span))
    engaged, removal = width / c.diameter, c.depth * width * c.feed_rate
    speed = np.pi * c.diameter * c.spindle_speed
    least = c.minimum_chip * edge_radius
    heavy, light = np.minimum(FLUTES * feed, feed + c.runout), np.maximum(0.0, feed - c.runout)
    p = pressure_of(c, edge_radius)
    tool = bending(c, np.minimum(0.5 * c.depth, 0.5 * c.stickout))
    resistance, air_share = fin(c)
    force = forces(c, chip, p, tool, least, slot)
    torque = force.mean_torque
    power = 2.0 * np.pi * c.spindle_speed * torque
    edge_load = p.tangential * force.thickest + p.edge_tangential
    climb, conventional = force.climb - 0.5 * c.runout, force.conventional - 0.5 * c.runout
    wall_error = np.fmax(np.abs(climb), np.abs(conventional))
    stress = stress_of(c, tool.load, force.side, force.torque)
    alone, stable = chatter(c, span, p.tangential, speed, edge_radius, tool)

    contact = SimpleNamespace(speed=speed, chip=chip.mean, teeth=chip.arc / (2.0 * np.pi),
                              edge_radius=edge_radius)
    heat = heat_of(c, chip, p, contact, least, removal, engaged, resistance, air_share, through)
    walls = surfaces(c, heat, chip.real, engaged, edge_radius)
    walls = walls[:1] if through else walls
    room = c.room_temperature
    rise, dwell = walls[0]
    if not through:
        dwell = np.where(walls[1][0] > rise, walls[1][1], dwell)
        rise = np.maximum(rise, walls[1][0])
    flows = flow(c, dwell)
    surface = np.minimum(room + rise, flows)
    flash_time = heat.land / speed
    spread = (0.5 * np.sqrt(np.pi * heat.diffusivity * flash_time)) / heat.layer
    flash = heat.edge_energy / (heat.volumetric * heat.layer * (1.0 + spread ** 1.8) ** (1.0 / 1.8))
    if through:
        part = np.full_like(rise, np.nan)
    else:
        part = np.minimum(surface, room + np.sqrt(1.0 / (2.0 * np.pi * np.e)) * heat.to_part / (
            c.feed_rate * c.floor_thickness * heat.volumetric
            * 0.5 * (c.diameter + c.floor_thickness)))
    craze = []
    for up, warm in walls:
        warmer = np.minimum(up, flow(c, warm) - room)
        craze.append((relaxed(c, room + up, warm) * c.modulus * c.expansion * warmer
                      / (1.0 - c.poisson), c.crazing))
    packed = c.depth / c.diameter * np.clip(0.15 + 0.85 * (engaged - 0.3) / 0.7, 0.15, 1.0) / (
        c.packing_share * c.packing_limit * 0.85)
    ripple = 1.0 / np.hypot(1.0, 2.0 * np.pi * c.spindle_speed * 0.04)
    derating = np.clip(1.25 - 0.25 * c.depth / c.diameter, 0.25, 1.0)
    deviation = 0.5 * c.tolerance
    floor_marks, wall_marks = heavy * np.tan(DISH), heavy ** 2 / (4.0 * c.diameter)
    return {
        "surface_speed": speed, "chip_load": feed, "chip_load_heavy": heavy,
        "chip_load_light": light, "chip_thickness_max": feed * chip.sine_most,
        "chip_thickness_mean": feed * (enter.cosine - leave.cosine) / span,
        "chip_thickness_least": least, "engagement": span, "removal_rate": removal,
        "force_tangential_peak": force.whole, "force_side_peak": force.side,
        "force_side_mean": force.mean_side, "force_lift_peak": force.lift,
        "torque_peak": force.torque, "power_mean": power, "specific_energy": power / removal,
        "chip_temperature": np.minimum(room + heat.chip_rise, flow(c, heat.chip_mean / speed)),
        "surface_temperature": surface, "film_temperature": heat.film,
        "tool_temperature": heat.tool, "part_temperature": part, "preheat": heat.preheat,
        "heat_to_part": heat.to_part,
        "deflection_tip": force.side * (tool.compliance + tool.slope * tool.load),
        "wall_error": wall_error, "tool_stress": stress,
        "roughness_floor": floor_marks, "roughness_wall": wall_marks,
        "stability_depth": stable, "stability_depth_tool": alone,
        "flash_temperature": np.minimum(room + flash, flow(c, flash_time)),
        "surface_dwell": dwell, "flow_temperature": flows, "wall_climb": climb,
        "wall_conventional": conventional, "edge_load": edge_load,
        "limit spindle_fast": use(c.spindle_speed, c.spindle_fastest),
        "limit spindle_slow": use(c.spindle_slowest, c.spindle_speed),
        "limit feed_fast": use(c.feed_rate, c.feed_fastest),
        "limit power": use(power, c.power_limit),
        "limit torque": use(torque + ripple * (force.torque - torque), c.torque_limit * np.minimum(
            (c.spindle_speed / c.torque_speed) ** c.torque_exponent, 1.0)),
        "limit rubbing": use(c.rub_share * edge_radius * (1.0 + 0.7 * c.hardening), chip.most),
        "limit runout": use(c.runout, c.runout_share * c.diameter),
        "limit tool_break": use(stress, c.tool_strength),
        "limit deflection": use(wall_error, deviation),
        "limit softening": worse_of([(up, flow(c, warm) - room) for up, warm in walls]),
        "limit chip_weld": welding(c, heat, packed), "limit chip_packing": use(packed, 1.0),
        "limit reach": use(c.depth, np.minimum(c.flute_length, c.stickout)),
        "limit finish": use(0.25 * np.maximum(floor_marks, wall_marks), c.finish),
        "limit chatter": use(c.depth, c.stable_share * stable),
        "limit chatter_tool": use(c.depth, c.stable_share * alone),
        "limit craze": worse_of(craze),
        "limit feed_tooth": use(edge_load, c.tooth_strength * c.diameter * FLUTES ** -0.15
                                * (6e-3 / c.diameter) ** 0.25 * derating),
    }


# ---- the program ----

def read_cases(path):
    shared, rows = {}, 0
    with open(path, encoding="ascii") as file:
        line = file.readline()
        while line.startswith("#"):
            name, value = line[1:].split()
            shared[name] = float(value)
            line = file.readline()
        names = line.strip().split(",")
        table = np.loadtxt(file, delimiter=",", ndmin=2)
    columns = {name: np.ascontiguousarray(table[:, i]) for i, name in enumerate(names)}
    return shared, columns


def evaluate_in_chunks(shared, columns, chunk):
    count = len(next(iter(columns.values())))
    slot, through = np.isnan(shared.get("width", 0.0)), shared.get("floor_thickness") == 0.0
    made = {}
    for first in range(0, count, chunk):
        part = {name: column[first:first + chunk] for name, column in columns.items()}
        for name, column in evaluate(SimpleNamespace(**{**shared, **part}), slot, through).items():
            made.setdefault(name, []).append(column)
    return {name: np.concatenate([np.broadcast_to(x, (min(chunk, count - i * chunk),))
                                  for i, x in enumerate(parts)]) for name, parts in made.items()}


def main(cases, results, chunk, rounds):
    shared, columns = read_cases(cases)
    times = []
    for _ in range(rounds):
        start = time.process_time()
        made = evaluate_in_chunks(shared, columns, chunk)
        times.append(time.process_time() - start)
    count = len(next(iter(columns.values())))
    print("%.9e %.9e" % (min(times) / count, sorted(times)[rounds // 2] / count))
    if results != "-":
        with open(results, "w", encoding="ascii", newline="") as file:
            csv.writer(file).writerow(made)
            np.savetxt(file, np.column_stack(list(made.values())), fmt="%.17g", delimiter=",")


if __name__ == "__main__":
    if len(sys.argv) != 5:
        sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4]))
