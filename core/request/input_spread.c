/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which inputs of a request are uncertain. */
#include "core/request/input_spread.h"
#include "core/base/error.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

static double figure(const bite_item_record *record, const char *key, double otherwise)
{
    const bite_field_value *field_value = bite_item_field(record, key);
    return field_value == NULL ? otherwise : field_value->value;
}

/* The word of a shape that is normal, with low and high stated as differences rather than factors:
 * for temperatures and angles, whose zero is arbitrary. */
enum { SHAPE_SHIFT = BITE_SHAPE_LOGNORMAL + 1 };

/* The band of the input's own record if it states one, otherwise the factors or differences of the
 * model's table. */
static int make_spread(const bite_item_record *record, size_t index, double best,
                       const bite_provenance *provenance, bite_spread *spread)
{
    const bite_field_value *shape = bite_item_field(record, "shape");
    int banded = provenance->origin == BITE_ORIGIN_TABLE && provenance->low < provenance->high;
    spread->input = (uint32_t)index;
    spread->shape = shape == NULL ? 0 : shape->word;
    spread->group = (uint32_t)figure(record, "group", 0.0);
    spread->reserved = 0;
    spread->together = figure(record, "together", 0.0);
    spread->low = banded ? provenance->low : best * figure(record, "low", 1.0);
    spread->high = banded ? provenance->high : best * figure(record, "high", 1.0);
    if (spread->shape == SHAPE_SHIFT) {
        spread->shape = BITE_SHAPE_NORMAL;
        spread->low = banded ? provenance->low : best - figure(record, "minus", 0.0);
        spread->high = banded ? provenance->high : best + figure(record, "plus", 0.0);
    }
    return spread->shape != 0 && spread->low <= best && best <= spread->high &&
           spread->low < spread->high &&
           (spread->shape != BITE_SHAPE_LOGNORMAL || spread->low > 0.0);
}

/* Inputs that nothing depends on in this request: the stress of the sheet matters only to flatness,
 * the damping of a mode only if the mode was measured. They take no dimension of the draws. */
static int is_unused(const bite_input *input, const bite_cut *full)
{
    return (input->offset == offsetof(bite_cut, skin_stress) &&
            isnan(full->flatness + full->part_span)) ||
           (input->offset == offsetof(bite_cut, bond_force) &&
            isnan(full->bond_area + full->bond_shear + full->bond_pull)) ||
           (input->offset == offsetof(bite_cut, mode2_damping) && isnan(full->mode2_frequency)) ||
           (input->offset == offsetof(bite_cut, mode3_damping) && isnan(full->mode3_frequency));
}

bite_status bite_spreads_collect(const bite_request *request, const bite_cut *full,
                                 bite_provenance *provenance, bite_spread *spreads, size_t *count,
                                 bite_error *error)
{
    *count = 0;
    for (size_t i = 0; i < bite_input_count() && i < BITE_INPUTS_MAX; i++) {
        const bite_input *input = bite_input_at(i);
        const bite_item_record *record = NULL;
        if (input->words > 0 || provenance[i].origin == BITE_ORIGIN_USER ||
            provenance[i].origin == BITE_ORIGIN_NONE || is_unused(input, full)) {
            continue;
        }
        double best = *bite_input_number_of(full, input);
        /* most inputs have no spread: no hint is needed */
        bite_status status = bite_library_spread(request->library, input->name, &record, NULL);
        if (status != BITE_OK && status != BITE_UNKNOWN_NAME) {
            status = bite_library_spread(request->library, input->name, &record, error);
        }
        if (status == BITE_UNKNOWN_NAME) {
            continue;
        }
        if (status != BITE_OK) {
            return status;
        }
        if (!isnan(best) && *count < BITE_SPREAD_MAX &&
            make_spread(record, i, best, &provenance[i], &spreads[*count])) {
            provenance[i].low = spreads[*count].low;
            provenance[i].high = spreads[*count].high;
            (*count)++;
        }
    }
    bite_error_clear(error);
    return BITE_OK;
}

size_t bite_spreads_except(const bite_spread *spreads, size_t count, const bite_input *input,
                           bite_spread *remaining)
{
    const bite_input *follows = input->words > 0
                                    ? bite_input_find("cooling")
                                    : NULL; /* the only word that is changed is the coolant */
    size_t left = 0;
    for (size_t i = 0; i < count; i++) {
        const bite_input *scatters = bite_input_at(spreads[i].input);
        if (scatters != input && scatters != follows) {
            remaining[left++] = spreads[i];
        }
    }
    return left;
}
