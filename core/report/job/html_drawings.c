/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawings of a job. */
#include "core/report/job/html_drawings.h"
#include "core/job/job_file.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- the stack ---- */

#define STACK_WIDE 496.0
#define STACK_LEFT 84.0
#define STACK_RIGHT 232.0
#define LABEL_LEFT 256.0
#define LABEL_COLUMNS 27
#define LABEL_STEP 17.0
#define STACK_TOP 12.0
#define STACK_HIGH 124.0 /* total height of the layers that are to scale */
#define FIXTURE_HIGH 20.0
#define FRAME 26.0 /* the waste beside the part, and the slot of the cutter */
#define KERF 12.0
#define THINNEST_LAYER 1.2 /* anything thinner is drawn this thick */
#define SLICES_MOST (BITE_LAYERS_MAX + 4)

/* One layer of the stack, from the top. */
typedef struct layer_slice {
    const char *look;
    char name[80];
    double thickness; /* m; NaN: not known, or not to scale */
    double y;         /* of its top */
    double high;
} layer_slice;

typedef struct layer_stack {
    layer_slice slices[SLICES_MOST];
    size_t count;
    size_t part; /* index of the part among the slices */
    double scale;
    double bottom; /* of the fixture */
} layer_stack;

static void put_slice(layer_stack *stack, const char *look, const char *name, double thickness)
{
    if (stack->count < SLICES_MOST) {
        layer_slice *at = &stack->slices[stack->count++];
        at->look = look;
        at->thickness = thickness;
        (void)snprintf(at->name, sizeof at->name, "%s", bite_html_short(name, LABEL_COLUMNS).text);
    }
}

static int is_some(double length)
{
    return isfinite(length) && length > 0.0;
}

/* Whether the bottom is up; without planned setups, in all but the first. */
static int is_turned(const struct bite_job *job, uint32_t setup)
{
    return job->setup_plan == NULL ? setup > 1
                                   : job->setup_plan[setup - 1].side == BITE_SIDE_BOTTOM;
}

/* The first setup before (step -1) or after (step 1) this one that faces the other side, or this
 * side again (same 1); 0: none. */
static uint32_t faced_in(const struct bite_job *job, uint32_t setup, int step, int same)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        int beyond = step < 0 ? pass->setup < setup : pass->setup > setup;
        if (beyond && pass->work == BITE_WORK_FACE &&
            (is_turned(job, pass->setup) == is_turned(job, setup)) == same) {
            return pass->setup;
        }
    }
    return 0;
}

/* Above and below is what the setup and later ones remove from the faces of the sheet. */
static void build_stack(const struct bite_job *job, uint32_t setup, layer_stack *stack)
{
    const bite_sheet_stock_removal *off = &job->stock.removal;
    int turned = is_turned(job, setup);
    double above = faced_in(job, setup, -1, 1) ? 0.0 : turned ? off->thick_below : off->thick_top;
    double below = faced_in(job, setup, -1, 0) ? 0.0 : turned ? off->thick_top : off->thick_below;
    uint32_t later = faced_in(job, setup, 1, 0);
    char when[40];
    (void)snprintf(when, sizeof when, "removed in setup %u", later);
    const bite_planned_hold *hold = bite_plan_hold_of(job, setup);
    if (is_some(above)) {
        put_slice(stack, "off", "removed from this face", above);
    }
    stack->part = stack->count;
    put_slice(stack, "part", "part", job->thickness);
    if (is_some(below)) {
        put_slice(stack, "off", later > 0 ? when : "left, or removed below", below);
    }
    for (size_t i = 0; i < hold->layer_count && i < BITE_LAYERS_MAX; i++) {
        const bite_item_record *layer = hold->layers[hold->layer_count - 1 - i];
        static const char *const looks[] = {"tape", "glue"};
        double thickness = bite_item_figure(layer, "thickness");
        put_slice(stack, looks[i % 2], layer == NULL ? "" : layer->title, thickness);
    }
    put_slice(stack, "fixture",
              hold->hold == NULL || hold->layer_count > 0 ? "fixture" : hold->hold->title,
              (double)NAN);
}

