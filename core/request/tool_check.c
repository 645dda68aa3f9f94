/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the tool of a request is made for its operation. */
#include "core/request/tool_check.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/item.h"
#include "core/names/registry.h"
#include "core/request/request.h"
#include <math.h>
#include <string.h>

/* A tool that is made for one operation does no other, and a thread is tapped. */
static bite_status check_kind(const bite_request *request, const bite_cut *requested,
                              bite_error *error)
{
    const bite_input *operations = bite_input_find("operation");
    const bite_field_value *made =
        request->tool == NULL ? NULL : bite_item_field(request->tool, "operation");
    const char *own = made == NULL ? NULL : made->field->words[made->word];
    const char *asked = bite_input_word(operations, requested->operation);
    if (own != NULL && strcmp(own, asked) != 0) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "%.60s is made to %s; it does not %s",
                       request->tool->name, own, asked);
        bite_error_key(error, "tool");
        bite_error_hint(error, "use operation %s, or another tool", own);
        return BITE_OUT_OF_RANGE;
    }
    if (requested->operation == BITE_TAP && isnan(requested->pitch)) {
        bite_error_set(error, BITE_MISSING, "no thread was named, and no pitch was given");
        bite_error_key(error, "thread");
        bite_error_hint(error, "for example M3 or 1/4-20; list threads shows all of them");
        return BITE_MISSING;
    }
    int hole = requested->operation == BITE_TAP || requested->operation == BITE_REAM;
    if (hole && request->tool != NULL && own == NULL) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "%.60s is an end mill; it does not %s",
                       request->tool->name, asked);
        bite_error_key(error, "tool");
        bite_error_hint(error, "%s",
                        requested->operation == BITE_TAP
                            ? "leave the tool out: the tap is that of the thread"
                            : "name the reamer by its diameter, for example 6mm");
        return BITE_OUT_OF_RANGE;
    }
    const bite_field_value *major =
        request->thread == NULL ? NULL : bite_item_field(request->thread, "thread_diameter");
    if (major != NULL && requested->operation == BITE_TAP &&
        fabs(requested->diameter - major->value) > 1e-6) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "the tool is not a tap of the thread %.60s",
                       request->thread->title);
        bite_error_key(error, "tool");
        bite_error_hint(error, "leave the tool out: the tap is that of the thread");
        return BITE_OUT_OF_RANGE;
    }
    if (request->thread != NULL && requested->operation != BITE_TAP) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "the thread %.60s has no effect in operation %s",
                       request->thread->title, asked);
        bite_error_key(error, "thread");
        bite_error_hint(error, "leave it out, or use operation tap");
        return BITE_OUT_OF_RANGE;
    }
    return BITE_OK;
}

/* A cone leaves no vertical wall: of the tool table only those that are ground to cut with their
 * tip engrave; the chamfer mills cut chamfers only. */
static bite_status check_cone(const bite_request *request, const bite_cut *requested,
                              bite_error *error)
{
    if (request->tool == NULL || bite_item_field(request->tool, "taper") == NULL ||
        requested->operation == BITE_CHAMFER ||
        (requested->operation == BITE_MILL && bite_item_is_yes(request->tool, "engraves"))) {
        return BITE_OK;
    }
    if (bite_item_is_yes(request->tool, "engraves")) {
        bite_error_set(error, BITE_OUT_OF_RANGE, "%.60s engraves; it does not drill",
                       request->tool->name);
        bite_error_hint(error, "use operation mill or chamfer, or another tool");
    } else {
        bite_error_set(error, BITE_OUT_OF_RANGE,
                       "%.60s is a chamfer mill, which cuts chamfers only", request->tool->name);
        bite_error_hint(error, "use operation chamfer or another tool");
    }
    bite_error_key(error, "tool");
    return BITE_OUT_OF_RANGE;
}

/* As the trade writes it where that is its name: M6, but no6-32 for No. 6-32 UNC. */
static const char *name_to_type(const bite_item_record *record)
{
    return bite_text_equals(record->title, record->name) ? record->title : record->name;
}

/* The teeth of a thread mill have the form of the groove. */
static bite_status check_thread_mill(const bite_request *request, bite_error *error)
{
    if (request->tool == NULL || request->mills_thread ||
        !bite_item_is_yes(request->tool, "thread_mill")) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_OUT_OF_RANGE, "%.60s is a thread mill, which cuts threads only",
                   request->tool->name);
    bite_error_hint(error,
                    "ask coolbite show %s --material %.60s --tool %.60s, or name it in a job, in a "
                    "pass with work = thread-mill",
                    request->thread == NULL ? "THREAD" : name_to_type(request->thread),
                    request->grade->record.name, request->tool->name);
    bite_error_key(error, "tool");
    return BITE_OUT_OF_RANGE;
}

bite_status bite_request_check_tool(const bite_request *request, const bite_cut *requested,
                                    bite_error *error)
{
    bite_status status = check_thread_mill(request, error);
    status = status != BITE_OK ? status : check_kind(request, requested, error);
    return status != BITE_OK ? status : check_cone(request, requested, error);
}
