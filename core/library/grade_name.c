/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names of families and of their grades, as a shop and as tables write them. */
#include "core/library/grade_name.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include <string.h>

const char *bite_section_text(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? "" : field_value->text;
}

bool bite_family_has_name(const bite_family_state *family, const char *name)
{
    return bite_text_same_designation(family->name, name) ||
           bite_text_list_has(bite_section_text(family->family, "also"), name,
                              bite_text_same_designation_part);
}

static bite_grade_fit fit_of(const bite_section *grade, const char *name)
{
    static const bite_text_comparison comparisons[] = {bite_text_equals_part,
                                                       bite_text_same_designation_part};
    const char *title = bite_section_text(grade, "title");
    const char *also = bite_section_text(grade, "also");
    for (int fit = BITE_FIT_EXACT; fit <= BITE_FIT_DESIGNATION; fit++) {
        bite_text_comparison same = comparisons[fit];
        if (same(grade->tail, strlen(grade->tail), name) || same(title, strlen(title), name) ||
            bite_text_list_has(also, name, same)) {
            return (bite_grade_fit)fit;
        }
    }
    return bite_text_list_has(bite_section_text(grade, "near"), name,
                              bite_text_same_designation_part)
               ? BITE_FIT_NEAR
               : BITE_FIT_NONE;
}

bite_grade_state *bite_grade_in(bite_family_state *family, const char *name, bite_grade_fit *fit)
{
    bite_grade_state *grades = family->grades.items;
    bite_grade_state *best = NULL;
    *fit = BITE_FIT_NONE;
    for (size_t i = 0; i < family->grades.count; i++) {
        bite_grade_fit own = fit_of(grades[i].section, name);
        if (own < *fit) {
            *fit = own;
            best = &grades[i];
        }
    }
    return best;
}

bite_grade_state *bite_grade_default(bite_family_state *family)
{
    const char *name = bite_section_text(family->family, "default");
    bite_grade_fit fit = BITE_FIT_NONE;
    bite_grade_state *grade = name[0] == 0 ? NULL : bite_grade_in(family, name, &fit);
    return grade == NULL && family->grades.count > 0 ? family->grades.items : grade;
}

static const char *grade_name_at(size_t at, const void *list)
{
    const bite_arena_list *grades = list;
    return ((const bite_grade_state *)grades->items)[at].section->tail;
}

static const char *family_name_at(size_t at, const void *list)
{
    const bite_arena_list *found = list;
    return (*((bite_family_state *const *)found->items + at))->name;
}

const char *bite_grade_nearest(const bite_family_state *family, const char *name)
{
    return bite_text_nearest(name, family->grades.count, grade_name_at, &family->grades);
}

const char *bite_family_nearest(const bite_library *library, const char *name)
{
    return bite_text_nearest(name, library->found->count, family_name_at, library->found);
}
