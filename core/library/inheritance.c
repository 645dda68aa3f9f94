/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `like`: a grade names another grade, of its family or of another one; a family names a family,
 * whose grades it then has too, or one grade that all of its own are like. Chains have a bounded
 * length, and one that comes back to itself is a fault of the tables in it. */
#include "core/library/inheritance.h"
#include "core/base/error.h"
#include "core/library/arena_list.h"
#include "core/library/grade_name.h"
#include "core/tables/section.h"
#include <stdio.h>
#include <string.h>

#define CHAIN_MOST 16 /* grades in a chain; a longer one is a mistake */
#define STEPS_MOST 24 /* while parents are looked for, so that no table can exhaust the stack */

/* The family whose grades inherit, and what is at fault. */
typedef struct heirs {
    const bite_library *library;
    bite_family_state *family;
    bite_family_reader read;
    const bite_field_value *like; /* of [family]; NULL: none */
    const bite_field_value *at;
    bite_error *error;
} heirs;

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for what a grade inherits");
}

/* Completes the error that was just set with its place. */
static bite_status bad_like(heirs *of, const bite_like_step *step)
{
    const bite_field_value *like = step->like;
    of->at = like;
    bite_error_place(of->error, like->file, like->line, like->column);
    bite_error_key(of->error, "%s:like", step->section);
    return BITE_BAD_FILE;
}

static const bite_field_value *like_of(const bite_section *section)
{
    return section == NULL ? NULL : bite_section_value(section, "like");
}

/* ---- chains ---- */

/* Writes "a/x, b/y, a/x": the grades from `from` on to the last step, and the one that ends it. */
static void name_chain(const bite_like_step *last, const bite_like_step *from, const char *end,
                       char *text, size_t size)
{
    const bite_like_step *steps[STEPS_MOST + 2];
    size_t count = 0;
    for (const bite_like_step *step = last; step != NULL && count < STEPS_MOST + 2;
         step = step == from ? NULL : step->before) {
        steps[count++] = step;
    }
    text[0] = 0;
    while (count > 0) {
        size_t used = strlen(text);
        (void)snprintf(text + used, size - used, "%.40s, ", steps[--count]->grade);
    }
    size_t used = strlen(text);
    (void)snprintf(text + used, size - used, "%.40s", end);
}

/* A loop is a fault of each table in it, whichever was read first. Of those of this family, the one
 * that comes first on the search path is named, so that a table of one's own does not cost the
 * project's. */
static bite_status refuse_loop(heirs *of, bite_like_step *last, bite_like_step *first,
                               const char *end)
{
    char chain[200];
    const bite_like_step *named = last;
    size_t best = of->family->bytes_count;
    name_chain(last, first, end, chain, sizeof chain);
    for (bite_like_step *step = last; step != NULL; step = step == first ? NULL : step->before) {
        step->in_loop = true;
        for (size_t i = 0; step->family == of->family && i < best; i++) {
            const bite_table *table = of->family->bytes[i].table;
            if (table != NULL && bite_table_path(table) == step->like->file) {
                best = i;
                named = step;
            }
        }
    }
    bite_error_set(of->error, BITE_BAD_FILE, "grades are like each other in a cycle: %s", chain);
    bite_error_hint(of->error, "remove one of the `like` keys");
    return bad_like(of, named);
}

/* ---- the parent ---- */

static bite_family_state *family_named(const bite_library *library, const char *name, size_t length)
{
    bite_family_state *const *families = library->found->items;
    for (size_t i = 0; i < library->found->count; i++) {
        if (strlen(families[i]->name) == length && memcmp(families[i]->name, name, length) == 0) {
            return families[i];
        }
    }
    return NULL;
}

static bite_status refuse_missing(heirs *of, const bite_like_step *step,
                                  const bite_family_state *family, const char *name)
{
    const char *near =
        family == NULL ? bite_family_nearest(of->library, name) : bite_grade_nearest(family, name);
    if (family == NULL) {
        bite_error_set(of->error, BITE_BAD_FILE, "there is no family and no grade %.60s to be like",
                       name);
    } else if (name[0] == 0) {
        bite_error_set(of->error, BITE_BAD_FILE, "%s has no grades to be like", family->name);
    } else {
        bite_error_set(of->error, BITE_BAD_FILE, "%s has no grade %.60s to be like", family->name,
                       name);
    }
    if (near == NULL) {
        bite_error_hint(of->error, "coolbite list materials shows the names");
    } else if (family == NULL) {
        bite_error_hint(of->error, "did you mean %s?", near);
    } else {
        bite_error_hint(of->error, "did you mean %s/%s?", family->name, near);
    }
    return bad_like(of, step);
}

