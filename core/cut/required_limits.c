/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits that must be judged for each kind of substance, and the figures that they need. */
#include "core/cut/required_limits.h"
#include "core/names/registry.h"
#include <math.h>
#include <stddef.h>

#define KIND(substance) (1u << (substance))
#define POLYMERS (KIND(BITE_AMORPHOUS) | KIND(BITE_CRYSTALLINE))
#define BOARDS KIND(BITE_THERMOSET)
#define ALL (POLYMERS | BOARDS | KIND(BITE_METAL) | KIND(BITE_MINERAL))

/* Limits that must be judged, by substance. */
static const struct {
    bite_limit_id limit;
    unsigned substances;
} required[] = {
    {BITE_LIMIT_TOOL_BREAK, ALL},     {BITE_LIMIT_FEED_TOOTH, ALL},
    {BITE_LIMIT_CHIP_PACKING, ALL},   {BITE_LIMIT_SOFTENING, POLYMERS | BOARDS},
    {BITE_LIMIT_CHIP_WELD, POLYMERS},
};

/* Figures that these limits need, by substance; for the pressure also by the form in which it is
 * stated (BITE_PRESSURE_NONE: in every form). */
static const struct {
    const char *input;
    size_t offset;
    unsigned substances;
    uint32_t form;
} figures[] = {
    {"pressure_t", offsetof(bite_cut, pressure_t), ALL, BITE_PRESSURE_EDGE},
    {"edge_t", offsetof(bite_cut, edge_t), ALL, BITE_PRESSURE_EDGE},
    {"pressure_t", offsetof(bite_cut, pressure_t), ALL, BITE_PRESSURE_POWER},
    {"pressure_exponent", offsetof(bite_cut, pressure_exponent), ALL, BITE_PRESSURE_POWER},
    {"shear_strength", offsetof(bite_cut, shear_strength), ALL, BITE_PRESSURE_STRENGTH},
    {"friction", offsetof(bite_cut, friction), ALL, BITE_PRESSURE_STRENGTH},
    {"fracture_energy", offsetof(bite_cut, fracture_energy), ALL, BITE_PRESSURE_STRENGTH},
    {"yield", offsetof(bite_cut, yield), ALL, BITE_PRESSURE_STRENGTH},
    {"packing_limit", offsetof(bite_cut, packing_limit), ALL, BITE_PRESSURE_NONE},
    {"transition", offsetof(bite_cut, transition), POLYMERS, BITE_PRESSURE_NONE},
    {"softening", offsetof(bite_cut, softening), BOARDS, BITE_PRESSURE_NONE},
};

static int is_of(const bite_cut *cut, unsigned substances)
{
    return cut->substance <= BITE_MINERAL && (substances & KIND(cut->substance)) != 0;
}

int bite_limit_is_required(const bite_cut *cut, bite_limit_id limit)
{
    for (size_t i = 0; i < sizeof required / sizeof *required; i++) {
        if (required[i].limit == limit) {
            return is_of(cut, required[i].substances);
        }
    }
    return 0;
}

const char *bite_cut_missing_figure(const bite_cut *cut, size_t index)
{
    size_t found = 0;
    if (cut == NULL) {
        return NULL;
    }
    if (cut->pressure == BITE_PRESSURE_NONE && found++ == index) {
        return "pressure";
    }
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        double figure = *(const double *)(const void *)((const char *)cut + figures[i].offset);
        int stated = figures[i].form == BITE_PRESSURE_NONE || figures[i].form == cut->pressure;
        if (stated && is_of(cut, figures[i].substances) && isnan(figure) && found++ == index) {
            return figures[i].input;
        }
    }
    return NULL;
}

void bite_result_count(const bite_cut *cut, bite_result *result)
{
    result->judged = result->not_applicable = result->not_judged = 0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        int lacks =
            (limit->why == BITE_WHY_BAD_NUMBER && !limit->advisory) ||
            (limit->why == BITE_WHY_NO_DATA && bite_limit_is_required(cut, (bite_limit_id)i));
        if (limit->why == BITE_WHY_NO_LIMIT) {
            continue;
        }
        result->judged += limit->applies != 0;
        result->not_judged += !limit->applies && lacks;
        result->not_applicable += !limit->applies && !lacks;
    }
    if (result->not_judged > 0 && result->verdict != BITE_OVER) {
        result->verdict = BITE_UNKNOWN;
    }
}
