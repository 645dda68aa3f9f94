/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: what each asks, by which equation, from where, and what usually helps. */
#ifndef BITE_NAMES_LIMITS_H
#define BITE_NAMES_LIMITS_H

#include "core/names/registry.h"

extern const bite_definition bite_limit_table[BITE_LIMIT_COUNT];

#endif
