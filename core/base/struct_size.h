/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sizes of structures of the caller, which may be those of an older or a newer header.
 *
 * A structure begins with struct_size and grows at its end alone. So one of another size has the
 * members that both sides know in front: these are copied, and what one side lacks is usual, which
 * is 0 and NULL (in bite_cut also NaN).
 */
#ifndef BITE_BASE_STRUCT_SIZE_H
#define BITE_BASE_STRUCT_SIZE_H

#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stddef.h>

/** A larger struct_size was never set by anybody. */
#define BITE_STRUCT_SIZE_MOST 65536

/** A kind of structure. */
typedef struct bite_caller_struct {
    const char *name; /* of its type */
    size_t size;      /* in this library */
    size_t least;     /* in the first edition that is supported, with padding at its end */
    size_t alignment;
    int wide; /* 1: struct_size is a size_t, not a uint32_t */
} bite_caller_struct;

/* One for each structure with struct_size of coolbite/coolbite.h. */
extern const bite_caller_struct bite_struct_audit;
extern const bite_caller_struct bite_struct_audit_options;
extern const bite_caller_struct bite_struct_batch_options;
extern const bite_caller_struct bite_struct_case_options;
extern const bite_caller_struct bite_struct_case_summary;
extern const bite_caller_struct bite_struct_choice_options;
extern const bite_caller_struct bite_struct_compatibility;
extern const bite_caller_struct bite_struct_cut;
extern const bite_caller_struct bite_struct_error;
extern const bite_caller_struct bite_struct_job_options;
extern const bite_caller_struct bite_struct_library_options;
extern const bite_caller_struct bite_struct_record_entry;
extern const bite_caller_struct bite_struct_result;
extern const bite_caller_struct bite_struct_review;
extern const bite_caller_struct bite_struct_style;
extern const bite_caller_struct bite_struct_thread_options;
extern const bite_caller_struct bite_struct_tool_filter;
extern const bite_caller_struct bite_struct_used_input;
extern const bite_caller_struct bite_struct_window_options;

/** The struct_size of a structure, which is not NULL. */
size_t bite_struct_size(const bite_caller_struct *kind, const void *structure);

/** Whether an edition of the structure may have this size. */
bool bite_struct_may_be(const bite_caller_struct *kind, size_t size);
/** Whether a structure of the caller has a size that an edition of it may have. NULL: false. */
bool bite_struct_is_sound(const bite_caller_struct *kind, const void *structure);

/** Copies what both know into a structure of the caller, whose size has been checked; its
 * struct_size stays, and what this library does not know is 0. */
void bite_struct_write(const bite_caller_struct *kind, const void *own, void *given);

/** Makes `size` bytes of the caller 0, and sets struct_size if the size may be one. structure: NULL
 * is allowed. */
void bite_struct_start(const bite_caller_struct *kind, void *structure, size_t size);

#endif
