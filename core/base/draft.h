/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A file is written as a draft beside its target, synced, and renamed over it: the target is the
 * old file or the new one, whole.
 *
 * Drafts are called NAME.coolbite-N.tmp. A writer keeps its draft locked (flock) until it has been
 * renamed, so one that is not locked was left by a writer that was killed; the next one that writes
 * the same target removes it.
 */
#ifndef BITE_BASE_DRAFT_H
#define BITE_BASE_DRAFT_H

#include "core/base/target.h"
#include <coolbite/coolbite.h>

typedef struct bite_draft {
    const char *path; /* of the target, for messages: the caller's, as long as the draft is there */
    const bite_target *target; /* the caller's */
    int file;                  /* open for reading and writing, locked */
    char name[NAME_MAX + 1];   /* in the target's folder */
} bite_draft;

/**
 * Writes and syncs a draft with the mode (and where it may, the owner) of the file that is there.
 * *draft: owned, ended by bite_draft_keep or bite_draft_drop. BITE_CANNOT_WRITE: target is not a
 * file, or one that the caller may not write, or the disk is full; nothing is left of the draft.
 */
bite_status bite_draft_new(const char *path, const bite_target *target, const char *text,
                           size_t size, bite_draft *draft, bite_error *error);

/** Puts the draft in its target's place. BITE_CANNOT_WRITE: the target is as it was. Ends the draft
 * in both cases. */
bite_status bite_draft_keep(bite_draft *draft, bite_error *error);
/** Removes it. */
void bite_draft_drop(bite_draft *draft);

#endif
