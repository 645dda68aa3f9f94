/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Defaults of the inputs of a cut: plain numbers from the registry, and rules where one input
 * follows from another. */
#include "core/cut/defaults.h"
#include "core/names/inputs.h"
#include "core/names/registry.h"
#include "core/physics/geometry/thread.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

/* Shanks with which small tools are sold. m */
static const double shanks[] = {3e-3, 3.175e-3, 4e-3, 6e-3, 6.35e-3, 8e-3, 10e-3, 12e-3};

/* A tool material if no table is given. */
static const struct {
    double modulus; /* Pa */
    double poisson;
    double conductivity; /* W/(m K) */
    double density;      /* kg/m3 */
    double capacity;     /* J/(kg K) */
} tool_materials[] = {
    {580e9, 0.22, 80.0, 14900.0, 210.0}, /* carbide */
    {210e9, 0.29, 22.0, 8100.0, 460.0},  /* high-speed steel */
    {820e9, 0.08, 500.0, 3900.0, 510.0}, /* polycrystalline diamond */
};

/* Heat transfer from a rotating tool, by coolant. W/(m2 K) */
static const double coolings[] = {100.0, 400.0, 1500.0, 4000.0};

/* The same from wall, floor and chips, which do not rotate. */
static const double surface_coolings[] = {20.0, 200.0, 1000.0, 4000.0};

/* Universal constants of the shift of time with temperature, for a glassy polymer without its own.
 */
static const double universal_c1 = 17.44;
static const double universal_c2 = 51.6;
static const double usual_tack_decades = 2.0;

/* Strength of carbide end mills of 6 mm: 2500 N/mm2. Smaller ones are stronger, since they have
 * fewer flaws: (6 mm/D)^0.25 (estimate: transverse rupture 3000 to 4000 with notches; exponent of
 * Weibull's volume; set so that common cuts are at its 5 % end). */
static const double carbide_strength = 2500e6;
static const double hss_strength = 1500e6;