static void set_heights(layer_stack *stack)
{
    double whole = 0.0;
    double y = STACK_TOP;
    for (size_t i = 0; i < stack->count; i++) {
        whole += is_some(stack->slices[i].thickness) ? stack->slices[i].thickness : 0.0;
    }
    stack->scale = is_some(whole) ? STACK_HIGH / whole : 0.0;
    for (size_t i = 0; i < stack->count; i++) {
        layer_slice *at = &stack->slices[i];
        at->y = y;
        at->high = i + 1 == stack->count    ? FIXTURE_HIGH
                   : is_some(at->thickness) ? fmax(THINNEST_LAYER, at->thickness * stack->scale)
                                            : 3.0;
        y += at->high;
    }
    stack->bottom = y;
}

/* The setup in which the thinnest section is cut: that of the deepest cut that does not go
 * through. */
static uint32_t setup_of_pocket(const struct bite_job *job)
{
    double deepest = 0.0;
    uint32_t setup = 1;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->work != BITE_WORK_FREE && pass->depth > deepest &&
            pass->depth < job->thickness * (1.0 - 1e-9)) {
            deepest = pass->depth;
            setup = pass->setup;
        }
    }
    return setup;
}

static int has_thin_place(const struct bite_job *job)
{
    return is_some(job->thinnest) && job->thinnest < job->thickness * (1.0 - 1e-9);
}

/* The pocket above (or below) the thinnest section; dashed while it is still to be cut. */
static void draw_pocket(bite_job_html_page *html, const layer_stack *stack, uint32_t setup)
{
    const struct bite_job *job = html->job;
    const layer_slice *part = &stack->slices[stack->part];
    uint32_t cut_in = setup_of_pocket(job);
    double floor = fmax(THINNEST_LAYER, job->thinnest * stack->scale);
    double y = cut_in == setup ? part->y : part->y + floor;
    bite_html_box(&html->page, STACK_LEFT + 78.0, y, 44.0, part->high - floor,
                  cut_in > setup ? "hollow to-come" : "hollow");
}

static void draw_slices(bite_job_html_page *html, const layer_stack *stack, uint32_t setup)
{
    for (size_t i = 0; i < stack->count; i++) {
        const layer_slice *at = &stack->slices[i];
        bite_html_box(&html->page, STACK_LEFT, at->y, STACK_RIGHT - STACK_LEFT, at->high, at->look);
    }
    if (has_thin_place(html->job)) {
        draw_pocket(html, stack, setup);
    }
}

/* The slot of the cutter that cuts the part free, down to where it ends; the waste beside it is
 * hatched. */
static double draw_kerf(bite_job_html_page *html, const layer_stack *stack, uint32_t setup)
{
    const layer_slice *part = &stack->slices[stack->part];
    double end = part->y + part->high;
    double through = bite_plan_hold_of(html->job, setup)->break_through;
    double under = is_some(through) ? through * stack->scale : 0.0;
    bite_html_box(&html->page, STACK_LEFT, part->y, FRAME, part->high, "waste");
    bite_html_box(&html->page, STACK_LEFT + FRAME, STACK_TOP, KERF, end + under - STACK_TOP,
                  "kerf");
    bite_html_line(&html->page, STACK_LEFT - 12.0, end + under, STACK_RIGHT, end + under,
                   "mark-line");
    return end + under;
}

static void draw_dimension(bite_job_html_page *html, double x, double y1, double y2,
                           const char *text)
{
    bite_page *page = &html->page;
    bite_html_line(page, x, y1, x, y2, "size");
    bite_html_line(page, x - 4.0, y1, x + 4.0, y1, "size");
    bite_html_line(page, x - 4.0, y2, x + 4.0, y2, "size");
    bite_html_label(page, x - 7.0, 0.5 * (y1 + y2) + 4.0, "end", text);
}

/* A label beside the stack, and where it points to. */
typedef struct leader_line {
    char text[160];
    double x;
    double y;
    double at; /* of the text */
} leader_line;

static void add_pointer(leader_line *list, size_t *count, double x, double y, const char *name,
                        const char *size)
{
    leader_line *pointer = &list[(*count)++];
    pointer->x = x;
    pointer->y = y;
    (void)snprintf(pointer->text, sizeof pointer->text, size[0] == '-' ? "%s" : "%s, %s", name,
                   size);
}

static void sort_pointers(leader_line *list, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        for (size_t k = i; k > 0 && list[k].y < list[k - 1].y; k--) {
            leader_line other = list[k];
            list[k] = list[k - 1];
            list[k - 1] = other;
        }
    }
}

/* Labels move down as far as the one above requires, then up from the bottom. Returns the height
 * that is required. */
