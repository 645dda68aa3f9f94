/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program that was built with the first header: every structure that it hands over lies between
 * guard bytes, which the library must leave alone. */
#include "tests/abi/first_calls.h"
#include "tests/abi/first/coolbite/coolbite.h"
#include <math.h>
#include <string.h>

#define GUARD 512 /* bytes on each side: more than any structure has grown */

/* A structure between guards. */
#define GUARDED(type)                                                                              \
    struct {                                                                                       \
        unsigned char before[GUARD];                                                               \
        type it;                                                                                   \
        unsigned char after[GUARD];                                                                \
    }
#define GUARD_SET(place) memset(&(place), 0xa5, sizeof(place))
#define GUARD_HOLDS(place) (is_kept((place).before) && is_kept((place).after))

#define EXPECT(condition)                                                                          \
    do {                                                                                           \
        if (!(condition)) {                                                                        \
            return #condition;                                                                     \
        }                                                                                          \
    } while (0)

static int is_kept(const unsigned char *guard)
{
    int kept = 1;
    for (size_t i = 0; i < GUARD; i++) {
        kept &= guard[i] == 0xa5;
    }
    return kept;
}

/* A slot in an aluminium, by the numbers that the physics needs. */
static void fill(bite_cut *cut)
{
    cut->spindle_speed = 200.0;
    cut->feed_rate = 0.01;
    cut->depth = 1e-3;
    cut->diameter = 6e-3;
    cut->flutes = 2.0;
    cut->pressure = BITE_PRESSURE_EDGE;
    cut->pressure_t = 8e8;
    cut->edge_t = 2e4;
    cut->density = 2700.0;
    cut->heat_capacity = 900.0;
    cut->conductivity = 167.0;
    cut->shear_strength = 3e8;
    cut->yield = 3e8;
    cut->friction = 0.5;
    cut->modulus = 69e9;
}

const char *first_cut(first_numbers *numbers)
{
    GUARDED(bite_cut) cut;
    GUARDED(bite_result) result;
    GUARDED(bite_error) error;
    GUARD_SET(cut);
    GUARD_SET(result);
    GUARD_SET(error);
    bite_cut_init(&cut.it);
    EXPECT(GUARD_HOLDS(cut));
    EXPECT(cut.it.struct_size == sizeof cut.it);
    EXPECT(isnan(cut.it.spindle_speed) && isnan(cut.it.recutting) &&
           cut.it.strength_curve.count == 0);
    fill(&cut.it);
    result.it.struct_size = (uint32_t)sizeof result.it;
    error.it.struct_size = (uint32_t)sizeof error.it;
    bite_status status = bite_cut_pass(&cut.it, &result.it, &error.it);
    EXPECT(status == BITE_OK);
    EXPECT(GUARD_HOLDS(result) && GUARD_HOLDS(error) && result.it.struct_size == sizeof result.it);
    numbers->power = result.it.values[BITE_POWER_MEAN].value;
    uint32_t stickout = 0;
    while (strcmp(bite_input_at(stickout)->name, "pressure_t") != 0) {
        stickout++;
    }
    const bite_spread spread = {stickout, BITE_SHAPE_NORMAL, 0, 0, 6e8, 1e9, 0.0};
    EXPECT(bite_cut_band(&cut.it, &spread, 1, 256, 1, 0.9, &result.it, &error.it) == BITE_OK);
    EXPECT(GUARD_HOLDS(cut) && GUARD_HOLDS(result) && GUARD_HOLDS(error));
    numbers->chance = result.it.chance;
    return NULL;
}

const char *first_refusals(void)
{
    GUARDED(bite_cut) cut;
    GUARDED(bite_error) error;
    bite_result result;
    GUARD_SET(cut);
    GUARD_SET(error);
    bite_cut_init(&cut.it);
    fill(&cut.it);
    cut.it.struct_size = 16;
    result.struct_size = (uint32_t)sizeof result;
    error.it.struct_size = (uint32_t)sizeof error.it;
    EXPECT(bite_cut_pass(&cut.it, &result, &error.it) == BITE_BAD_ARGUMENT);
    EXPECT(strcmp(error.it.key, "struct_size") == 0 && strlen(error.it.hint) > 5);
    bite_cut_init(&cut.it);
    EXPECT(bite_cut_pass(&cut.it, &result, &error.it) == BITE_MISSING);
    EXPECT(GUARD_HOLDS(cut) && GUARD_HOLDS(error));
    return NULL;
}

/* Text that was written; a place for all of it and a 0. */
typedef struct written_text {
    size_t size;
    char text[200000];
} written_text;

static int keep(void *user, const char *text, size_t size)
{
    written_text *written = user;
    if (size >= sizeof written->text - written->size) {
        return 1;
    }
    memcpy(written->text + written->size, text, size);
    written->size += size;
    written->text[written->size] = 0;
    return 0;
}