static const struct {
    const char *input;
    const char *source;
} sources[] = {
    {"flutes",
     "common-practice: small end mills come with two flutes; taps with three, for plastics "
     "with two; reamers with six, below 3 mm with four"},
    {"helix", "common-practice: a plain end mill has a right-hand helix of 30 degrees, a chamfer's "
              "cone straight flutes"},
    {"rake", "memory: general end mills are ground to a rake of about 10 degrees"},
    {"edge_radius",
     "memory: new ground edges 1.5 to 8 um, 3.5 um (D/3 mm)^0.5; for plastics 1.8 um of the same"},
    {"edge_wear", "estimate: a tool in mid life; 1 where the edge was measured"},
    {"runout", "memory: collet and spindle of a small mill together"},
    {"flute_length",
     "common-practice: flutes three diameters long, a drill's ten, a chamfer's its cone"},
    {"shank_diameter", "common-practice: the smallest shank that is not thinner than the tool"},
    {"stickout", "memory: flute length plus the larger of a diameter and 5 mm, as mills hold them"},
    {"stiff_share", "paper: Kops and Vo 1990, equivalent diameter of an end mill, abstract"},
    {"core_share", "memory: core of small end mills, 0.6 to 0.7 of the diameter"},
    {"tool_modulus", "memory: data sheets of sub-micron carbide rod, 560 to 600 GPa; high-speed "
                     "steel 205 to 230 GPa"},
    {"tool_poisson", "memory: data sheets of sub-micron carbide rod"},
    {"tool_strength",
     "estimate: 2500 N/mm2 (6 mm/D)^0.25 from transverse rupture strength and notches"},
    {"tooth_strength", "estimate: fitted to published chip loads of aluminium"},
    {"tool_damping", "memory: solid tools in collets, 2.5 to 10 %"},
    {"tool_frequency_share", "estimate: a collet yields, 0.65 to 1"},
    {"frame_share", "memory: stiff bench mill"},
    {"frame_frequency", "memory: stiff bench mill"},
    {"frame_damping", "memory: 2.5 to 10 %"},
    {"spindle_frequency", "memory: stiff bench mill"},
    {"spindle_damping", "memory: 2 to 8 %"},
    {"hardening", "common-practice: no skin that hardens"},
    {"rub_share",
     "estimate: below an edge radius thrust passes the cutting force (James and others "
     "2014); half of it, fitted to public reports"},
    {"runout_share", "estimate: a 1 mm tool broke at 0.2 mm and lived at 0.1 mm"},
    {"stable_share", "estimate: a cut just over the linear limit hums and is kept; fitted to clean "
                     "reports"},
    {"chip_bulk", "estimate: curled chips fill 2.5 to 7 times their volume, dust 1.4 to 2.4"},
    {"plunge_share",
     "estimate: tools broke at a half and above, and survived a tenth and a quarter"},
    {"packing_share", "estimate: 1, as the tables state it"},
    {"tool_conductivity", "memory: carbide with a tenth of cobalt, 65 to 90 W/m/K"},
    {"tool_density", "memory: carbide with a tenth of cobalt"},
    {"tool_heat_capacity", "memory: carbide with a tenth of cobalt"},
    {"machine_stiffness",
     "handbook: total stiffness of a bench mill as measured in one public study, 5 N/um"},
    {"surface_cooling", "estimate: still air 20, an air blast 200, mist 1000, flood 4000 W/m2/K; a "
                        "coolant maker's page has 50, and 1000 to 3000 for flood"},
    {"wlf_c1", "memory: universal constants of Williams, Landel and Ferry"},
    {"wlf_c2", "memory: universal constants of Williams, Landel and Ferry"},
    {"tack_decades", "estimate: fitted to cuts in acrylic, carried over to other glassy plastics"},
    {"cooling", "handbook: forced gas 25 to 250, thin liquid 1000 to 5000 W/m2/K; set for a "
                "rotating tool by judgement"},
    {"room_temperature", "common-practice: a shop at 20 degC"},
    {"holder_temperature", "estimate: holder and spindle nose 5 K above room temperature"},
    {"tolerance", "common-practice: general tolerance of a small part, 0.1 mm either way"},
    {"chip_ratio", "estimate: shear angle of about 35 degrees at a rake of 10"},
    {"heat_share", "estimate: measured below 1 in glassy polymers at rate"},
    {"friction_share", "estimate: a fifth to a third of the cutting work"},
    {"sublayer_share", "estimate: share of the friction heat of the sheared layer that reaches the "
                       "interface, 0.2 to 0.6"},
    {"edge_reference", "estimate: edge radius of end mills in published force tests"},
    {"pressure_rake_at", "estimate: rake of general end mills"},
    {"pressure_temperature", "estimate: laboratory at 23 degC"},
    {"minimum_chip",
     "paper: James and others 2014 (PMMA, 0.33); usual range 0.14 to 0.43, Cheng and others 2018"},
    {"skin_depth", "estimate: ploughed skin one to two edge radii deep"},
    {"edge_share",
     "estimate: most of the work of the edge is done below the surface, not at the flank face"},
    {"walk_share", "estimate: fit to solutions of a moving front, within a factor 1.35"},
    {"spring_back", "estimate: a fifth of the edge radius, within a factor of two"},
    {"rub_heat", "estimate: a rub is half of a cut, within a factor of two"},
    {"wall_heat", "estimate: closed form against finite differences"},
    {"recutting", "estimate: fitted to everyday cuts and public reports"},
    {"side", "common-practice: climb milling on a light, stiff machine"},
    {"coolant", "common-practice: dry, as nothing was given"},
    {"tool_material", "common-practice: small end mills are solid carbide"},
    {"operation", "common-practice: an end mill mills"},
    {"entry", "common-practice: from the side, as nothing was given"},
    {"point_angle", "common-practice: general twist drills"},
    {"tap_lead", "common-practice: 2 to 3 threads for blind holes, 3.5 to 5 for through holes (ISO "
                 "8830, forms C and B)"},
    {"hole_diameter",
     "handbook: D - 1.299 P for the share of thread; for a reamer D less the stock"},
    {"thread_share", "common-practice: three quarters of a full thread"},
    {"ream_stock",
     "handbook: machine reaming, 0.1 to 0.2 mm up to 3 mm, 0.3 to 0.4 mm up to 13 mm, "
     "0.4 to 0.5 mm up to 19 mm; 0.1 mm + D/40"},
    {"tap_drag", "handbook: a tap maker's coefficients of torque, 0.95 to 1.5 in steel, 0.8 to 1.3 "
                 "in aluminium and cast iron, 0.75 to 1.7 in brass"},
    {"taper", "common-practice: a chamfer of 45 degrees"},
    {"tip_diameter", "estimate: a flat of a tenth of the diameter"},
    {"tip_below", "common-practice: the slow edge at the tip is kept out of the cut, by a quarter "
                  "of the depth of the chamfer"},
    {"ramp_angle", "common-practice: a few degrees"},
    {"mode_damping", "memory: 1 to 6 % of spindle, tool and plastic part"},
    {"mode2_damping", "memory: 1 to 6 % of spindle, tool and plastic part"},
    {"mode3_damping", "memory: 1 to 6 % of spindle, tool and plastic part"},
    {"width", "common-practice: the width of the feature in the fewest equal passes that are not "
              "wider than the tool"},
    {"bridge_width", "estimate: as much of the strip stands free as the pass has cut"},
    {"wall_ends", "common-practice: an open wall, as nothing was given"},
    {"bond_adhesion", "common-practice: tapes and glues are rated on metals and wet most plastics"},
    {"bond_force", "estimate: a part on tape rings; 1 to 1.5"},
    {"spring_passes", "common-practice: one lap, as nothing was given"},
    {"load_time", "common-practice: strength for a minute, as nothing was given"},
    {"blind", "common-practice: chips can leave to one side"},
};