/* Reads another family for one of this one. It must not be one that waits for this one. */
static bite_status read_parent(heirs *of, bite_like_step *step, bite_family_state *family)
{
    for (bite_like_step *known = step; known != NULL; known = known->before) {
        if (known->family == family) {
            return refuse_loop(of, step, known, known->grade);
        }
    }
    bite_status status = of->read(of->library, family, step, of->error);
    if (status != BITE_OK) {
        return status;
    }
    if (step->in_loop) {
        bite_error_set(of->error, BITE_BAD_FILE,
                       "families are like each other in a cycle: %s, %s, %s", of->family->name,
                       family->name, of->family->name);
        bite_error_hint(of->error, "remove one of the `like` keys");
        return bad_like(of, step);
    }
    if (family->status != BITE_OK) {
        bite_error_set(of->error, BITE_BAD_FILE,
                       "the table of %s, which this is like, was left out: %.150s", family->name,
                       family->error.message);
        bite_error_hint(of->error, "coolbite list left-out says where the fault is");
        return bad_like(of, step);
    }
    return BITE_OK;
}

/* The grade of a family; name "": its default one. */
static bite_grade_state *parent_grade(bite_family_state *family, const char *name)
{
    bite_grade_fit fit = BITE_FIT_NONE;
    bite_grade_state *grade =
        name[0] == 0 ? bite_grade_default(family) : bite_grade_in(family, name, &fit);
    return fit == BITE_FIT_NEAR ? NULL : grade;
}

/* Finds what `like` names: a grade of the own family, FAMILY/GRADE, or FAMILY. */
static bite_status find_parent(heirs *of, bite_like_step *step, bite_family_state **family,
                               bite_grade_state **grade)
{
    const char *text = step->like->text;
    const char *slash = strchr(text, '/');
    size_t length = slash == NULL ? strlen(text) : (size_t)(slash - text);
    char name[64];
    *family = of->family;
    *grade = slash == NULL && step->like != of->like ? parent_grade(of->family, text) : NULL;
    if (*grade != NULL) {
        return BITE_OK;
    }
    (void)snprintf(name, sizeof name, "%.*s", (int)(length < 60 ? length : 60), text);
    *family = family_named(of->library, text, length);
    if (*family == NULL) {
        const char *near = slash == NULL ? bite_grade_nearest(of->family, name) : NULL;
        return refuse_missing(of, step, near == NULL ? NULL : of->family, name);
    }
    bite_status status = *family == of->family ? BITE_OK : read_parent(of, step, *family);
    if (status != BITE_OK) {
        return status;
    }
    *grade = parent_grade(*family, slash == NULL ? "" : slash + 1);
    return *grade == NULL ? refuse_missing(of, step, *family, slash == NULL ? "" : slash + 1)
                          : BITE_OK;
}

/* ---- values ---- */

/* The source of an inherited value says from where it is. NULL: no memory. */
static const char *source_from(bite_arena *arena, const char *source, const char *from)
{
    char text[1100];
    if (source == NULL || source[0] == 0) {
        return "";
    }
    (void)snprintf(text, sizeof text, "%s%s from %s", source,
                   strchr(source, ':') == NULL ? ":" : ";", from);
    return bite_arena_text(arena, text, strlen(text));
}

/* What a section has of its own, and from the parent what it does not state. NULL: no memory. */
static const bite_section *with_parent(bite_arena *arena, const bite_section *own,
                                       const bite_grade_state *parent)
{
    bite_section *whole = bite_arena_alloc(arena, 1, sizeof *whole);
    if (whole == NULL) {
        return NULL;
    }
    *whole = *own;
    if (!bite_section_merge(arena, whole, parent->whole, BITE_MERGE_PARENT)) {
        return NULL;
    }
    /* merged into values of its own: the first ones are the section's, without its `like` */
    bite_field_value *values = (bite_field_value *)(uintptr_t)whole->values;
    for (uint32_t i = 0; i < whole->value_count; i++) {
        if (values[i].from == NULL && bite_section_value(own, values[i].field->name) == NULL) {
            values[i].from = parent->name;
            values[i].source = source_from(arena, values[i].source, parent->name);
            if (values[i].source == NULL) {
                return NULL;
            }
        }
    }
    return whole;
}

