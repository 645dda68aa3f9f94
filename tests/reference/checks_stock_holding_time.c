/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Warp, workholding, sheet and time against worked values. mm, MPa, N, s as in the rows. */
#include "core/job/move_time.h"
#include "core/job/sheet_stock.h"
#include "core/physics/elastic/thin_plate.h"
#include "core/physics/elastic/warp.h"
#include "core/physics/holding/workholding.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/holding.h"
#include "tests/reference/textbook/motion.h"
#include "tests/reference/textbook/plate.h"
#include <math.h>

#define IN(name) bite_in(given, name)
#define MM(name) (1e-3 * bite_in(given, name))
#define MPA(name) (1e6 * bite_in(given, name))

static int gradient_bow(const bite_given *given, double *out)
{
    out[0] = 1e3 * bite_warp_bow(bite_warp_gradient(IN("strain"), MM("h")), MM("L"));
    return 1;
}

static int layer_bow(const bite_given *given, double *out)
{
    double curvature = bite_warp_layers(MPA("E"), IN("nu"), MPA("s"), MM("h"), MM("c1"), MM("c2"));
    out[0] = 1e3 * bite_warp_bow(curvature, MM("L"));
    return 1;
}

static int skin_bow(const bite_given *given, double *out)
{
    out[0] = 1e3 *
             bite_warp_bow(textbook_warp_skin(MPA("E"), IN("nu"), 1e3 * IN("F"), MM("h")), MM("L"));
    return 1;
}

static int flattened(const bite_given *given, double *out)
{
    out[0] = 100.0 * textbook_warp_flattened(MM("h"), MM("d"), MM("L"));
    return 1;
}

static int coupon(const bite_given *given, double *out)
{
    out[0] = 1e-6 * bite_warp_coupon(MPA("E"), IN("nu"), MM("h"), MM("c1"), MM("L"), MM("d"));
    return 1;
}

static int bond_stress(const bite_given *given, double *out)
{
    bite_workholding_load load = {IN("F"), IN("Fz"), MM("H"), MM("r")};
    bite_workholding_stress stress =
        bite_workholding_stresses(MM("along"), MM("across"), &load, INFINITY);
    out[0] = 1e-6 * stress.shear;
    out[1] = 1e-6 * stress.pull;
    out[2] = 1e-6 * stress.tilt;
    out[3] = 1e-6 * stress.twist;
    out[4] = 1e-6 * (stress.shear + stress.twist);
    return 5;
}

static int bond_shear(const bite_given *given, double *out)
{
    for (int i = 1; i <= 4; i++) {
        bite_workholding_load load = {bite_in_at(given, "F", i), 0.0, 0.0, 0.0};
        out[i - 1] =
            1e-6 * bite_workholding_stresses(MM("along"), MM("across"), &load, INFINITY).shear;
    }
    return 4;
}

static int vacuum(const bite_given *given, double *out)
{
    out[0] = textbook_holding_vacuum(1e3 * IN("p"), 1e-6 * IN("A"), IN("mu1"), 0.0);
    out[1] = textbook_holding_vacuum(1e3 * IN("p"), 1e-6 * IN("A"), IN("mu2"), 0.0);
    return 2;
}

static int groove(const bite_given *given, double *out)
{
    out[0] = 1e3 * bite_workholding_groove(1e3 * IN("p"), MM("g"),
                                           bite_plate_rigidity(MPA("E"), IN("nu"), MM("h")));
    return 1;
}

static int buckling(const bite_given *given, double *out)
{
    out[0] = bite_workholding_buckling(MPA("E"), IN("nu"), MM("h"), MM("L"), MM("b"));
    return 1;
}

static int squeeze(const bite_given *given, double *out)
{
    out[0] = 1e3 * bite_workholding_squeeze(IN("F"), MPA("E"), MM("h"), MM("L"), MM("b"));
    return 1;
}