const char *bite_defaults_source(const char *input)
{
    for (size_t i = 0; i < sizeof sources / sizeof *sources; i++) {
        if (strcmp(sources[i].input, input) == 0) {
            return sources[i].source;
        }
    }
    return "";
}

/* Plastics without fillers or fibres that wear the edge. */
static int is_plain_plastic(const bite_cut *cut)
{
    return (cut->substance == BITE_AMORPHOUS || cut->substance == BITE_CRYSTALLINE) &&
           isnan(cut->taylor_speed);
}

/* New edges: sharper for plastics, for which shops buy separate tools (memory: new ground edges 1.5
 * to 8 um, proportional to the root of the diameter). */
double bite_edge_radius_default(const bite_cut *cut)
{
    double root = sqrt(cut->diameter / 3e-3);
    return is_plain_plastic(cut) ? fmax(1.5e-6, 1.8e-6 * root) : 3.5e-6 * root;
}

/* Edge radius of a tool in mid life / that of the new edge. */
static const double worn_by_plastic = 1.2;
static const double worn_by_others = 2.0;

static double usual_wear(const bite_cut *cut)
{
    return is_plain_plastic(cut) ? worn_by_plastic : worn_by_others;
}

static double by_size(double at_6mm, double diameter)
{
    return at_6mm * pow(6e-3 / diameter, 0.25);
}

/* Space of a chip in its flute / its solid volume, by chip form (estimate; not used for plastics).
 */
static const double chip_bulks[] = {3.0, 4.0, 4.0, 2.5, 1.8};

/* Edge load that one tooth withstands / diameter: 800 N/mm2 of interrupted stress in a short beam
 * (estimate, fitted to published chip loads of aluminium, which are at 0.4 to 0.5 of it). */
static const double usual_tooth_strength = 44e6;

static void set_default(double *member, double value)
{
    if (isnan(*member)) {
        *member = value;
    }
}

static double shank_for(double diameter)
{
    for (size_t i = 0; i < sizeof shanks / sizeof *shanks; i++) {
        if (shanks[i] >= diameter * (1.0 - 1e-9)) {
            return shanks[i];
        }
    }
    return diameter;
}

/* The cone of a chamfer mill, up to where it is as thick as the tool. */
static void fill_cone(bite_cut *cut)
{
    if (isnan(cut->taper)) {
        cut->taper = bite_input_find("taper")->fallback;
    }
    set_default(&cut->tip_diameter, 0.1 * cut->diameter);
    set_default(&cut->tip_below, 0.25 * cut->depth);
    set_default(&cut->helix, 0.0);
    double cone = 0.5 * (cut->diameter - cut->tip_diameter) / tan(cut->taper);
    set_default(&cut->flute_length,
                isnan(cut->stickout) ? fmin(cone, 3.0 * cut->diameter) : fmin(cone, cut->stickout));
}

/* The cone of an engraving tool, whose tip cuts the floor of the groove. */
static void fill_groove(bite_cut *cut)
{
    set_default(&cut->tip_diameter, 0.1 * cut->diameter);
    set_default(&cut->helix, 0.0);
    double cone = 0.5 * (cut->diameter - cut->tip_diameter) / tan(cut->taper);
    set_default(&cut->flute_length,
                isnan(cut->stickout) ? fmin(cone, 6.0 * cut->diameter) : fmin(cone, cut->stickout));
}

