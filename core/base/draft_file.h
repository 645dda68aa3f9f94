/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drafts: a file is written as a draft in the folder of its target, synced, and renamed over the
 * target. So the target is always the complete old file or the complete new one.
 *
 * A draft is named NAME.coolbite-N.tmp. A writer keeps its draft locked (flock) until it is
 * renamed, so a draft without a lock was left by a writer that was killed; the next writer of the
 * same target removes it.
 */
#ifndef BITE_BASE_DRAFT_FILE_H
#define BITE_BASE_DRAFT_FILE_H

#include "core/base/output_target.h"
#include <coolbite/coolbite.h>

typedef struct bite_draft {
    const char *path; /* of the target, for messages; borrowed as long as the draft exists */
    const bite_target *target; /* borrowed as long as the draft exists */
    int file;                  /* open for reading and writing, locked */
    char name[NAME_MAX + 1];   /* in the target's folder */
} bite_draft;

/**
 * Writes and syncs a draft with the mode of the existing file and, if the system allows it, its
 * owner.
 *
 * *draft: owned, ended by bite_draft_keep or bite_draft_drop. BITE_CANNOT_WRITE: the target is not
 * a file, or the caller may not write it, or the disk is full; no draft is left.
 */
bite_status bite_draft_new(const char *path, const bite_target *target, const char *text,
                           size_t size, bite_draft *draft, bite_error *error);

/** The same in pieces: an empty draft ... */
bite_status bite_draft_open(const char *path, const bite_target *target, bite_draft *draft,
                            bite_error *error);
/** ... to which text is appended. BITE_CANNOT_WRITE: the draft is still to be dropped. */
bite_status bite_draft_add(bite_draft *draft, const char *text, size_t size, bite_error *error);
/** Mode and owner of what was appended, which is synced. Errors as bite_draft_add. */
bite_status bite_draft_finish(bite_draft *draft, bite_error *error);

/** Renames the draft over its target. BITE_CANNOT_WRITE: the target is unchanged. The draft is
 * ended in both cases. */
bite_status bite_draft_keep(bite_draft *draft, bite_error *error);
/** Gives the draft the name of its target, which must not exist: BITE_CANNOT_WRITE if it does. The
 * draft is ended in both cases. */
bite_status bite_draft_keep_new(bite_draft *draft, bite_error *error);
/** Removes the draft. */
void bite_draft_drop(bite_draft *draft);

#endif
