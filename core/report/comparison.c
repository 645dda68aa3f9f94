/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two cuts side by side: the inputs that differ and the limits that change. */
#include "core/base/error.h"
#include "core/names/registry.h"
#include "core/report/cut_json.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include "core/request/answer.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void input_text(bite_page *page, const bite_answer *answer, const bite_input *input,
                       char *to, size_t size)
{
    if (input->words > 0) {
        (void)snprintf(to, size, "%s", bite_answer_word(answer, input->name));
    } else {
        bite_page_quantity(page, *bite_input_number_of(&answer->full, input),
                           (bite_kind)input->kind, to, size);
    }
}

/* An input that the user did not give but that differs follows from one that the user gave; it is
 * shown with a mark. */
static void differing_inputs(bite_page *page, const bite_answer *first, const bite_answer *second)
{
    int count = 0;
    for (size_t i = 0; i < bite_input_count() && i < BITE_INPUTS_MAX; i++) {
        const bite_input *input = bite_input_at(i);
        char a[64];
        char b[64];
        char name[48];
        int given = first->provenance[i].origin == BITE_ORIGIN_USER ||
                    second->provenance[i].origin == BITE_ORIGIN_USER;
        input_text(page, first, input, a, sizeof a);
        input_text(page, second, input, b, sizeof b);
        if (strcmp(a, b) == 0 || (input->group == BITE_GROUP_MATERIAL && !given)) {
            continue;
        }
        (void)snprintf(name, sizeof name, "%s%s", input->name, given ? "" : "*");
        bite_page_text(page, "  ");
        bite_page_pad(page, name, 20);
        bite_page_pad_left(page, a, 16);
        bite_page_text(page, "   ");
        bite_page_line(page, b);
        count++;
    }
    if (count == 0) {
        bite_page_line(page, "  the inputs are the same");
    }
}

static void share_text(double share, char *to, size_t size)
{
    char number[24];
    if (isnan(share)) {
        (void)snprintf(to, size, "-");
        return;
    }
    (void)bite_page_percent(share, number, sizeof number);
    (void)snprintf(to, size, "%s %%", number);
}

static void pair_line(bite_page *page, const char *name, const char *a, const char *b,
                      const char *mark)
{
    bite_page_text(page, "  ");
    bite_page_pad(page, name, 20);
    bite_page_pad_left(page, a, 16);
    bite_page_text(page, "   ");
    if (mark[0] == 0) {
        bite_page_line(page, b);
    } else {
        bite_page_pad(page, b, 16);
        bite_page_line(page, mark);
    }
}

/* The change in a limit's utilization; more than any other if it applies to one cut only. */
static double change_of(const bite_answer *first, const bite_answer *second, int id)
{
    const bite_limit *a = &first->result.limits[id];
    const bite_limit *b = &second->result.limits[id];
    return a->applies && b->applies   ? fabs(b->utilization - a->utilization)
           : a->applies != b->applies ? 1e9
                                      : 0.0;
}

/* The name of a limit; of plugins of two families, which have different ones in one place, both. */
static void limit_name(const bite_answer *first, const bite_answer *second, bite_limit_id id,
                       char *to, size_t size)
{
    const char *a = bite_cut_limit_name(&first->full, id);
    const char *b = bite_cut_limit_name(&second->full, id);
    int both = a != NULL && b != NULL && strcmp(a, b) != 0;
    (void)snprintf(to, size, "%s%s%s", a == NULL ? "" : a, both ? " / " : "",
                   both || a == NULL ? (b == NULL ? "" : b) : "");
}

static void changed_limits(bite_page *page, const bite_answer *first, const bite_answer *second)
{
    int order[BITE_LIMIT_COUNT];
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        int at = i;
        for (; at > 0 && change_of(first, second, order[at - 1]) < change_of(first, second, i);
             at--) {
            order[at] = order[at - 1];
        }
        order[at] = i;
    }
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        char name[80];
        const bite_limit *a = &first->result.limits[order[i]];
        const bite_limit *b = &second->result.limits[order[i]];
        char before[32];
        char after[32];
        if (change_of(first, second, order[i]) < 0.005) {
            continue;
        }
        share_text(a->applies ? a->utilization : (double)NAN, before, sizeof before);
        share_text(b->applies ? b->utilization : (double)NAN, after, sizeof after);
        const char *mark = b->utilization > a->utilization ? "higher" : "lower";
        limit_name(first, second, (bite_limit_id)order[i], name, sizeof name);
        pair_line(page, name, before, after, a->applies && b->applies ? mark : "");
    }
}

static void temperatures(bite_page *page, const bite_answer *first, const bite_answer *second)
{
    static const bite_value_id shown[] = {BITE_SURFACE_TEMPERATURE, BITE_TOOL_TEMPERATURE,
                                          BITE_REMOVAL_RATE};
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++) {
        char a[48];
        char b[48];
        bite_page_quantity(page, first->result.values[shown[i]].value, bite_value_kind(shown[i]), a,
                           sizeof a);
        bite_page_quantity(page, second->result.values[shown[i]].value, bite_value_kind(shown[i]),
                           b, sizeof b);
        pair_line(page, bite_value_name(shown[i]), a, b, "");
    }
}

static bite_status compare_json(const bite_answer *first, const bite_answer *second,
                                const bite_page *page, bite_sink sink, void *user,
                                bite_error *error)
{
    json_t *root = json_object();
    if (root == NULL) {
        return bite_json_write(NULL, page->compact, sink, user, error);
    }
    int failed = bite_json_put(root, "schema", json_integer(1));
    failed |= bite_json_put(root, "first", bite_answer_object(first, page->units));
    failed |= bite_json_put(root, "second", bite_answer_object(second, page->units));
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return bite_json_write(root, page->compact, sink, user, error);
}

bite_status bite_answer_compare(const bite_answer *first, const bite_answer *second,
                                const bite_style *style, bite_sink sink, void *user,
                                bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    if (first == NULL || second == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "two answers were expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    if (style != NULL && style->format == BITE_JSON) {
        return compare_json(first, second, &page, sink, user, error);
    }
    char before[32];
    char after[32];
    bite_page_tint(&page, 4, "                           first            second");
    bite_page_line(&page, "");
    pair_line(&page, "material", first->request.grade->record.name,
              second->request.grade->record.name, "");
    differing_inputs(&page, first, second);
    pair_line(&page, "verdict", bite_verdict_name((bite_verdict)first->result.verdict),
              bite_verdict_name((bite_verdict)second->result.verdict), "");
    share_text(first->result.chance, before, sizeof before);
    share_text(second->result.chance, after, sizeof after);
    pair_line(&page, "chance of exceeding", before, after, "");
    temperatures(&page, first, second);
    bite_page_line(&page, "Limits that change, by utilization:");
    changed_limits(&page, first, second);
    return bite_page_close(&page, error);
}
