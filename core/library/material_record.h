/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One grade of a material, opened: figures, cautions and the plugin of its family. */
#ifndef BITE_LIBRARY_MATERIAL_RECORD_H
#define BITE_LIBRARY_MATERIAL_RECORD_H

#include "core/library/caution_rule.h"
#include "core/library/item.h"
#include "core/tables/table_schema.h"
#include <coolbite/family.h>

/** A grade of another family that a grade is like, or itself. */
typedef struct bite_kin {
    const char *family; /* "acrylic" */
    const char *grade;  /* "cast" */
} bite_kin;

/** A self-test of a family: [case.NAME]. */
typedef struct bite_family_case {
    const bite_section *section;
    const char *file;
} bite_family_case;

/** One grade with the cautions and the plugin of its family. Immutable once opened. */
typedef struct bite_material {
    bite_item_record record;
    const struct bite_family *family; /* NULL: a plain material, from its table alone */
    const char *family_name;          /* "acrylic" */
    const bite_kin *kin; /* itself, then what it is like in other families, the nearest first: what
                            tables say of these holds for it too unless they speak of itself */
    size_t kin_count;
    const char *plugin;         /* path of the plugin; "" */
    const char *remark;         /* why its plugin is not used; "": nothing to say */
    const bite_own_limits *own; /* limits of the plugin; NULL: none */
    /* By the slots of bite_cut.own_figure; NULL: the grade does not state it. */
    const bite_field_value *own_values[BITE_OWN_FIGURES];
    const bite_caution_rule *rules;
    size_t rule_count;
} bite_material;

#endif
