/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sizes of a tool of the table, with the lengths that are taken if it states none. */
#include "core/request/tool_sizes.h"
#include "core/cut/defaults.h"
#include "core/library/tool_symbols.h"
#include "core/names/inputs.h"
#include <math.h>
#include <string.h>

void bite_tool_sizes_read(const bite_item_record *record, bite_tool_sizes *tool)
{
    tool->record = record;
    tool->kind = bite_tool_kind(record);
    bite_cut_init(&tool->cut);
    for (size_t i = 0; i < record->value_count; i++) {
        const bite_field_value *value = &record->values[i];
        const bite_input *input = bite_input_find(value->field->name);
        if (input != NULL && input->words == 0 && value->field->type == BITE_FIELD_FIGURE) {
            *bite_input_number(&tool->cut, input) = value->value;
        }
    }
    tool->cut.operation = strcmp(tool->kind, "chamfer") == 0 ? BITE_CHAMFER
                          : strcmp(tool->kind, "drill") == 0 ? BITE_DRILL_HOLE
                                                             : BITE_MILL;
    tool->usual_flutes = isnan(tool->cut.flutes);
    tool->usual_length = isnan(tool->cut.flute_length);
    tool->usual_stickout = isnan(tool->cut.stickout);
    tool->cut.depth = 0.0; /* no length of a tool depends on it */
    bite_defaults_fill(&tool->cut);
}
