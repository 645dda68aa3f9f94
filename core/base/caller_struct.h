/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Structures of the caller, of whatever edition: checked and copied. */
#ifndef BITE_BASE_CALLER_STRUCT_H
#define BITE_BASE_CALLER_STRUCT_H

#include "core/base/struct_size.h"

/**
 * Checks a structure of the caller: its size, and that no member is set which this library does not
 * know.
 *
 * key: for error.key. BITE_BAD_ARGUMENT: also if it is NULL.
 */
bite_status bite_struct_check(const bite_caller_struct *kind, const void *given, const char *key,
                              bite_error *error);

/** Checks it, and copies what both know into `own`, of kind->size bytes; the rest of own is 0, its
 * struct_size that of this library. given NULL: everything is 0. BITE_BAD_ARGUMENT: own is not
 * written. */
bite_status bite_struct_read(const bite_caller_struct *kind, const void *given, void *own,
                             const char *key, bite_error *error);

#endif