double bite_flutes_default(const bite_cut *cut)
{
    int polymer = cut->substance == BITE_AMORPHOUS || cut->substance == BITE_CRYSTALLINE;
    return cut->operation == BITE_TAP    ? (polymer ? 2.0 : 3.0)
           : cut->operation == BITE_REAM ? (cut->diameter < 3e-3 ? 4.0 : 6.0)
                                         : bite_input_find("flutes")->fallback;
}

/* The tap is as strong as a shaft of this share of its root: the flutes take the rest (estimate:
 * taps of 6 mm break at 8 to 10 N m). */
static const double tap_core_of_root = 0.7;

/* The hole before a tap or a reamer, and the core of a tap. */
static void fill_hole_work(bite_cut *cut)
{
    if (cut->operation == BITE_TAP) {
        set_default(&cut->thread_share, bite_input_find("thread_share")->fallback);
        set_default(&cut->hole_diameter,
                    bite_thread_hole(cut->diameter, cut->pitch, cut->thread_share));
        set_default(&cut->tap_lead, cut->blind == 1 ? 2.5 : 5.0);
        set_default(&cut->tap_drag, bite_input_find("tap_drag")->fallback);
        set_default(&cut->core_share,
                    tap_core_of_root * bite_thread_root(cut->diameter, cut->pitch) / cut->diameter);
    } else if (cut->operation == BITE_REAM) {
        set_default(&cut->ream_stock, isnan(cut->hole_diameter)
                                          ? 1e-4 + 0.025 * cut->diameter
                                          : cut->diameter - cut->hole_diameter);
        set_default(&cut->hole_diameter, cut->diameter - cut->ream_stock);
    }
}

static void fill_tool(bite_cut *cut)
{
    set_default(&cut->flutes, bite_flutes_default(cut));
    fill_hole_work(cut);
    if (cut->operation == BITE_CHAMFER) {
        fill_cone(cut);
    } else if (cut->operation == BITE_MILL && !isnan(cut->taper)) {
        fill_groove(cut);
    }
    uint32_t material =
        cut->tool_material <= BITE_TOOL_DIAMOND ? cut->tool_material : BITE_TOOL_CARBIDE;
    set_default(&cut->edge_wear, isnan(cut->edge_radius) ? usual_wear(cut) : 1.0);
    set_default(&cut->edge_radius, bite_edge_radius_default(cut));
    set_default(&cut->core_share, cut->flutes == 1.0 ? 0.72 : 0.65);
    set_default(&cut->tooth_strength, usual_tooth_strength);
    set_default(&cut->shank_diameter, shank_for(cut->diameter));
    double flutes = (cut->operation == BITE_DRILL_HOLE || cut->operation == BITE_REAM ? 10.0
                     : cut->operation == BITE_TAP                                     ? 4.0
                                                                                      : 3.0) *
                    cut->diameter;
    set_default(&cut->flute_length, isnan(cut->stickout) ? flutes : fmin(flutes, cut->stickout));
    double neck = isnan(cut->neck_length) ? 0.0 : cut->neck_length;
    set_default(&cut->stickout, cut->flute_length + neck + fmax(cut->diameter, 5e-3));
    set_default(&cut->tool_modulus, tool_materials[material].modulus);
    set_default(&cut->tool_poisson, tool_materials[material].poisson);
    set_default(&cut->tool_conductivity, tool_materials[material].conductivity);
    set_default(&cut->tool_density, tool_materials[material].density);
    set_default(&cut->tool_heat_capacity, tool_materials[material].capacity);
    if (isnan(cut->tool_strength)) {
        cut->tool_strength = cut->tool_material == BITE_TOOL_HSS
                                 ? hss_strength
                                 : by_size(carbide_strength, cut->diameter);
    }
    set_default(&cut->chip_bulk, chip_bulks[cut->chip_form <= BITE_CHIP_DUST ? cut->chip_form : 0]);
}

/* A feature that is not wider than the tool is cut in one pass; a wider one is not a slot of the
 * tool's width but several equal passes. */
