/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: what each requires, by which equation, from which source, and what usually helps. */
#include "core/names/limits.h"

const bite_definition bite_limit_table[BITE_LIMIT_COUNT] = {
    [BITE_LIMIT_SPINDLE_FAST] =
        {"spindle_fast", "1/s",
         "the speed does not exceed the limit of the spindle or the limit marked on tool or "
         "holder",
         "n against the lowest of these limits", "common-practice",
         "Reduce the spindle speed to what the machine, the tool and the holder are rated "
         "for.",
         BITE_KIND_ROTATION, 0},
    [BITE_LIMIT_SPINDLE_SLOW] = {"spindle_slow", "1/s", "the spindle can run this slowly",
                                 "lowest speed of the spindle against n", "common-practice",
                                 "Raise the speed, or use a spindle that runs more slowly.",
                                 BITE_KIND_ROTATION, 0},
    [BITE_LIMIT_FEED_FAST] =
        {"feed_fast", "m/s", "the machine can reach this feed rate and keep to the path",
         "vf, or the feed along the entry move, against what machines of this class reach",
         "memory: feeds that machine classes reach",
         "Reduce the feed rate, and the spindle speed with it.", BITE_KIND_SPEED, 0},
    [BITE_LIMIT_EDGE_SPEED] =
        {"edge_speed", "m/s", "the edge withstands the surface speed in this material",
         "vc against the limit of the tool material, which is higher in light side cuts",
         "handbook: published speeds by family and tool material, see show",
         "Reduce the spindle speed, or use a harder tool material.", BITE_KIND_SURFACE_SPEED, 0},
    [BITE_LIMIT_POWER] = {"power", "W", "the spindle has enough power",
                          "mean power against the continuous power",
                          "memory: spindles of machine classes", "Reduce the depth or the feed.",
                          BITE_KIND_POWER, 0},
    [BITE_LIMIT_TORQUE] =
        {"torque", "N m", "the spindle has enough torque at this speed",
         "mean + (peak - mean)/sqrt(1 + (w 0.04 s)^2) against its torque curve",
         "memory: spindles of machine classes",
         "Reduce the depth or the feed; router spindles have more torque at higher speed.",
         BITE_KIND_TORQUE, 0},
    [BITE_LIMIT_RUBBING] =
        {"rubbing", "m", "the chip is thick enough for the edge to cut instead of rubbing",
         "rub_share re (1 + 0.7 hardening) against the largest chip of the tooth with the heaviest "
         "load; for a chamfer, a quarter of the way up from its thin end",
         "paper: James and others 2014 (PMMA): thrust passes the cutting force near one edge "
         "radius; the share is fitted to public reports",
         "Raise the feed at the same speed, or reduce the spindle speed; use a sharper "
         "edge.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_RUNOUT] =
        {"runout", "m", "the tool runs true enough not to break",
         "TIR against runout_share D, twice that for one flute",
         "estimate: a 1 mm tool broke at a runout of 0.2 mm and survived 0.1 mm",
         "Clean the collet and the shank and measure again, or use a better collet.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_TOOL_BREAK] =
        {"tool_break", "Pa", "the tool withstands the largest force",
         "largest principal stress against the strength of the tool",
         "estimate: from transverse rupture strength, Weibull scatter and notches; most "
         "breakages in reports come from entry, packed chips and runout",
         "Reduce the depth or the feed, shorten the stick-out, reduce the runout; enter by "
         "a shallow ramp.",
         BITE_KIND_STRESS, 0},
    [BITE_LIMIT_DEFLECTION] =
        {"deflection", "m", "the error of the wall stays within half of its tolerance",
         "|wall error| against tolerance/2; if no tolerance is given, against that of 0.1 "
         "mm, as an advisory limit; for a chamfer, the error of its width",
         "handbook: stepped cantilever with shear; fluted part 0.80 D, Kops and Vo 1990",
         "Shorten the stick-out, make a light finishing pass, or use a thicker tool.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_SOFTENING] =
        {"softening", "K", "the finished surface does not flow before it has cooled",
         "sustained rise of wall or floor against the rise at which the material flows within the "
         "time for which it stays warm; boards and laminates: rise of the flash against the shop "
         "limit",
         "estimate: heat model checked against finite differences; shift of time with temperature "
         "of Williams, Landel and Ferry (memory)",
         "Raise the feed at this speed, or reduce the speed at this feed; use a sharper tool, or "
         "blow air on the cut.",
         BITE_KIND_RISE, 0},
    [BITE_LIMIT_CHIP_WELD] =
        {"chip_weld", "K", "chips do not stick to the tool",
         "metals: sqrt(packing x tool's rise/rise to sticking); plastics: rise of a chip that is "
         "cut again in full flutes, or of the tool, against the rise at which it becomes tacky",
         "estimate: fitted to public reports",
         "Blow or wash the chips away, use fewer flutes, reduce the depth.", BITE_KIND_RISE, 0},
    [BITE_LIMIT_CHIP_PACKING] =
        {"chip_packing", "", "chips can leave the cut",
         "the larger of (ap/D) x share of the turn against what flutes and coolant clear, and of a "
         "metal's chip against the pocket of its tooth",
         "estimate: fitted to public reports",
         "Blow the chips away, use fewer flutes, reduce the depth, open the slot.",
         BITE_KIND_NUMBER, 0},
    [BITE_LIMIT_CORNER] =
        {"corner", "m", "the tool fits into the smallest inside corner",
         "tool radius against corner radius + given tolerance; for a chamfer, the radius "
         "of the cone at its lower end",
         "common-practice", "Use a smaller tool, or ask for a larger corner radius.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_REACH] =
        {"reach", "m", "flutes and neck are long enough",
         "depth of the pass against the flutes, depth of the feature against flutes and "
         "neck; for a chamfer, depth and tip_below against the cone",
         "common-practice", "Use a tool with longer flutes or a neck, or cut in more passes.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_FINISH] = {"finish", "m", "feed marks stay within the required roughness",
                           "Rt/4 against Ra", "handbook: Ghosh and Mallik; Groover (fz^2/(32 r))",
                           "Reduce the feed in the finishing pass, reduce the runout.",
                           BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_CHATTER] =
        {"chatter", "m", "the cut does not chatter",
         "depth against the depth above which vibration grows, of a measured mode, or else "
         "against stable_share times the least of frame, spindle and tool at this speed",
         "memory: modes of machine classes; paper: Altintas and Budak 1995, zero order; "
         "Insperger and Stepan 2004 in light cuts of measured modes (recalled, checked)",
         "Reduce the depth, shorten the stick-out, clamp the part closer to the cut, or "
         "change the speed by a tenth.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_EDGE_CHIP] =
        {"edge_chip", "m", "edges do not break out where the tool leaves the stock",
         "the largest chip of the tooth with the heaviest load against the chip at which "
         "edges break out",
         "estimate: (K1c/strength)^2 of brittle plastics",
         "Reduce the feed towards the last edge, support the part behind it, leave a skin "
         "for a last pass.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_CRAZE] =
        {"craze", "Pa", "the skin is not left with a tension that causes crazing later",
         "relaxed share x E alpha rise/(1 - nu) against what the grade bears for a long time",
         "estimate: the share that relaxes while the surface is warm cools into tension; the "
         "limits are those of sheet makers",
         "Cut cooler, as for softening; anneal before glue, alcohol or load.", BITE_KIND_STRESS, 0},
    [BITE_LIMIT_HOLD] =
        {"hold", "", "the bond or the vacuum withstands the forces on the part",
         "sqrt(((shear + twist)/S)^2 + ((lift + tilt)/P)^2), S and P after the time under load "
         "and at the temperature of the bond",
         "estimate: creep of tapes and glues, between strengths for seconds and for days, and "
         "their loss of strength by heat; stresses as of a bolted plate, at the edge of a thin one",
         "Leave more bonded area, reduce the depth or the feed, reduce the heat and the time on "
         "one bond, or use a stronger workholding method.",
         BITE_KIND_NUMBER, 0},
    [BITE_LIMIT_BOND_HEAT] =
        {"bond_heat", "K", "the bond stays cool enough to hold",
         "temperature rise at the bond against the rise up to its limit",
         "estimate: line source in a thin plate; the limits of tapes and glues are those of "
         "their makers",
         "Wait between passes, blow air, leave a thicker floor.", BITE_KIND_RISE, 0},
    [BITE_LIMIT_PART_BEND] =
        {"part_bend", "m", "thin walls, floors and bridges do not bend too far",
         "the largest of alpha P L^2/D for wall and floor and P L^3/(192 E I) + P L/(4 k G "
         "A) for a bridge, against tolerance/2; if no tolerance is given, against that of "
         "0.1 mm, as an advisory limit",
         "handbook: plates under a point load (Timoshenko; Roark; own Ritz solutions); a "
         "strip as four cantilevers (Bansal)",
         "Support the wall, floor or bridge, leave it thicker until last, make a lighter "
         "pass.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_GAP] = {"gap", "m", "the tool fits through the narrowest passage",
                        "D + TIR against the gap; for a chamfer, the cone's two radii + TIR",
                        "common-practice", "Use a smaller tool, or ask for a wider gap.",
                        BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_WEAR] = {"wear", "s", "the edge lasts for the whole path",
                         "time of the path against Taylor's tool life",
                         "memory: Taylor's law, constants of turning tests",
                         "Reduce the spindle speed, or change the tool on the way.", BITE_KIND_TIME,
                         0},
    [BITE_LIMIT_WARP] =
        {"warp", "m", "the part is flat enough once it is released",
         "3 (1 - nu) s (c1 - c2) L^2/(4 E h^2) + strain L^2/(8 h) against the flatness",
         "estimate: exact for a balanced parabolic stress, such as that of a sheet; see show for "
         "skin_stress",
         "Remove as much from one face as from the other, alternating between them; "
         "anneal; start from thinner sheet; measure a coupon.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_STOCK_THICKNESS] =
        {"stock_thickness", "m",
         "the thinnest sheet that may be delivered is still thick enough for the part",
         "part and skim against nominal less tolerance", "common-practice",
         "Order the next thickness, or measure the sheet and leave its faces as delivered.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_TOOL_GROSS_BEND] =
        {"tool_gross_bend", "m",
         "the tool deflects so little that the calculated cut is still valid",
         "if no tolerance is given: |wall error| against the least of D/10, the cut's "
         "width and the coarse general tolerance of a size like D",
         "estimate: a share of the tool; handbook: ISO 2768-1, class c (0.2 mm from 0.5 "
         "mm, 0.3 from 3, 0.5 from 6, 0.8 from 30)",
         "No tolerance is given, but this wall would have no definite size: shorten the "
         "stick-out, use a thicker tool, or reduce the depth.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_PART_GROSS_BEND] =
        {"part_gross_bend", "m",
         "thin walls, floors and bridges deflect so little that the calculated cut is still "
         "valid",
         "if no tolerance is given: bend of wall, floor or bridge against the least of a "
         "fifth of its thickness, what the pass removes across it and the coarse general "
         "tolerance of a size like its thickness",
         "estimate: plates are calculated as flat up to a fifth of their thickness; "
         "handbook: ISO 2768-1, class c",
         "No tolerance is given, but this wall, floor or bridge would have no definite "
         "size: support it, leave it thicker until last, or make a lighter pass.",
         BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_FEED_TOOTH] =
        {"feed_tooth", "N/m", "each tooth withstands the load of its chip",
         "K h + Ke of the tooth with the heaviest load against tooth_strength D z^-0.15 (6 "
         "mm/D)^0.25; less if the cut is deeper than one diameter",
         "estimate: a tooth as a short beam, fitted to published chip loads of aluminium",
         "Reduce the feed per tooth, the runout or the depth.", BITE_KIND_EDGE_FORCE, 0},
    [BITE_LIMIT_CHATTER_TOOL] =
        {"chatter_tool", "m", "the tool itself does not chatter",
         "depth against stable_share times the depth above which its bending vibration grows at "
         "this speed, with the damping by the flank",
         "estimate: stiffness and frequency of a stepped beam, damping recalled; Altintas and "
         "Budak 1995, zero order (recalled, checked)",
         "Shorten the stick-out, use a thicker tool, or reduce the depth.", BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_UNPROVEN] =
        {"unproven", "m", "the feed per tooth is within published values",
         "fz against 1.5 x the largest published chip load: charted_chip (D/6.35 "
         "mm)^charted_exponent "
         "z^-0.5",
         "datasheet: router bit charts for plastics and aluminium; estimate: other metals in "
         "inverse ratio of K, z^-0.5, and the margin of 1.5",
         "No tool maker publishes such a feed: approach it in steps.", BITE_KIND_LENGTH, 0},
    [BITE_LIMIT_PLUNGE_FEED] =
        {"plunge_feed", "m/s", "the plunge is slow enough for a small tool",
         "plunge feed against plunge_share times the side feed",
         "estimate: public reports of tools that broke at half of the side feed and above",
         "Plunge at a fifth to a third of the side feed, or enter by a ramp or a helix.",
         BITE_KIND_SPEED, 0},
    [BITE_LIMIT_OWN_1] = {"own_1", "", "the first limit of the family's plugin is kept",
                          "demand against capacity, as the plugin computes them", "common-practice",
                          "", BITE_KIND_NUMBER, 0},
    [BITE_LIMIT_OWN_2] = {"own_2", "", "the second limit of the family's plugin is kept",
                          "demand against capacity, as the plugin computes them", "common-practice",
                          "", BITE_KIND_NUMBER, 0},
    [BITE_LIMIT_OWN_3] = {"own_3", "", "the third limit of the family's plugin is kept",
                          "demand against capacity, as the plugin computes them", "common-practice",
                          "", BITE_KIND_NUMBER, 0},
    [BITE_LIMIT_OWN_4] = {"own_4", "", "the fourth limit of the family's plugin is kept",
                          "demand against capacity, as the plugin computes them", "common-practice",
                          "", BITE_KIND_NUMBER, 0},
};
