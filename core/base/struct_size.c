/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes of structures of the caller, and how each begins. */
#include "core/base/struct_size.h"
#include <stdalign.h>
#include <string.h>

/* The size of a structure whose last member is this one. */
#define SIZE_THROUGH(type, member)                                                                 \
    ((offsetof(type, member) + sizeof(((const type *)NULL)->member) + alignof(type) - 1) /         \
     alignof(type) * alignof(type))

/* last: the last member of the first edition that is supported. It never changes. A structure is
 * kept at a multiple of 8 bytes, so that fewer sizes are sound. */
#define KIND(type, last, wide)                                                                     \
    {                                                                                              \
#type, sizeof(type), SIZE_THROUGH(type, last),                                             \
            (sizeof(type) % 8 == 0 ? 8 : alignof(type)), wide                                      \
    }

const bite_caller_struct bite_struct_audit = KIND(bite_audit, unfinished, 0);
const bite_caller_struct bite_struct_audit_options = KIND(bite_audit_options, user, 0);
const bite_caller_struct bite_struct_batch_options = KIND(bite_batch_options, progress_user, 0);
const bite_caller_struct bite_struct_case_options = KIND(bite_case_options, stop, 0);
const bite_caller_struct bite_struct_case_summary = KIND(bite_case_summary, verdicts, 0);
const bite_caller_struct bite_struct_choice_options = KIND(bite_choice_options, reserved, 0);
const bite_caller_struct bite_struct_compatibility = KIND(bite_compatibility, watch, 0);
const bite_caller_struct bite_struct_cut = KIND(bite_cut, strength_curve, 0);
const bite_caller_struct bite_struct_error = KIND(bite_error, file, 0);
const bite_caller_struct bite_struct_job_options = KIND(bite_job_options, reserved, 0);
const bite_caller_struct bite_struct_library_options = KIND(bite_library_options, table_path, 1);
const bite_caller_struct bite_struct_record_entry = KIND(bite_record_entry, time, 0);
const bite_caller_struct bite_struct_result = KIND(bite_result, reserved, 0);
const bite_caller_struct bite_struct_review = KIND(bite_review, text, 0);
const bite_caller_struct bite_struct_style = KIND(bite_style, all_limits, 0);
const bite_caller_struct bite_struct_thread_options = KIND(bite_thread_options, tool, 0);
const bite_caller_struct bite_struct_tool_filter = KIND(bite_tool_filter, kind, 0);
const bite_caller_struct bite_struct_used_input = KIND(bite_used_input, high, 0);
const bite_caller_struct bite_struct_window_options = KIND(bite_window_options, up_most, 0);

size_t bite_struct_size(const bite_caller_struct *kind, const void *structure)
{
    size_t wide = 0;
    uint32_t narrow = 0;
    if (kind->wide) {
        memcpy(&wide, structure, sizeof wide);
        return wide;
    }
    memcpy(&narrow, structure, sizeof narrow);
    return narrow;
}

static void set_size(const bite_caller_struct *kind, void *structure, size_t size)
{
    uint32_t narrow = (uint32_t)size;
    if (kind->wide) {
        memcpy(structure, &size, sizeof size);
    } else {
        memcpy(structure, &narrow, sizeof narrow);
    }
}

bool bite_struct_may_be(const bite_caller_struct *kind, size_t size)
{
    return size >= kind->least && size <= BITE_STRUCT_SIZE_MOST && size % kind->alignment == 0;
}

bool bite_struct_is_sound(const bite_caller_struct *kind, const void *structure)
{
    return structure != NULL && bite_struct_may_be(kind, bite_struct_size(kind, structure));
}

void bite_struct_write(const bite_caller_struct *kind, const void *own, void *given)
{
    size_t size = bite_struct_size(kind, given);
    memcpy(given, own, size < kind->size ? size : kind->size);
    if (size > kind->size) {
        memset((char *)given + kind->size, 0, size - kind->size);
    }
    set_size(kind, given, size);
}

void bite_struct_start(const bite_caller_struct *kind, void *structure, size_t size)
{
    if (structure != NULL && bite_struct_may_be(kind, size)) {
        memset(structure, 0, size);
        set_size(kind, structure, size);
    }
}

/* ---- how each begins ---- */

void bite_error_init_sized(bite_error *error, size_t size)
{
    bite_struct_start(&bite_struct_error, error, size);
}

void bite_result_init_sized(bite_result *result, size_t size)
{
    bite_struct_start(&bite_struct_result, result, size);
}

void bite_style_init_sized(bite_style *style, size_t size)
{
    bite_struct_start(&bite_struct_style, style, size);
}

void bite_library_options_init_sized(bite_library_options *options, size_t size)
{
    bite_struct_start(&bite_struct_library_options, options, size);
}

void bite_tool_filter_init_sized(bite_tool_filter *filter, size_t size)
{
    bite_struct_start(&bite_struct_tool_filter, filter, size);
}

void bite_thread_options_init_sized(bite_thread_options *options, size_t size)
{
    bite_struct_start(&bite_struct_thread_options, options, size);
}

void bite_compatibility_init_sized(bite_compatibility *pair, size_t size)
{
    bite_struct_start(&bite_struct_compatibility, pair, size);
}

void bite_audit_options_init_sized(bite_audit_options *options, size_t size)
{
    bite_struct_start(&bite_struct_audit_options, options, size);
}

void bite_audit_init_sized(bite_audit *audit, size_t size)
{
    bite_struct_start(&bite_struct_audit, audit, size);
}

void bite_case_options_init_sized(bite_case_options *options, size_t size)
{
    bite_struct_start(&bite_struct_case_options, options, size);
}

void bite_case_summary_init_sized(bite_case_summary *summary, size_t size)
{
    bite_struct_start(&bite_struct_case_summary, summary, size);
}

void bite_choice_options_init_sized(bite_choice_options *options, size_t size)
{
    bite_struct_start(&bite_struct_choice_options, options, size);
}

void bite_window_options_init_sized(bite_window_options *options, size_t size)
{
    bite_struct_start(&bite_struct_window_options, options, size);
}

void bite_job_options_init_sized(bite_job_options *options, size_t size)
{
    bite_struct_start(&bite_struct_job_options, options, size);
}

void bite_record_entry_init_sized(bite_record_entry *entry, size_t size)
{
    bite_struct_start(&bite_struct_record_entry, entry, size);
}

void bite_batch_options_init_sized(bite_batch_options *options, size_t size)
{
    bite_struct_start(&bite_struct_batch_options, options, size);
}

void bite_used_input_init_sized(bite_used_input *used, size_t size)
{
    bite_struct_start(&bite_struct_used_input, used, size);
}

void bite_review_init_sized(bite_review *review, size_t size)
{
    bite_struct_start(&bite_struct_review, review, size);
}
