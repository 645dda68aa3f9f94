/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thickness and layout of sheet. */
#include "core/job/sheet_stock.h"
#include <math.h>

static const double hair = 1e-9; /* m */

double bite_sheet_stock_tolerance(const bite_sheet_rule *rule, double nominal)
{
    double share = nominal < rule->thin_under ? rule->thin_share : rule->share;
    size_t step = 0;
    while (step + 1 < rule->step_count && nominal > rule->steps[step].up_to + hair) {
        step++;
    }
    return rule->step_count > 0 ? rule->steps[step].tolerance : rule->fixed + share * nominal;
}

double bite_sheet_stock_thin(const bite_sheet_rule *rule, double nominal)
{
    return rule->over_only ? nominal : nominal - bite_sheet_stock_tolerance(rule, nominal);
}

double bite_sheet_stock_thick(const bite_sheet_rule *rule, double nominal)
{
    return nominal + bite_sheet_stock_tolerance(rule, nominal);
}

double bite_sheet_stock_thinnest(const bite_sheet_rule *rule, double needed)
{
    for (size_t i = 0; i < rule->count; i++) {
        if (bite_sheet_stock_thin(rule, rule->nominals[i]) >= needed - hair) {
            return rule->nominals[i];
        }
    }
    return 0.0;
}

double bite_sheet_stock_as_sold(const bite_sheet_rule *rule, double thickness, double tolerance)
{
    double usable = 0.0;
    for (size_t i = 0; i < rule->count; i++) {
        double nominal = rule->nominals[i];
        int within = bite_sheet_stock_thin(rule, nominal) >= thickness - tolerance - hair &&
                     bite_sheet_stock_thick(rule, nominal) <= thickness + tolerance + hair;
        if (within) {
            return nominal;
        }
        if (usable <= 0.0 && nominal >= thickness - tolerance - hair) {
            usable = nominal;
        }
    }
    return usable;
}

bite_sheet_stock_removal bite_sheet_stock_remove(double thin, double thick, double part,
                                                 double share_top)
{
    double least = fmax(0.0, thin - part);
    double most = fmax(0.0, thick - part);
    bite_sheet_stock_removal removal = {share_top * least, (1.0 - share_top) * least,
                                        share_top * most, (1.0 - share_top) * most};
    return removal;
}

static uint64_t fitting(double capacity, double part, double gap, double margin)
{
    double count = floor((capacity - 2.0 * margin + gap) / (part + gap) + 1e-9);
    return count < 1.0 ? 0 : count > 1e6 ? 1000000 : (uint64_t)count;
}

uint32_t bite_sheet_stock_yield(double length, double width, double gap, double margin,
                                double sheet_length, double sheet_width)
{
    uint64_t straight =
        fitting(sheet_length, length, gap, margin) * fitting(sheet_width, width, gap, margin);
    uint64_t turned =
        fitting(sheet_length, width, gap, margin) * fitting(sheet_width, length, gap, margin);
    uint64_t most = straight > turned ? straight : turned;
    return most > UINT32_MAX ? UINT32_MAX : (uint32_t)most;
}

static double reach(uint32_t count, double part, double gap, double margin)
{
    return count * part + (count - 1) * gap + 2.0 * margin;
}

/* Tries all grids of one direction; the smallest blank is kept, of equal ones the squarest. */
static void try_grids(double along_size, double across_size, uint32_t count, double gap,
                      double margin, double sheet_length, double sheet_width, uint32_t turned,
                      bite_layout *best)
{
    for (uint32_t rows = 1; rows <= count; rows++) {
        uint32_t along = (count + rows - 1) / rows;
        bite_layout tried = {along,
                             rows,
                             turned,
                             along * rows - count,
                             reach(along, along_size, gap, margin),
                             reach(rows, across_size, gap, margin)};
        int fits = (sheet_length <= 0.0 || tried.length <= sheet_length + 1e-9) &&
                   (sheet_width <= 0.0 || tried.width <= sheet_width + 1e-9);
        double area = tried.length * tried.width;
        double best_area = best->length * best->width;
        int squarer = fmax(tried.length, tried.width) < fmax(best->length, best->width) - 1e-9;
        if (fits && (best->along == 0 || area < best_area - 1e-12 ||
                     (area < best_area + 1e-12 && squarer))) {
            *best = tried;
        }
    }
}

void bite_sheet_stock_layout(double length, double width, uint32_t count, double gap, double margin,
                             double sheet_length, double sheet_width, bite_layout *layout)
{
    bite_layout best = {0, 0, 0, 0, 0.0, 0.0};
    try_grids(length, width, count, gap, margin, sheet_length, sheet_width, 0, &best);
    try_grids(width, length, count, gap, margin, sheet_length, sheet_width, 1, &best);
    *layout = best;
}