static int mismatch(const bite_given *given, double *out)
{
    out[0] = 1e3 * textbook_holding_slip(IN("a1"), IN("a2"), IN("dT"), MM("r"));
    out[1] = 1e-6 * textbook_holding_mismatch(MPA("E"), IN("nu"), IN("a1"), IN("a2"), IN("dT"));
    return 2;
}

static int cure(const bite_given *given, double *out)
{
    out[0] = bite_workholding_cure(MM("g1"));
    out[1] = bite_workholding_cure(MM("g2"));
    return 2;
}

static int move_time(const bite_given *given, double *out)
{
    double speed = IN("F") / 60.0;
    out[0] = IN("L") / speed;
    out[1] = bite_move_time_rest(IN("L"), speed, IN("a"));
    out[2] = bite_move_time_jerk(IN("L"), speed, IN("a"), IN("j"));
    return 3;
}

static int ramp_way(const bite_given *given, double *out)
{
    /* a ramp is the time of a long move beyond L/v, at half of the speed on average */
    double seconds = 10.0;
    double length = IN("v") * seconds;
    for (int i = 1; i <= 2; i++) {
        double ramp =
            bite_move_time_jerk(length, IN("v"), IN("a"), bite_in_at(given, "j", i)) - seconds;
        out[i - 1] = 0.5 * IN("v") * ramp;
    }
    return 2;
}

static int corner_feed(const bite_given *given, double *out)
{
    out[0] = 60.0 * bite_move_time_corner(IN("th") * M_PI / 180.0, IN("d"), IN("a"));
    return 1;
}

static int arc_feed(const bite_given *given, double *out)
{
    out[0] = 60.0 * textbook_motion_arc_speed(IN("r"), IN("a"));
    return 1;
}

static int square_time(const bite_given *given, double *out)
{
    double speed = IN("F") / 60.0;
    out[0] = IN("L") / speed;
    out[1] = bite_move_time_loop(IN("L"), 4.0, speed, IN("a"),
                                 bite_move_time_corner(0.5 * M_PI, IN("d"), IN("a")));
    return 2;
}

static int sheet_range(const bite_given *given, double *out)
{
    bite_sheet_rule rule = {.fixed = MM("fixed"), .share = IN("share")};
    out[0] = 1e3 * bite_sheet_stock_thin(&rule, MM("t"));
    out[1] = 1e3 * bite_sheet_stock_thick(&rule, MM("t"));
    return 2;
}

static int length_at_20(const bite_given *given, double *out)
{
    out[0] = 1e3 * textbook_length_at_20(MM("L"), IN("a"), IN("T") + 273.15);
    return 1;
}

const bite_check bite_checks_around[] = {
    {"gradient_bow", gradient_bow, "bite_warp_bow"},
    {"layer_bow", layer_bow, "bite_warp_bow"},
    {"skin_bow", skin_bow, "textbook_warp_skin"},
    {"flattened", flattened, "textbook_warp_flattened"},
    {"coupon", coupon, "bite_warp_coupon"},
    {"bond_stress", bond_stress, "bite_workholding_stresses"},
    {"bond_shear", bond_shear, "bite_workholding_stresses"},
    {"vacuum", vacuum, "textbook_holding_vacuum"},
    {"groove", groove, "bite_plate_rigidity"},
    {"buckling", buckling, "bite_workholding_buckling"},
    {"squeeze", squeeze, "bite_workholding_squeeze"},
    {"mismatch", mismatch, "textbook_holding_mismatch"},
    {"cure", cure, "bite_workholding_cure"},
    {"move_time", move_time, "bite_move_time_jerk"},
    {"ramp_way", ramp_way, "bite_move_time_jerk"},
    {"corner_feed", corner_feed, "bite_move_time_corner"},
    {"arc_feed", arc_feed, "textbook_motion_arc_speed"},
    {"square_time", square_time, "bite_move_time_loop"},
    {"sheet_range", sheet_range, "bite_sheet_stock_thin"},
    {"length_at_20", length_at_20, "textbook_length_at_20"},
};
const size_t bite_checks_around_count = BITE_COUNT(bite_checks_around);
