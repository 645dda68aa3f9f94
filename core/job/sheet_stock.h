/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheet stock: the tolerance of commercial thicknesses, the nominal thickness that is sufficient,
 * and the layout of parts. SI. */
#ifndef BITE_JOB_SHEET_STOCK_H
#define BITE_JOB_SHEET_STOCK_H

#include <stddef.h>
#include <stdint.h>

#define BITE_NOMINALS_MAX 64

/** The thickness tolerance of a standard: nominal t plus or minus (fixed + share t), with
 * thin_share below thin_under; or in steps. */
typedef struct bite_sheet_rule {
    double fixed;
    double share;
    double thin_share;
    double thin_under; /* m; 0: the same at all thicknesses */
    size_t count;
    double nominals[BITE_NOMINALS_MAX]; /* rising */
    uint32_t over_only;                 /* 1: the sheet is never thinner than its nominal */
    size_t step_count;                  /* 0: no steps */
    struct {
        double up_to; /* m, thickness; rising; beyond the last one the same tolerance */
        double tolerance;
    } steps[BITE_NOMINALS_MAX];
} bite_sheet_rule;

/** The tolerance of a nominal thickness, m. */
double bite_sheet_stock_tolerance(const bite_sheet_rule *rule, double nominal);

/** The thinnest and the thickest place of a sheet of a nominal thickness, m. */
double bite_sheet_stock_thin(const bite_sheet_rule *rule, double nominal);
double bite_sheet_stock_thick(const bite_sheet_rule *rule, double nominal);

/** The thinnest nominal thickness whose lower limit is at least `needed`; 0: none. */
double bite_sheet_stock_thinnest(const bite_sheet_rule *rule, double needed);

/** The sheet for a part whose faces stay as supplied: the thinnest of those whose whole range is
 * within the part's thickness plus or minus its tolerance, otherwise the thinnest whose nominal is
 * not below that; 0: there is none. */
double bite_sheet_stock_as_sold(const bite_sheet_rule *rule, double thickness, double tolerance);

/** Material removed from the faces, m, at the thinnest and at the thickest sheet. */
typedef struct bite_sheet_stock_removal {
    double thin_top;
    double thin_below;
    double thick_top;
    double thick_below;
} bite_sheet_stock_removal;

/** share_top: the share that is removed from the top: 0.5 balanced, 1 all of it. */
bite_sheet_stock_removal bite_sheet_stock_remove(double thin, double thick, double part,
                                                 double share_top);

/** Parts on a blank. */
typedef struct bite_layout {
    uint32_t along; /* parts in a row */
    uint32_t rows;
    uint32_t turned; /* 1: the length of the part lies across the blank */
    uint32_t more;   /* places of the grid that stay free */
    double length;   /* of the blank, m; may be less than the width */
    double width;
} bite_layout;

/** The smallest blank for `count` parts of length by width, `gap` apart and `margin` to the edge,
 * that fits a sheet (0: any). *layout with along 0: it does not fit. */
void bite_sheet_stock_layout(double length, double width, uint32_t count, double gap, double margin,
                             double sheet_length, double sheet_width, bite_layout *layout);

/** The number of parts that a whole sheet yields, in the better of both directions. */
uint32_t bite_sheet_stock_yield(double length, double width, double gap, double margin,
                                double sheet_length, double sheet_width);

#endif