/* A grade and its parent, whose own values are complete. */
static bite_status take_from(heirs *of, bite_grade_state *grade, const bite_grade_state *parent,
                             bite_family_state *owner, const bite_like_step *step)
{
    grade->parent = parent;
    grade->parent_family = owner;
    grade->generation = parent->generation + 1;
    if (grade->generation >= CHAIN_MOST) {
        bite_error_set(of->error, BITE_BAD_FILE,
                       "%.60s is at the end of a chain of more than %d grades", grade->name,
                       CHAIN_MOST);
        bite_error_hint(of->error, "name the grade that states the figures");
        return bad_like(of, step);
    }
    grade->whole = with_parent(of->library->arena, grade->section, parent);
    return grade->whole == NULL ? no_memory(of->error) : BITE_OK;
}

/* Fills grade->whole, after that of its parent if this is of the same family. */
static bite_status inherit(heirs *of, bite_grade_state *grade, bite_like_step *before)
{
    const bite_field_value *own = like_of(grade->section);
    bite_like_step step = {before,
                           of->family,
                           grade->name,
                           own == NULL ? "family" : grade->section->name,
                           own == NULL ? of->like : own,
                           before == NULL ? 1 : before->depth + 1,
                           false};
    if (grade->whole != NULL) {
        return BITE_OK;
    }
    if (step.like == NULL) {
        grade->whole = grade->section;
        return BITE_OK;
    }
    for (bite_like_step *known = before; known != NULL; known = known->before) {
        if (known->grade == grade->name) {
            return refuse_loop(of, before, known, grade->name);
        }
    }
    if (step.depth > STEPS_MOST) {
        bite_error_set(of->error, BITE_BAD_FILE, "%.60s is in a chain of more than %d grades",
                       grade->name, CHAIN_MOST);
        bite_error_hint(of->error, "name the grade that states the figures");
        return bad_like(of, &step);
    }
    bite_family_state *family = NULL;
    bite_grade_state *parent = NULL;
    bite_status status = find_parent(of, &step, &family, &parent);
    if (status == BITE_OK && parent == grade) {
        return refuse_loop(of, &step, &step, grade->name);
    }
    if (status == BITE_OK && family == of->family) {
        status = inherit(of, parent, &step);
    }
    return status == BITE_OK ? take_from(of, grade, parent, family, &step) : status;
}

/* ---- a family that is like another one ---- */

/* A grade that the family has because another one has it. */
static bite_status add_inherited(heirs *of, const bite_grade_state *parent,
                                 bite_family_state *owner, const bite_like_step *step)
{
    bite_arena *arena = of->library->arena;
    bite_section *section = bite_arena_alloc(arena, 1, sizeof *section);
    bite_grade_state grade = {0};
    if (section == NULL) {
        return no_memory(of->error);
    }
    section->name = parent->section->name;
    section->tail = parent->section->tail;
    grade.section = section;
    grade.file = step->like->file;
    grade.of_parent = true;
    grade.name = bite_path_join(arena, of->family->name, section->tail);
    if (grade.name == NULL) {
        return no_memory(of->error);
    }
    bite_status status = take_from(of, &grade, parent, owner, step);
    if (status == BITE_OK &&
        bite_arena_list_add(arena, &of->family->grades, &grade, sizeof grade) == NULL) {
        return no_memory(of->error);
    }
    return status;
}

/* The grade of the family itself that has the same name; NULL: none. own: how many it has. */
static bite_grade_state *namesake(bite_family_state *family, size_t own, const char *tail)
{
    bite_grade_state *grades = family->grades.items;
    for (size_t i = 0; i < own; i++) {
        if (strcmp(grades[i].section->tail, tail) == 0) {
            return &grades[i];
        }
    }
    return NULL;
}

/* Grades that state no `like` are like the grade of the same name, if the other family has it; and
 * what only the other family has, this one has too. */
static bite_status pair_grades(heirs *of, bite_family_state *owner, const bite_like_step *step)
{
    size_t own = of->family->grades.count;
    const bite_grade_state *others = owner->grades.items;
    bite_status status = BITE_OK;
    for (size_t i = 0; i < owner->grades.count && status == BITE_OK; i++) {
        bite_grade_state *grade = namesake(of->family, own, others[i].section->tail);
        if (grade == NULL) {
            status = add_inherited(of, &others[i], owner, step);
        } else if (like_of(grade->section) == NULL) {
            status = take_from(of, grade, &others[i], owner, step);
        }
    }
    return status;
}