static void fill_width(bite_cut *cut)
{
    if (!isnan(cut->feature_width) && cut->operation == BITE_MILL && isnan(cut->taper)) {
        set_default(&cut->width,
                    cut->feature_width / ceil(cut->feature_width / cut->diameter - 1e-10));
    }
}

static void fill_holder(bite_cut *cut)
{
    set_default(&cut->holder_temperature, cut->room_temperature + 5.0);
}

/* Members that have a plain default in the registry but must not be filled: a NaN tolerance means
 * that none was requested, and a NaN taper of a mill that it is not conical. */
static int left_open(const bite_input *input, const bite_cut *cut)
{
    int of_taps = input->offset == offsetof(bite_cut, thread_share) ||
                  input->offset == offsetof(bite_cut, tap_drag);
    return input->offset == offsetof(bite_cut, tolerance) ||
           (of_taps && cut->operation != BITE_TAP) ||
           (input->offset == offsetof(bite_cut, taper) && cut->operation != BITE_CHAMFER);
}

void bite_defaults_fill(bite_cut *cut)
{
    fill_tool(cut);
    fill_width(cut);
    uint32_t coolant = cut->coolant <= BITE_COOLANT_FLOOD ? cut->coolant : 0;
    set_default(&cut->cooling, coolings[coolant]);
    set_default(&cut->surface_cooling, surface_coolings[coolant]);
    if (cut->substance == BITE_AMORPHOUS) {
        set_default(&cut->wlf_c1, universal_c1);
        set_default(&cut->wlf_c2, universal_c2);
        set_default(&cut->tack_decades, usual_tack_decades);
    }
    for (size_t i = 0; i < bite_input_table_count; i++) {
        const bite_input *input = &bite_input_table[i];
        double *member = (double *)(void *)((char *)cut + input->offset);
        if (input->words == 0 && isnan(*member) && !left_open(input, cut)) {
            *member = input->fallback;
        }
    }
    fill_holder(cut);
}

/* Members that decide others, and in which operations. A member that decides only by whether it is
 * given at all is not among them. */
int bite_defaults_follow(const bite_cut *cut, size_t offset)
{
    static const struct {
        size_t offset;
        int of_cones; /* 1: only of tools with a cone */
    } deciding[] = {
        {offsetof(bite_cut, diameter), 0},     {offsetof(bite_cut, flutes), 0},
        {offsetof(bite_cut, stickout), 0},     {offsetof(bite_cut, flute_length), 0},
        {offsetof(bite_cut, neck_length), 0},  {offsetof(bite_cut, feature_width), 0},
        {offsetof(bite_cut, taper), 0},        {offsetof(bite_cut, room_temperature), 0},
        {offsetof(bite_cut, tip_diameter), 1}, {offsetof(bite_cut, depth), 1},
        {offsetof(bite_cut, thread_share), 0}, {offsetof(bite_cut, pitch), 0},
    };
    int cone = cut->operation == BITE_CHAMFER || !isnan(cut->taper);
    for (size_t i = 0; i < sizeof deciding / sizeof *deciding; i++) {
        if (deciding[i].offset == offset) {
            return cone || !deciding[i].of_cones;
        }
    }
    return 0;
}

size_t bite_defaults_followers(const bite_cut *cut, size_t followers[BITE_FOLLOWERS_MAX])
{
    static const size_t following[BITE_FOLLOWERS_MAX] = {
        offsetof(bite_cut, edge_radius),    offsetof(bite_cut, core_share),
        offsetof(bite_cut, shank_diameter), offsetof(bite_cut, flute_length),
        offsetof(bite_cut, stickout),       offsetof(bite_cut, tool_strength),
        offsetof(bite_cut, width),          offsetof(bite_cut, tip_diameter),
        offsetof(bite_cut, tip_below),      offsetof(bite_cut, holder_temperature),
        offsetof(bite_cut, hole_diameter),  offsetof(bite_cut, ream_stock),
    };
    size_t count = 0;
    for (size_t i = 0; i < BITE_FOLLOWERS_MAX; i++) {
        double number = *(const double *)(const void *)((const char *)cut + following[i]);
        followers[count] = following[i];
        count += isnan(number) ? 1 : 0;
    }
    return count;
}

void bite_defaults_follow_on(bite_cut *full, const size_t *followers, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        *(double *)(void *)((char *)full + followers[i]) = (double)NAN;
    }
    fill_tool(full);
    fill_width(full);
    fill_holder(full);
}
