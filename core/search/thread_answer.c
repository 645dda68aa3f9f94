/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do for a thread in a material: advice for tapping, settings for a thread mill. */
#include "core/search/thread_answer.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include <math.h>
#include <string.h>

static bite_status check_call(const bite_library *library, const char *thread, const char *material,
                              const bite_thread_options *options, bite_thread_answer **answer,
                              bite_error *error)
{
    if (library == NULL || thread == NULL || material == NULL || answer == NULL ||
        (options != NULL && options->left_hand > 1)) {
        bite_error_set(error, BITE_BAD_ARGUMENT,
                       "an open library, a thread, a material, a hand of 0 or 1 and a place for "
                       "the answer were expected");
        bite_error_key(error, "options");
        return BITE_BAD_ARGUMENT;
    }
    return BITE_OK;
}

static bite_status use_machine(const bite_library *library, const char *name,
                               bite_thread_answer *answer, bite_error *error)
{
    bite_status status =
        name == NULL ? BITE_OK
                     : bite_library_record(library, BITE_MACHINES, name, &answer->machine, error);
    answer->slowest = bite_item_figure(answer->machine, "spindle_slowest");
    answer->too_fast = answer->slowest > answer->advice.turns * (1.0 + 1e-9);
    return status;
}

static bite_status refuse_tool(const char *name, const char *why, bite_error *error)
{
    bite_error_set(error, BITE_OUT_OF_RANGE, "%.60s %s", name, why);
    bite_error_key(error, "tool");
    bite_error_hint(error, "name another thread mill, or leave the tool out; coolbite list tools "
                           "--kind thread-mill shows those of the table");
    return BITE_OUT_OF_RANGE;
}

/* The mill that is named: of the table, or known by its diameter. */
static bite_status named_mill(const bite_library *library, const char *name,
                              const bite_thread_advice *advice, bite_thread_mill *mill,
                              bite_error *error)
{
    const bite_item_record *record = NULL;
    double most = bite_thread_mill_largest(advice->diameter, advice->hole);
    bite_status status = bite_thread_mill_find(library, name, advice->pitch, mill, error);
    if (status != BITE_OK) {
        return status;
    }
    if (mill->record == NULL) {
        double diameter = 0.0;
        status = bite_library_record(library, BITE_TOOLS, name, &record, error);
        if (status == BITE_OK) {
            return refuse_tool(name, "is not a thread mill", error);
        }
        if (status != BITE_UNKNOWN_NAME ||
            bite_quantity_read(name, BITE_KIND_LENGTH, &diameter, NULL) != BITE_OK) {
            return status;
        }
        bite_error_clear(error);
        *mill = bite_thread_mill_plain(diameter, advice->length, advice->pitch);
    }
    double need = bite_thread_mill_reach_needed(advice->length, advice->pitch);
    const char *why = !mill->suits ? "does not cut the pitch of this thread"
                      : mill->diameter > most * (1 + 1e-9)
                          ? "is too large for this thread: it would "
                            "cut its flanks away, or touch the hole"
                      : mill->reach < need * (1 - 1e-9) ? "is too short for the usual length of "
                                                          "this thread with half a pitch below it"
                                                        : NULL;
    return why == NULL ? BITE_OK : refuse_tool(name, why, error);
}

static bite_status fill(const bite_library *library, const char *thread, const char *material,
                        const bite_thread_options *options, bite_thread_answer *answer,
                        bite_error *error)
{
    const bite_thread_advice *advice = &answer->advice;
    const char *machine = options == NULL ? NULL : options->machine;
    const char *tool = options == NULL ? NULL : options->tool;
    bite_status status = bite_thread_advise(library, thread, material, &answer->advice, error);
    status = status != BITE_OK ? status : use_machine(library, machine, answer, error);
    if (status != BITE_OK) {
        return status;
    }
    answer->left_hand = options != NULL && options->left_hand == 1;
    double most = bite_thread_mill_largest(advice->diameter, advice->hole);
    bite_thread_mill mill =
        bite_thread_mill_plain(floor(most * 1e4 + 1e-6) / 1e4, advice->length, advice->pitch);
    if (tool != NULL) {
        status = named_mill(library, tool, advice, &mill, error);
    }
    const bite_thread_case milled = {library,          advice->material, machine,
                                     advice->diameter, advice->pitch,    advice->hole,
                                     advice->length};
    return status != BITE_OK ? status
                             : bite_thread_milling_choose(&milled, &mill, &answer->milling, error);
}

bite_status bite_thread_answer_new(const bite_library *library, const char *thread,
                                   const char *material, const bite_thread_options *given,
                                   bite_thread_answer **answer, bite_error *error)
{
    bite_thread_options own;
    const bite_thread_options *options = &own;
    bite_error_clear(error);
    bite_status status =
        bite_struct_read(&bite_struct_thread_options, given, &own, "options", error);
    status =
        status != BITE_OK ? status : check_call(library, thread, material, options, answer, error);
    if (status != BITE_OK) {
        return status;
    }
    const bite_allocator *allocator = bite_library_allocator(library);
    bite_thread_answer *fresh = bite_memory_new(allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a thread");
    }
    fresh->allocator = *allocator;
    status = fill(library, thread, material, options, fresh, error);
    if (status != BITE_OK) {
        bite_thread_answer_free(fresh);
        return status;
    }
    *answer = fresh;
    return BITE_OK;
}

void bite_thread_answer_free(bite_thread_answer *answer)
{
    if (answer != NULL) {
        bite_allocator allocator = answer->allocator;
        bite_memory_free(&allocator, answer);
    }
}