/* `like` of [family]. */
static bite_status inherit_family(heirs *of, bite_like_step *chain)
{
    const char *text = of->like->text;
    bite_like_step step = {chain,    of->family, of->family->name,
                           "family", of->like,   chain == NULL ? 1 : chain->depth + 1,
                           false};
    size_t length = strcspn(text, "/");
    bite_family_state *owner = family_named(of->library, text, length);
    if (owner == NULL) {
        char name[64];
        (void)snprintf(name, sizeof name, "%.*s", (int)(length < 60 ? length : 60), text);
        return refuse_missing(of, &step, NULL, name);
    }
    bite_status status = step.depth > STEPS_MOST || owner == of->family
                             ? refuse_loop(of, &step, &step, of->family->name)
                             : read_parent(of, &step, owner);
    if (status != BITE_OK || text[length] == '/') { /* one grade: as if each of ours named it */
        return status;
    }
    status = pair_grades(of, owner, &step);
    if (status != BITE_OK || owner->family == NULL) {
        return status;
    }
    bite_section *family = bite_arena_alloc(of->library->arena, 1, sizeof *family);
    if (family == NULL) {
        return no_memory(of->error);
    }
    *family = *of->family->family;
    if (!bite_section_merge(of->library->arena, family, owner->family, BITE_MERGE_PARENT)) {
        return no_memory(of->error);
    }
    of->family->family = family; /* with the other family's default grade */
    return BITE_OK;
}

bite_status bite_family_inherit(const bite_library *library, bite_family_state *family,
                                bite_like_step *chain, bite_family_reader read,
                                const bite_field_value **at, bite_error *error)
{
    heirs of = {library, family, read, like_of(family->family), NULL, error};
    bite_status status = of.like == NULL ? BITE_OK : inherit_family(&of, chain);
    for (size_t i = 0; i < family->grades.count && status == BITE_OK; i++) {
        bite_grade_state *grades = family->grades.items;
        status = inherit(&of, &grades[i], chain);
    }
    *at = of.at;
    return status;
}

static bool is_told(const bite_arena_list *told, const bite_field_value *at)
{
    const bite_field_value *const *all = told->items;
    for (size_t i = 0; i < told->count; i++) {
        if (all[i] == at) {
            return true;
        }
    }
    return false;
}

bite_status bite_family_inherit_each(const bite_library *library, bite_family_state *family,
                                     bite_family_reader read, bite_fault_sink fault, void *user,
                                     uint32_t *count, bite_error *error)
{
    bite_error wrong = BITE_ERROR_INIT;
    heirs of = {library, family, read, like_of(family->family), NULL, &wrong};
    bite_arena_list told = {NULL, 0, 0}; /* of the values at fault: one may be in several chains */
    bite_status status = of.like == NULL ? BITE_OK : inherit_family(&of, NULL);
    for (size_t i = 0;; i++) {
        if (status == BITE_NO_MEMORY ||
            (status == BITE_BAD_FILE && !is_told(&told, of.at) &&
             bite_arena_list_add(library->arena, &told, &of.at, sizeof of.at) == NULL)) {
            return no_memory(error);
        }
        if (told.count > *count) {
            (*count)++;
            if (fault != NULL) {
                fault(user, &wrong);
            }
        }
        if (i >= family->grades.count) {
            return BITE_OK;
        }
        bite_error_clear(&wrong);
        status = inherit(&of, &((bite_grade_state *)family->grades.items)[i], NULL);
    }
}

bool bite_grade_find_kin(const bite_library *library, const bite_family_state *family,
                         const bite_grade_state *grade, bite_material *material)
{
    bite_kin *kin = bite_arena_alloc(library->arena, (size_t)grade->generation + 1, sizeof *kin);
    if (kin == NULL) {
        return false;
    }
    kin[0].family = family->name;
    kin[0].grade = grade->section->tail;
    material->kin = kin;
    material->kin_count = 1;
    for (; grade->parent != NULL; grade = grade->parent) {
        if (grade->parent_family != family) {
            family = grade->parent_family;
            kin[material->kin_count].family = family->name;
            kin[material->kin_count].grade = grade->parent->section->tail;
            material->kin_count++;
        }
    }
    return true;
}
