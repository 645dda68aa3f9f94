/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheet as it is sold: how thick it may be, which is thick enough, how parts lie on it. SI. */
#ifndef BITE_JOB_SHEET_STOCK_H
#define BITE_JOB_SHEET_STOCK_H

#include <stddef.h>
#include <stdint.h>

#define BITE_NOMINALS_MAX 64

/** What a standard says of a sheet's thickness: nominal t give or take fixed + share t; thinner
 * than thin_under thin_share t. */
typedef struct bite_sheet_rule {
    double fixed;
    double share;
    double thin_share;
    double thin_under; /* m; 0: the same at all thicknesses */
    size_t count;
    double nominals[BITE_NOMINALS_MAX]; /* rising */
} bite_sheet_rule;

/** Plus or minus, m. */
double bite_sheet_stock_tolerance(const bite_sheet_rule *rule, double nominal);

/** The thinnest nominal whose thinnest sheet still has what is needed; 0: none on the list. */
double bite_sheet_stock_thinnest(const bite_sheet_rule *rule, double needed);

/** The nominal that is nearest to a thickness, of two the thicker; 0: there is no list, or nothing
 * is nearer than none at all. */
double bite_sheet_stock_nearest(const bite_sheet_rule *rule, double thickness);

/** What comes off the faces: where the sheet is thin, and where it is thick. */
typedef struct bite_sheet_stock_removal {
    double thin_top;
    double thin_below;
    double thick_top;
    double thick_below;
} bite_sheet_stock_removal;

/** share_top: of what comes off, the part that the top gives: 0.5 balanced, 1 all of it. */
bite_sheet_stock_removal bite_sheet_stock_remove(double thin, double thick, double part,
                                                 double share_top);

/** Parts on a blank. */
typedef struct bite_layout {
    uint32_t along; /* parts in a row */
    uint32_t rows;
    uint32_t turned; /* 1: the part's length lies across */
    uint32_t more;   /* places beyond the count */
    double length;   /* of the blank, m; length >= width is not asked */
    double width;
} bite_layout;

/** The smallest blank for `count` parts of length by width, `gap` apart and `margin` to the edge,
 * that fits a sheet (0: any). *layout with along 0: it does not fit. */
void bite_sheet_stock_layout(double length, double width, uint32_t count, double gap, double margin,
                             double sheet_length, double sheet_width, bite_layout *layout);

/** Parts that a whole sheet yields, in the better of both directions. */
uint32_t bite_sheet_stock_yield(double length, double width, double gap, double margin,
                                double sheet_length, double sheet_width);

#endif
