/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: what each asks, by which equation, from where, and what usually helps. */
#include "core/names/limits.h"
#include "core/names/registry_tables.h"

const bite_definition bite_limit_table[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_SPINDLE_FAST] =
        {"spindle_fast", "1/s", "the spindle, or the mark on tool or holder, allows the speed",
         "n against its largest", "common-practice",
         "Slow the spindle to what machine, tool and holder are marked for.", BITE_KIND_ROTATION,
         0},
    [BITE_LIMIT_SPINDLE_SLOW] = {"spindle_slow", "1/s", "the spindle runs that slowly",
                                 "its slowest against n", "common-practice",
                                 "Raise the speed, or use a slower spindle.", BITE_KIND_ROTATION,
                                 0},
    [BITE_LIMIT_FEED_FAST] = {"feed_fast", "m/s",
                              "the machine reaches the feed without deforming the path",
                              "vf, or the feed along the way in, against what the class reaches",
                              "memory: feeds that machine classes reach",
                              "Feed more slowly and slow the spindle with it.", BITE_KIND_SPEED, 0},
    [BITE_LIMIT_EDGE_SPEED] = {"edge_speed", "m/s",
                               "the edge bears the surface speed in this material",
                               "vc against the tool material's limit, higher in light side cuts",
                               "handbook: published speeds by family and tool material, see show",
                               "Slow the spindle, or take a harder tool material.",
                               BITE_KIND_SURFACE_SPEED, 0},
    [BITE_LIMIT_POWER] = {"power", "W", "the spindle has the power",
                          "mean power against the continuous power",
                          "memory: spindles of machine classes", "Take less depth or feed.",
                          BITE_KIND_POWER, 0},
    [BITE_LIMIT_TORQUE] = {"torque", "N m", "the spindle has the torque at that speed",
                           "mean + (peak - mean)/sqrt(1 + (w 0.04 s)^2) against its curve",
                           "memory: spindles of machine classes",
                           "Take less depth or feed; routers have more torque at higher speed.",
                           BITE_KIND_TORQUE, 0},
    [BITE_LIMIT_RUBBING] = {"rubbing", "m",
                            "the chip is thick enough for the edge to cut instead of rub",
                            "h_min = xi re against the heavy tooth's largest chip; of a chamfer a "
                            "quarter up from its thin end",
                            "paper: James and others 2014 (PMMA, xi 0.33); usual range 0.14 to "
                            "0.43, Cheng and others 2018",
                            "Feed more at the same speed, or slow the spindle; use a sharper edge.",
                            BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_RUNOUT] = {"runout", "m", "runout leaves all teeth some work",
                           "TIR sin(pi/z) against fz", "paper: Kline and DeVor 1983 (recalled)",
                           "Clean collet and shank, measure again, or use a one-flute tool.",
                           BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_TOOL_BREAK] =
        {"tool_break", "Pa", "the tool stands the largest force",
         "largest principal stress against the tool's strength",
         "estimate: from transverse rupture strength, Weibull scatter and notches; most breakages "
         "in reports "
         "come from entry, packed chips and runout",
         "Take less depth or feed, shorten the stick-out, lessen runout; ramp in slowly.",
         BITE_KIND_STRESS, 0},
    [BITE_LIMIT_DEFLECTION] =
        {"deflection", "m", "the wall stays within half of its tolerance",
         "|wall error| against tolerance/2, of 0.1 mm and as advice where none was given; of a "
         "chamfer of its width",
         "handbook: stepped cantilever with shear; fluted part 0.80 D, Kops and Vo 1990",
         "Shorten the stick-out, take a light finishing pass, or a thicker tool.", BITE_KIND_LENGTH,
         0},
    [BITE_LIMIT_SOFTENING] =
        {"softening", "K", "the surface stays under the grade's shop limit",
         "rise of the skin against the rise to the limit",
         "estimate: heat model; limits are sheet makers', see show",
         "At this feed slow the spindle; take a sharper tool; feed faster if you were creeping.",
         BITE_KIND_RISE, 0},
    [BITE_LIMIT_CHIP_WELD] = {"chip_weld", "K", "chips do not stick to the tool",
                              "metals: sqrt(packing x tool's rise/rise to sticking); plastics: "
                              "rise of the film against Tg + 30 K",
                              "estimate: fitted to public reports",
                              "Blow or wash the chips away, use fewer flutes, take less depth.",
                              BITE_KIND_RISE, 0},
    [BITE_LIMIT_CHIP_PACKING] =
        {"chip_packing", "", "chips find their way out",
         "(ap/D) x share of the turn against what flutes and coolant clear",
         "estimate: fitted to public reports",
         "Blow the chips away, use fewer flutes, take less depth, open the slot.", BITE_KIND_NUMBER,
         0},
    [BITE_LIMIT_CORNER] = {"corner", "m", "the tool goes into the smallest inside corner",
                           "tool radius against corner radius + tolerance given; of a chamfer the "
                           "cone's at its lower end",
                           "common-practice", "Take a smaller tool, or ask for a larger corner.",
                           BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_REACH] = {"reach", "m", "flutes and neck reach",
                          "depth of the pass against the flutes, of the feature against flutes and "
                          "neck; of a chamfer depth and "
                          "tip_below against the cone",
                          "common-practice",
                          "Take a tool with longer flutes or a neck, or cut in more passes.",
                          BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_FINISH] = {"finish", "m", "feed marks stay under the roughness asked for",
                           "Rt/4 against Ra", "handbook: Ghosh and Mallik; Groover (fz^2/(32 r))",
                           "Feed less on the finishing pass, lessen runout.", BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_CHATTER] = {"chatter", "m", "the cut stays quiet",
                            "depth against the depth from which waves feed on themselves: of what "
                            "was measured, or of machine and tool",
                            "estimate: stiffness and damping of modes that nobody measured; paper: "
                            "Altintas and Budak 1995, zero order; Insperger and "
                            "Stepan 2004 in light cuts (recalled, checked)",
                            "Take less depth, shorten the stick-out, hold the part closer, or "
                            "change the speed by a tenth.",
                            BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_EDGE_CHIP] =
        {"edge_chip", "m", "edges stay whole where the tool leaves the stock",
         "the heavy tooth's largest chip against the chip that breaks out",
         "estimate: (K1c/strength)^2 of brittle plastics",
         "Feed less into the last edge, back the part up, leave a skin for a last pass.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_CRAZE] = {"craze", "Pa", "the skin keeps no tension that crazes later",
                          "relaxed share x E alpha (T_relax - T_start)/(1 - nu) against what the "
                          "grade bears for long",
                          "estimate: a skin that relaxes above about Tg - 20 K cools into tension; "
                          "limits are sheet makers'",
                          "Cut cooler as for softening; anneal before glue, alcohol or load.",
                          BITE_KIND_STRESS, 0},
    [BITE_LIMIT_BOND_SIDE] = {"bond_side", "N", "the bond holds the part sideways",
                              "largest side force against area x shear strength",
                              "handbook: adhesive classes, Shigley's table; tapes creep under load",
                              "Leave more area, take less depth or feed, or a stronger layer.",
                              BITE_KIND_FORCE, 0},
    [BITE_LIMIT_BOND_LIFT] =
        {"bond_lift", "N", "the bond holds the part down",
         "lift + 6 F H/sqrt(A), the tilt of a square bond, against area x pull strength",
         "handbook: adhesive classes; a bond's tilt as of a bolted plate",
         "Use a left-hand or straight flute, take less depth, leave more area.", BITE_KIND_FORCE,
         0},
    [BITE_LIMIT_BOND_HEAT] =
        {"bond_heat", "K", "the bond stays cool enough to hold",
         "rise at the bond against its limit",
         "estimate: line source in a thin plate; limits of tapes and glues are their makers'",
         "Wait between passes, blow air, leave a thicker floor.", BITE_KIND_RISE, 0},
    [BITE_LIMIT_PART_BEND] =
        {"part_bend", "m", "thin walls, floors and bridges stay where they are",
         "the largest of alpha P L^2/D of wall and floor and P L^3/(192 E I) + P L/(4 k G A) of a "
         "bridge against tolerance/2, of "
         "0.1 mm and as advice where none was given",
         "handbook: plates under a point load (Timoshenko; Roark; own Ritz solutions); a strip as "
         "four cantilevers (Bansal)",
         "Support the wall, floor or bridge, leave it thicker until last, take a lighter pass.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_GAP] = {"gap", "m", "the tool passes the narrowest way",
                        "D + TIR against the gap; of a chamfer the cone's two radii + TIR",
                        "common-practice", "Take a smaller tool, or ask for a wider gap.",
                        BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_WEAR] = {"wear", "s", "the edge lasts the path",
                         "time of the path against Taylor's tool life",
                         "memory: Taylor's law, constants of turning tests",
                         "Slow the spindle, change the tool on the way.", BITE_KIND_TIME, 0},
    [BITE_LIMIT_WARP] =
        {"warp", "m", "the part is flat enough once it is free",
         "3 (1 - nu) s (c1 - c2) L^2/(4 E h^2) + strain L^2/(8 h) against the flatness",
         "estimate: exact for a parabola in balance, of which a sheet's stress is one; see show "
         "for skin_stress",
         "Take as much off one face as off the other, in turns; anneal; start from thinner sheet; "
         "measure a coupon.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_STOCK_THICKNESS] =
        {"stock_thickness", "m", "the thinnest sheet that may be delivered still holds the part",
         "part and skim against nominal less tolerance", "common-practice",
         "Order the next thickness, or measure the sheet and leave its faces as they came.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_TOOL_GROSS_BEND] =
        {"tool_gross_bend", "m",
         "the tool stays near enough for the cut to be the one that was reckoned",
         "where no tolerance was given: |wall error| against the least of D/10, the cut's width "
         "and the coarse general tolerance "
         "of a size like D",
         "estimate: a share of the tool; handbook: ISO 2768-1, class c (0.2 mm from 0.5 mm, 0.3 "
         "from 3, 0.5 from 6, 0.8 from "
         "30)",
         "No tolerance was asked for, but this is no size: shorten the stick-out, take a thicker "
         "tool, or less depth.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_PART_GROSS_BEND] =
        {"part_gross_bend", "m",
         "what is thin stays near enough for the cut to be the one that was reckoned",
         "where no tolerance was given: bend of wall, floor or bridge against the least of a fifth "
         "of its "
         "thickness, what the pass takes across it and the coarse general tolerance of a size like "
         "its thickness",
         "estimate: plates are reckoned as flat up to a fifth of their thickness; handbook: ISO "
         "2768-1, class c",
         "No tolerance was asked for, but this is no size: support what is thin, leave it thicker "
         "until last, take a lighter pass.",
         BITE_KIND_LENGTH, 0},
};