static double spread_pointers(leader_line *list, size_t count, double bottom)
{
    double most = fmax(bottom - 6.0, STACK_TOP + LABEL_STEP * (double)count);
    for (size_t i = 0; i < count; i++) {
        list[i].at = i == 0 ? fmax(list[i].y, 12.0) : fmax(list[i].y, list[i - 1].at + LABEL_STEP);
    }
    for (size_t i = count; i > 0; i--) {
        double limit = i == count ? most : list[i].at - LABEL_STEP;
        list[i - 1].at = fmin(list[i - 1].at, limit);
    }
    return most + 8.0;
}

static void draw_pointers(bite_job_html_page *html, const leader_line *list, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bite_html_line(&html->page, list[i].x, list[i].y, LABEL_LEFT - 14.0, list[i].at, "lead");
        bite_html_line(&html->page, LABEL_LEFT - 14.0, list[i].at, LABEL_LEFT - 4.0, list[i].at,
                       "lead");
        bite_html_label(&html->page, LABEL_LEFT, list[i].at + 4.0, "", list[i].text);
    }
}

static size_t make_pointers(bite_job_html_page *html, const layer_stack *stack, uint32_t setup,
                            leader_line *list)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    const layer_slice *part = &stack->slices[stack->part];
    size_t count = 0;
    for (size_t i = 0; i < stack->count; i++) {
        const layer_slice *at = &stack->slices[i];
        bite_html_string size = bite_html_quantity(page, at->thickness, BITE_KIND_LENGTH);
        add_pointer(list, &count, STACK_RIGHT, at->y + 0.5 * at->high, at->name, size.text);
    }
    if (has_thin_place(job)) {
        double floor = fmax(THINNEST_LAYER, job->thinnest * stack->scale);
        double middle = setup_of_pocket(job) == setup ? part->y + part->high - 0.5 * floor
                                                      : part->y + 0.5 * floor;
        bite_html_string size = bite_html_quantity(page, job->thinnest, BITE_KIND_LENGTH);
        add_pointer(list, &count, STACK_LEFT + 100.0, middle, "thinnest section", size.text);
    }
    if (bite_job_setup_cuts_through(job, setup)) {
        double through = bite_plan_hold_of(job, setup)->break_through;
        double under = is_some(through) ? through * stack->scale : 0.0;
        bite_html_string size = bite_html_quantity(page, through, BITE_KIND_LENGTH);
        add_pointer(list, &count, STACK_RIGHT, part->y + part->high + under,
                    "cutter ends below the part", size.text);
    }
    return count;
}

static void open_drawing(bite_page *page, const char *name, const char *number, double wide,
                         double high, const char *title)
{
    bite_html_put(page,
                  "<svg class=\"drawing\" role=\"img\" aria-labelledby=\"%s-%s-title %s-%s-text\" "
                  "viewBox=\"0 0 %s %s\">\n",
                  name, number, name, number, bite_html_count(wide).text,
                  bite_html_count(high).text);
    bite_html_put(page, "<title id=\"%s-%s-title\">%s</title>\n<desc id=\"%s-%s-text\">", name,
                  number, title, name, number);
}

void bite_job_html_draw_stack(bite_job_html_page *html, uint32_t setup)
{
    bite_page *page = &html->page;
    leader_line list[SLICES_MOST + 2];
    layer_stack stack;
    memset(&stack, 0, sizeof stack);
    build_stack(html->job, setup, &stack);
    set_heights(&stack);
    const layer_slice *part = &stack.slices[stack.part];
    size_t count = make_pointers(html, &stack, setup, list);
    sort_pointers(list, count);
    double high = fmax(stack.bottom + 6.0, spread_pointers(list, count, stack.bottom));
    open_drawing(page, "stack", bite_html_count(setup).text, STACK_WIDE, high,
                 "The stack on the fixture");
    bite_page_text(page, "From the top: ");
    for (size_t i = 0; i < count; i++) {
        bite_html_put(page, i == 0 ? "%s" : "; %s", list[i].text);
    }
    bite_page_text(page, ".</desc>\n");
    draw_slices(html, &stack, setup);
    if (bite_job_setup_cuts_through(html->job, setup)) {
        (void)draw_kerf(html, &stack, setup);
    }
    draw_dimension(html, STACK_LEFT - 14.0, part->y, part->y + part->high,
                   bite_html_quantity(page, html->job->thickness, BITE_KIND_LENGTH).text);
    draw_pointers(html, list, count);
    bite_page_text(page, "</svg>\n<p class=\"small\">Heights to scale, for the thickest sheet; "
                         "widths are not.</p>\n");
}

