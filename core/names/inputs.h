/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inputs: one row for each member of bite_cut. */
#ifndef BITE_NAMES_INPUTS_H
#define BITE_NAMES_INPUTS_H

#include "core/names/registry.h"
#include "core/names/registry_tables.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

extern const bite_curve_input bite_curve_inputs[];
extern const size_t bite_curve_input_count;
extern const bite_input bite_input_table[];
extern const size_t bite_input_table_count;
extern const bite_input_words bite_input_word_table[];
extern const size_t bite_input_word_count;

#endif
