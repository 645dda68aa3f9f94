/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cautions of a grade. Those of a family that it is like come along, and are about the grade
 * there: their conditions see its names. A table that was left out is told as a caution, because
 * figures that someone meant to state are not in the answer. */
#include "core/library/grade_cautions.h"
#include "core/library/arena_list.h"
#include <stdio.h>
#include <string.h>

static bool has_rule(const bite_arena_list *rules, size_t count, const char *name)
{
    const bite_caution_rule *all = rules->items;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(all[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

static bool add_rules(bite_arena *arena, bite_arena_list *rules, const bite_family_state *family,
                      const char *as_grade)
{
    size_t before = rules->count;
    const bite_caution_rule *all = family->rules.items;
    bool good = true;
    for (size_t i = 0; good && i < family->rules.count; i++) {
        bite_caution_rule rule = all[i];
        rule.as_grade = as_grade;
        rule.as_family = as_grade == NULL ? NULL : family->name;
        good = has_rule(rules, before, rule.name) ||
               bite_arena_list_add(arena, rules, &rule, sizeof rule) != NULL;
    }
    return good;
}

/* One caution for each table of the family that was left out. */
static bool add_left_out(bite_arena *arena, bite_arena_list *rules, const bite_family_state *family)
{
    const bite_item *left = family->left_out.items;
    for (size_t i = 0; i < family->left_out.count; i++) {
        char text[1400];
        (void)snprintf(text, sizeof text,
                       "The table %.400s has a fault and was left out, so nothing in it counts "
                       "here: %.800s",
                       left[i].file, left[i].summary);
        for (char *at = text; *at != 0; at++) { /* a brace would be a place to fill */
            *at = *at == '{' ? '(' : *at == '}' ? ')' : *at;
        }
        bite_caution_rule rule = {0};
        rule.name = "table_left_out";
        rule.when = "";
        rule.text = bite_arena_text(arena, text, strlen(text));
        rule.source = "common-practice: a table with a fault is not used";
        rule.severity = BITE_CARE;
        if (rule.text == NULL || bite_arena_list_add(arena, rules, &rule, sizeof rule) == NULL) {
            return false;
        }
    }
    return true;
}

bool bite_grade_cautions(const bite_library *library, const bite_family_state *family,
                         const bite_grade_state *grade, bite_material *material)
{
    bite_arena_list rules = {0};
    bool good = add_rules(library->arena, &rules, family, NULL) &&
                add_left_out(library->arena, &rules, family);
    for (; good && grade->parent != NULL; grade = grade->parent) {
        if (grade->parent_family == family) {
            continue;
        }
        family = grade->parent_family;
        good = add_rules(library->arena, &rules, family, grade->parent->section->tail) &&
               add_left_out(library->arena, &rules, family);
    }
    material->rules = rules.items;
    material->rule_count = rules.count;
    return good;
}