/* ---- the blank ---- */

#define BLANK_WIDE 440.0
#define BLANK_LEFT 76.0
#define BLANK_TOP 42.0
#define BLANK_LONG 350.0 /* at most, for its length */
#define BLANK_HIGH 150.0
#define PARTS_DRAWN 400
#define LETTER_WIDE 6.5 /* of a label, about */

typedef struct blank_drawing {
    double scale;
    double along; /* of a part, m */
    double across;
    double step; /* from part to part, m */
    double step_across;
    double margin;
} blank_drawing;

static blank_drawing blank_of(const struct bite_job *job)
{
    const bite_layout *layout = &job->stock.layout;
    blank_drawing blank;
    double gap = is_some(job->stock.gap) ? job->stock.gap : 0.0;
    blank.scale = fmin(BLANK_LONG / layout->length, BLANK_HIGH / layout->width);
    blank.along = layout->turned ? job->width : job->length;
    blank.across = layout->turned ? job->length : job->width;
    blank.step = blank.along + gap;
    blank.step_across = blank.across + gap;
    blank.margin = is_some(job->stock.margin) ? job->stock.margin : 0.0;
    return blank;
}

static void draw_parts(bite_job_html_page *html, const blank_drawing *blank)
{
    const bite_layout *layout = &html->job->stock.layout;
    double count = html->job->stock.blanks > 1 ? html->job->stock.on_each : html->job->count;
    for (uint32_t limit = 0; limit < layout->rows; limit++) {
        for (uint32_t i = 0; i < layout->along; i++) {
            double number = (double)limit * (double)layout->along + (double)i + 1.0;
            double x = BLANK_LEFT + blank->scale * (blank->margin + (double)i * blank->step);
            double y =
                BLANK_TOP + blank->scale * (blank->margin + (double)limit * blank->step_across);
            bite_html_box(&html->page, x, y, blank->scale * blank->along,
                          blank->scale * blank->across, number <= count ? "part" : "to-come");
            if (blank->scale * blank->along > 20.0 && blank->scale * blank->across > 15.0 &&
                number <= count) {
                bite_html_label(&html->page, x + 0.5 * blank->scale * blank->along,
                                y + 0.5 * blank->scale * blank->across + 4.0, "middle",
                                bite_html_count(number).text);
            }
        }
    }
}

/* A chain of sizes over the first two parts: margin, part, gap. */
static void draw_chain(bite_job_html_page *html, const blank_drawing *blank)
{
    bite_page *page = &html->page;
    const double ends[] = {0.0, blank->margin, blank->margin + blank->along,
                           blank->margin + blank->step};
    const char *const names[] = {"margin", "", "gap"};
    const char *const looks[] = {"end", "middle",
                                 "start"}; /* labels of narrow ones are beside them */
    double top = BLANK_TOP - 9.0;
    size_t count = html->job->stock.layout.along > 1 ? 3 : 2;
    for (size_t i = 0; i < count; i++) {
        double x1 = BLANK_LEFT + blank->scale * ends[i];
        double x2 = BLANK_LEFT + blank->scale * ends[i + 1];
        bite_html_string size = bite_html_quantity(page, ends[i + 1] - ends[i], BITE_KIND_LENGTH);
        char text[100];
        if (ends[i + 1] <= ends[i]) {
            continue;
        }
        (void)snprintf(text, sizeof text, "%s%s%s", names[i], names[i][0] == 0 ? "" : " ",
                       size.text);
        bite_html_line(page, x1, top, x2, top, "size");
        bite_html_line(page, x1, top - 4.0, x1, top + 4.0, "size");
        bite_html_line(page, x2, top - 4.0, x2, top + 4.0, "size");
        int tight =
            i == 0 &&
            x2 < LETTER_WIDE *
                     (double)strlen(text); /* it would extend beyond the left edge of the picture */
        double x = tight ? 0.0 : i == 1 ? 0.5 * (x1 + x2) : i == 0 ? x2 : x1;
        bite_html_label(page, x, i == 1 ? top - 8.0 : top - 22.0, tight ? "start" : looks[i], text);
    }
}

