/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Calls of a plugin: completing a grade, sampling its curves, adding cautions to a judged cut. */
#include "core/library/plugin.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/library/plugin_host.h"
#include "core/library/plugin_own.h"
#include <math.h>
#include <string.h>

/* Temperatures at which a plugin's property is sampled, K: those of shops and of chips. */
static const double sample_temperatures[BITE_CURVE_POINTS] = {253.15, 273.15, 293.15, 313.15,
                                                              333.15, 353.15, 393.15, 453.15};

static bite_status sample_curve(const struct bite_family *plugin, bite_plugin_host *host,
                                struct bite_grade *grade, const char *key, const char *property,
                                bite_error *error)
{
    const bite_field *field = bite_plugin_field(grade->library, key);
    bite_curve curve = {0, 0, {0}, {0}};
    for (int i = 0; i < BITE_CURVE_POINTS; i++) {
        double value = (double)NAN;
        enum bite_family_status status =
            plugin->property(&host->host, grade, property, sample_temperatures[i], &value);
        if (status == BITE_FAMILY_NO_DATA) {
            return BITE_OK;
        }
        if (status != BITE_FAMILY_OK || !(value >= field->least && value <= field->most)) {
            return bite_error_set(error, BITE_BAD_PLUGIN,
                                  "the plugin gives an impossible value for %s: %s", property,
                                  host->reason);
        }
        curve.temperature[i] = sample_temperatures[i];
        curve.value[i] = value;
        curve.count++;
    }
    for (size_t i = 0; i < grade->count; i++) {
        if (strcmp(grade->values[i].field->name, key) == 0) {
            return BITE_OK; /* the curve of the table takes precedence */
        }
    }
    bite_field_value *field_value = bite_plugin_value(grade, field);
    if (field_value == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a curve");
    }
    bite_field_value fresh = {0};
    fresh.field = field;
    fresh.value = fresh.low = fresh.high = (double)NAN;
    fresh.text = "";
    fresh.curve = curve;
    fresh.source = "estimate: sampled from the family's plugin";
    fresh.grade = BITE_GRADE_ESTIMATE;
    *field_value = fresh;
    return BITE_OK;
}

bite_status bite_plugin_fill(const bite_library *library, const struct bite_family *plugin,
                             const struct bite_plugin_own *own, bite_material *material,
                             bite_error *error)
{
    bite_plugin_host host = bite_plugin_host_make();
    size_t capacity = material->record.value_count + library->grade_field_count + own->figure_count;
    struct bite_grade grade = {&host,
                               library,
                               bite_arena_alloc(library->arena, capacity, sizeof(bite_field_value)),
                               material->record.value_count,
                               capacity,
                               own->figures,
                               own->figure_count,
                               0};
    if (grade.values == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory to fill a grade");
    }
    if (grade.count > 0) {
        memcpy(grade.values, material->record.values, grade.count * sizeof *grade.values);
    }
    bite_status status = BITE_OK;
    if (plugin->fill != NULL && plugin->fill(&host.host, &grade) == BITE_FAMILY_FAULT) {
        status = grade.no_memory ? BITE_NO_MEMORY : BITE_BAD_PLUGIN;
        bite_error_set(error, status, "the plugin cannot complete %.60s: %s", material->record.name,
                       host.reason);
    }
    if (status == BITE_OK && plugin->property != NULL) {
        status = sample_curve(plugin, &host, &grade, "heat_capacity.at", "heat_capacity", error);
        if (status == BITE_OK) {
            status = sample_curve(plugin, &host, &grade, "strength.at", "strength", error);
        }
    }
    if (status != BITE_OK) {
        bite_error_place(error, material->plugin, 0, 0);
        return status;
    }
    material->record.values = grade.values;
    material->record.value_count = grade.count;
    return BITE_OK;
}

bite_status bite_material_cautions(const bite_material *material, const bite_case_view *view,
                                   bite_error *error)
{
    if (material->remark[0] != 0 && !view->caution(view->user, "plugin_missing", BITE_CARE,
                                                   material->remark, "common-practice")) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a caution");
    }
    for (size_t i = 0; i < material->rule_count; i++) {
        const bite_caution_rule *rule = &material->rules[i];
        if (bite_caution_rule_applies(rule, view) &&
            !view->caution(view->user, rule->name, rule->severity, rule->text, rule->source)) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a caution");
        }
    }
    if (material->family == NULL || material->family->caution == NULL) {
        return BITE_OK;
    }
    bite_plugin_host host = bite_plugin_host_make();
    struct bite_case judged = {&host, view, 0, 0};
    enum bite_family_status answer = material->family->caution(&host.host, &judged);
    /* A caution that was refused is a fault, even if the plugin did not report it. */
    if (answer == BITE_FAMILY_FAULT || judged.malformed || judged.no_memory) {
        if (judged.no_memory) {
            return bite_error_set(error, BITE_NO_MEMORY, "no memory for a caution");
        }
        bite_error_set(error, BITE_BAD_PLUGIN, "the plugin failed to give its cautions: %s",
                       host.reason);
        bite_error_place(error, material->plugin, 0, 0);
        return BITE_BAD_PLUGIN;
    }
    return BITE_OK;
}