static const char *choose(const void *request, uint32_t goal, const char *written_as,
                          double *removal, size_t *passes)
{
    GUARDED(bite_choice_options) options;
    GUARDED(bite_error) error;
    bite_choice *choice = NULL;
    GUARD_SET(options);
    GUARD_SET(error);
    memset(&options.it, 0, sizeof options.it);
    options.it.struct_size = (uint32_t)sizeof options.it;
    options.it.goal = goal;
    options.it.draws = 64;
    options.it.confidence = 0.90;
    options.it.effort = BITE_EFFORT_QUICK;
    error.it.struct_size = (uint32_t)sizeof error.it;
    EXPECT(bite_choice_new(request, &options.it, &choice, &error.it) == BITE_OK);
    EXPECT(GUARD_HOLDS(options) && GUARD_HOLDS(error));
    *removal = bite_answer_result(bite_choice_answer(choice))->values[BITE_REMOVAL_RATE].value;
    *passes = bite_choice_passes(choice);
    static written_text written;
    bite_style style = {(uint32_t)sizeof style, BITE_JSON, BITE_METRIC, 0, 0, 0, 0, 0};
    written.size = 0;
    EXPECT(bite_choice_write(choice, &style, keep, &written, NULL) == BITE_OK);
    EXPECT(strstr(written.text, written_as) != NULL);
    bite_choice_free(choice);
    return NULL;
}

const char *first_choices(const void *request, first_numbers *numbers)
{
    const char *wrong =
        choose(request, BITE_GOAL_COOL, "\"goal\": \"cool\"", &numbers->cooler, &numbers->passes);
    wrong = wrong != NULL ? wrong
                          : choose(request, BITE_GOAL_FAST, "\"goal\": \"fast\"", &numbers->faster,
                                   &numbers->passes);
    wrong = wrong != NULL ? wrong
                          : choose(request, BITE_GOAL_USUAL, "\"goal\": \"fast\"", &numbers->usual,
                                   &numbers->passes);
    EXPECT(strcmp(bite_goal_name(BITE_GOAL_COOL), "cool") == 0);
    EXPECT(strcmp(bite_goal_name(BITE_GOAL_FAST), "fast") == 0);
    EXPECT(bite_goal_name(BITE_GOAL_USUAL) == NULL);
    return wrong;
}

/* The first header asked for no struct_size here. */
const char *first_request(const void *request, first_numbers *numbers)
{
    GUARDED(bite_cut) cut;
    GUARD_SET(cut);
    EXPECT(bite_request_cut(request, &cut.it, NULL) == BITE_OK);
    EXPECT(GUARD_HOLDS(cut) && cut.it.struct_size == sizeof cut.it);
    numbers->side = cut.it.feed_rate;
    return NULL;
}

const char *first_library(const char *families, const char *tables)
{
    GUARDED(bite_library_options) options;
    GUARDED(bite_item) item;
    bite_library *library = NULL;
    GUARD_SET(options);
    GUARD_SET(item);
    memset(&options.it, 0, sizeof options.it);
    options.it.struct_size = sizeof options.it;
    options.it.family_path = families;
    options.it.table_path = tables;
    EXPECT(bite_library_open(&options.it, &library, NULL) == BITE_OK);
    EXPECT(bite_library_item(library, BITE_TOOLS, 0, &item.it, NULL) == BITE_OK);
    EXPECT(GUARD_HOLDS(options) && GUARD_HOLDS(item) && item.it.name[0] != 0);
    bite_library_close(library);
    return NULL;
}

const char *first_answer(const void *request)
{
    GUARDED(bite_style) style;
    GUARDED(bite_window_options) options;
    GUARDED(bite_caution) caution;
    bite_answer *answer = NULL;
    bite_window *window = NULL;
    static written_text written;
    written.size = 0;
    GUARD_SET(style);
    GUARD_SET(options);
    GUARD_SET(caution);
    memset(&style.it, 0, sizeof style.it);
    style.it.struct_size = (uint32_t)sizeof style.it;
    style.it.format = BITE_JSON;
    memset(&options.it, 0, sizeof options.it);
    options.it.struct_size = (uint32_t)sizeof options.it;
    options.it.columns = 5;
    options.it.rows = 4;
    options.it.across_least = options.it.across_most = (double)NAN;
    options.it.up_least = options.it.up_most = (double)NAN;
    EXPECT(bite_answer_new(request, 64, 0.9, &answer, NULL) == BITE_OK);
    EXPECT(bite_answer_write(answer, &style.it, keep, &written, NULL) == BITE_OK);
    EXPECT(written.size > 1000);
    EXPECT(bite_answer_caution(answer, 0, &caution.it, NULL) == BITE_OK);
    EXPECT(bite_window_new(answer, &options.it, &window, NULL) == BITE_OK);
    EXPECT(bite_window_write(window, &style.it, keep, &written, NULL) == BITE_OK);
    EXPECT(GUARD_HOLDS(style) && GUARD_HOLDS(options) && GUARD_HOLDS(caution));
    bite_window_free(window);
    bite_answer_free(answer);
    return NULL;
}

const char *first_job(const void *library, const char *path)
{
    GUARDED(bite_job_options) options;
    GUARDED(bite_error) error;
    bite_job *job = NULL;
    GUARD_SET(options); /* what follows the options is no set-up of a shop */
    GUARD_SET(error);
    memset(&options.it, 0, sizeof options.it);
    options.it.struct_size = (uint32_t)sizeof options.it;
    options.it.draws = 64;
    options.it.confidence = 0.90;
    error.it.struct_size = (uint32_t)sizeof error.it;
    EXPECT(bite_job_open(library, path, &options.it, NULL, NULL, &job, &error.it) == BITE_OK);
    EXPECT(GUARD_HOLDS(options) && GUARD_HOLDS(error));
    bite_job_free(job);
    EXPECT(bite_job_open(library, "/nonexistent", &options.it, NULL, NULL, &job, &error.it) ==
           BITE_NOT_FOUND);
    EXPECT(GUARD_HOLDS(error) && error.it.message[0] != 0);
    return NULL;
}