static void draw_whole(bite_job_html_page *html, const blank_drawing *blank)
{
    bite_page *page = &html->page;
    const bite_layout *layout = &html->job->stock.layout;
    double right = BLANK_LEFT + blank->scale * layout->length;
    double bottom = BLANK_TOP + blank->scale * layout->width;
    bite_html_line(page, BLANK_LEFT, bottom + 11.0, right, bottom + 11.0, "size");
    bite_html_line(page, BLANK_LEFT, bottom + 7.0, BLANK_LEFT, bottom + 15.0, "size");
    bite_html_line(page, right, bottom + 7.0, right, bottom + 15.0, "size");
    bite_html_label(page, 0.5 * (BLANK_LEFT + right), bottom + 26.0, "middle",
                    bite_html_quantity(page, layout->length, BITE_KIND_LENGTH).text);
    draw_dimension(html, BLANK_LEFT - 11.0, BLANK_TOP, bottom,
                   bite_html_quantity(page, layout->width, BITE_KIND_LENGTH).text);
}

static void blank_words(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    const bite_layout *layout = &job->stock.layout;
    bite_html_put(
        page, "%s long, %s wide: ", bite_html_quantity(page, layout->length, BITE_KIND_LENGTH).text,
        bite_html_quantity(page, layout->width, BITE_KIND_LENGTH).text);
    if (job->stock.blanks > 1) {
        bite_html_put(page, "%s such blanks, %s parts on the last; ",
                      bite_html_count(job->stock.blanks).text,
                      bite_html_count(job->stock.on_last).text);
    }
    bite_html_put(page, "%s in a row, %s row%s, each part placed ",
                  bite_html_count(layout->along).text, bite_html_count(layout->rows).text,
                  layout->rows > 1 ? "s" : "");
    bite_page_text(page, layout->turned ? "across" : "lengthwise");
    bite_html_put(page, "; %s between parts, %s to the edge",
                  bite_html_quantity(page, job->stock.gap, BITE_KIND_LENGTH).text,
                  bite_html_quantity(page, job->stock.margin, BITE_KIND_LENGTH).text);
    if (layout->more > 0) {
        bite_html_put(page, "; %s place%s more than requested, dashed",
                      bite_html_count(layout->more).text, layout->more > 1 ? "s" : "");
    }
    bite_page_text(page, ".");
}

void bite_job_html_draw_blank(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    const bite_layout *layout = &job->stock.layout;
    bite_page_text(page, "<h3>Blank</h3>\n");
    if (layout->along == 0 || layout->rows == 0 || !is_some(layout->length) ||
        !is_some(layout->width)) {
        bite_page_text(
            page, "<p>The parts do not fit on the sheet, not even one: see the cautions.</p>\n");
        return;
    }
    blank_drawing blank = blank_of(job);
    if ((double)layout->along * (double)layout->rows <= PARTS_DRAWN && is_some(blank.scale) &&
        is_some(blank.along) && is_some(blank.across)) {
        double high = BLANK_TOP + blank.scale * layout->width + 32.0;
        open_drawing(page, "blank", "1", BLANK_WIDE, high, "The blank and its parts");
        blank_words(html);
        bite_page_text(page, "</desc>\n");
        bite_html_box(page, BLANK_LEFT, BLANK_TOP, blank.scale * layout->length,
                      blank.scale * layout->width, "sheet-box");
        draw_parts(html, &blank);
        draw_chain(html, &blank);
        draw_whole(html, &blank);
        bite_page_text(page, "</svg>\n");
    }
    bite_page_text(page, "<p>");
    blank_words(html);
    bite_page_text(page, "</p>\n");
}

/* ---- patterns, once for all drawings ---- */

void bite_job_html_patterns(bite_job_html_page *html)
{
    bite_page_text(
        &html->page,
        "<svg class=\"patterns\" aria-hidden=\"true\" width=\"0\" height=\"0\"><defs>\n"
        "<pattern id=\"p-hatch\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate(45)\">"
        "<line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"8\" stroke=\"#555\" "
        "stroke-width=\"1.6\"/></pattern>\n"
        "<pattern id=\"p-waste\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate(-45)\">"
        "<line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"5\" stroke=\"#999\" stroke-width=\"1\"/></pattern>\n"
        "<pattern id=\"p-off\" width=\"6\" height=\"4\" patternUnits=\"userSpaceOnUse\">"
        "<line x1=\"0\" y1=\"2\" x2=\"3\" y2=\"2\" stroke=\"#888\" stroke-width=\"1\"/></pattern>\n"
        "</defs></svg>\n");
}
