/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two reports that differ in one thing and in the outcome. */
#include "tests/field/field_flips.h"
#include "tests/field/field_scores.h"
#include <string.h>

const field_flip field_flips[] = {
    {"N44", "N42", 0}, {"N44", "N43", 0},   {"N44", "N45", 0},   {"N55", "N56", 0},
    {"N66", "N71", 0}, {"N31", "N33", 0},   {"N32", "N33", 0},   {"N67", "N71", 0},
    {"N68", "N71", 0}, {"N02", "N01", 0},   {"N37", "N36", 0},   {"P82", "P81", 0},
    {"N46", "N45", 1}, {"R01b", "R01a", 0}, {"R01c", "R01a", 0}, {"N25", "N24", 0},
    {"N03", "N05", 0}, {"S33", "S32", 0},   {"S66", "S68", 0},   {"S66", "S69", 0},
};
const size_t field_flip_count = sizeof field_flips / sizeof *field_flips;

static const field_case *find(const char *id)
{
    for (size_t i = 0; i < field_case_count; i++) {
        if (strcmp(field_cases[i].id, id) == 0) {
            return &field_cases[i];
        }
    }
    return NULL;
}

int field_flip_is_right(size_t at, int inferred, int *judged)
{
    const field_case *better = find(field_flips[at].better);
    const field_case *worse = find(field_flips[at].worse);
    *judged = better != NULL && worse != NULL && better->judged && worse->judged &&
              field_is_seeable(worse) && (better->scored && worse->scored) == !inferred;
    return *judged && field_chance(worse, worse->kind) > field_chance(better, worse->kind);
}

int field_flip_is_narrow(size_t at)
{
    const field_case *worse = find(field_flips[at].worse);
    return field_chance(worse, worse->kind) <
           field_chance(find(field_flips[at].better), worse->kind) + 0.01;
}
