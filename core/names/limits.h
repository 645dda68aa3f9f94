/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: what each requires, by which equation, from which source, and what usually helps. */
#ifndef BITE_NAMES_LIMITS_H
#define BITE_NAMES_LIMITS_H

#include "core/names/definition.h"
#include <coolbite/coolbite.h>

/** By bite_limit_id. */
extern const bite_definition bite_limit_table[BITE_LIMIT_COUNT];

#endif
