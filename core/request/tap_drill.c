/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drill for a thread, of the sizes that are sold. */
#include "core/request/tap_drill.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include <math.h>
#include <string.h>

/* A drill that is farther from the hole than this is not a drill for it. */
static const double farthest = 0.04;

int bite_thread_is_metric(double pitch)
{
    double steps = pitch / 5e-5;
    return fabs(steps - round(steps)) < 1e-6;
}

/* drill-3.3 is metric, drill-no29 and drill-1in8 are not, and drill-3.3-carbide is not plain. */
static int is_plain(const char *name)
{
    const char *size = strchr(name, '-');
    return size != NULL && strchr(size + 1, '-') == NULL;
}

static int is_metric(const char *name)
{
    const char *size = strchr(name, '-');
    return size != NULL && strspn(size + 1, "0123456789.") == strlen(size + 1);
}

/* Whether a drill comes before the best so far; *measure: the smaller, the better. */
typedef int (*better_drill)(double diameter, const void *wanted, double *measure);

/* The best of the plain drills of one system of sizes. */
static bite_status find_drill(const bite_library *library, int metric, better_drill is_better,
                              const void *wanted, double measure, const bite_item_record **drill,
                              bite_error *error)
{
    size_t count = 0;
    bite_status status = bite_library_size(library, BITE_DRILLS, &count, error);
    *drill = NULL;
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_item item;
        const bite_item_record *record = NULL;
        status = bite_library_item(library, BITE_DRILLS, i, &item, error);
        if (status != BITE_OK || !is_plain(item.name) || metric != is_metric(item.name)) {
            continue;
        }
        status = bite_library_record(library, BITE_DRILLS, item.name, &record, error);
        const bite_field_value *diameter =
            status == BITE_OK ? bite_item_field(record, "diameter") : NULL;
        if (diameter != NULL && is_better(diameter->value, wanted, &measure)) {
            *drill = record;
        }
    }
    return status;
}

static int is_closer(double diameter, const void *wanted, double *farthest_so_far)
{
    double away = fabs(diameter - *(const double *)wanted);
    int closer = away < *farthest_so_far * (1.0 - 1e-9);
    *farthest_so_far = closer ? away : *farthest_so_far;
    return closer;
}

static int is_smaller(double diameter, const void *least, double *so_far)
{
    int smaller =
        diameter >= *(const double *)least * (1.0 - 1e-9) && diameter < *so_far * (1.0 + 1e-9);
    *so_far = smaller ? diameter : *so_far;
    return smaller;
}

bite_status bite_drill_at_least(const bite_library *library, double least, double most, int metric,
                                const bite_item_record **drill, bite_error *error)
{
    return find_drill(library, metric, is_smaller, &least, most, drill, error);
}

bite_status bite_tap_drill(const bite_library *library, double hole, int metric,
                           const bite_item_record **drill, bite_error *error)
{
    return find_drill(library, metric, is_closer, &hole, farthest * hole, drill, error);
}
