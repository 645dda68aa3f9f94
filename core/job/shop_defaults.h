/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job file leaves out and the shop's own set-up states. */
#ifndef BITE_JOB_SHOP_DEFAULTS_H
#define BITE_JOB_SHOP_DEFAULTS_H

#include "core/base/memory.h"
#include "core/job/job_file.h"
#include "core/library/library.h"
#include <coolbite/coolbite.h>

/** Adds to a job file that was read what the set-up states and the file does not. shop: NULL
 * changes nothing; borrowed as long as the file. *keys: bits of the bite_shop_key that were used.
 * BITE_BAD_FILE: the set-up names what the library has not. */
bite_status bite_job_use_shop(const bite_library *library, const bite_shop *shop, bite_arena *arena,
                              bite_job_file *file, uint32_t *keys, bite_error *error);

#endif
