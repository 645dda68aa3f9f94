/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Computed values: what each is, by which equation, from where. */
#ifndef BITE_NAMES_OUTPUTS_H
#define BITE_NAMES_OUTPUTS_H

#include "core/names/registry.h"

extern const bite_definition bite_output_table[BITE_VALUE_COUNT];

#endif
