/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job with fixed contents, made without the planner. */
#include "tests/report/job/example_job.h"
#include "core/job/job_file_reader.h"
#include "core/job/remarks.h"
#include "core/job/window_plan.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/material.h"
#include "tests/support/support.h"
#include <math.h>
#include <string.h>

#define MM 1e-3

const char hostile_title[] = "Cover <script>alert(1)</script> & \"co'\x01\x7f\xe2\x80\xae\xff end";
const char hostile_pass_title[] = "Pocket\"><img src=x onerror='alert(2)'>&";
const char hostile_note[] = "</style></section><!-- \"&' ]]>";

static const char job_text[] =
    "[format]\nkind = job\nversion = 1\n\n"
    "[job]\ntitle = Cover plate\ndrawing = CP-104 B\ncustomer = Window & Son's <b>own</b>\n"
    "note = Handle by the edges, film stays on until setup 2.\nmade_up = yes\n\n"
    "[part]\nname = Cover plate\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\n"
    "thickness = 1.6 mm\nthinnest = 0.8 mm\ncount = 6\n\n"
    "[machine]\nname = bench-24k\n\n"
    "[pass.face]\nwork = face\ndepth = 0.4 mm\n";

/* Lengths in mm, times in s; at the end the settings of the pass. */
static const struct {
    const char *title;
    uint32_t work;
    uint32_t setup;
    uint32_t count;
    uint32_t passes;
    uint32_t tool;
    double depth;
    double width;
    double seconds;
    const char *spindle;
    const char *feed;
    const char *pass_depth;
} passes[EXAMPLE_PASSES] = {
    {"Face the top", BITE_WORK_FACE, 1, 1, 1, 0, 0.5, 3.6, 214, "9000rpm", "900mm/min", "0.5mm"},
    {"Window pocket, rough", BITE_WORK_ROUGH, 1, 1, 2, 1, 0.8, 1.2, 388, "12000rpm", "600mm/min",
     "0.4mm"},
    {"Window pocket, walls", BITE_WORK_FINISH, 1, 1, 1, 2, 0.8, 0.1, 171, "16000rpm", "420mm/min",
     "0.8mm"},
    {"Screw holes", BITE_WORK_DRILL, 1, 4, 1, 3, 1.6, 1.0, 150, "5000rpm", "100mm/min", "0.8mm"},
    {"Face the other side", BITE_WORK_FACE, 2, 1, 1, 0, 0.5, 3.6, 214, "9000rpm", "900mm/min",
     "0.5mm"},
    {"Cable groove", BITE_WORK_SLOT, 2, 2, 2, 2, 0.5, (double)NAN, 260, "14000rpm", "260mm/min",
     "0.25mm"},
    {"Edge", BITE_WORK_CHAMFER, 2, 1, 1, 1, 0.3, 0.3, 96, "12000rpm", "500mm/min", "0.3mm"},
    {"Cut free", BITE_WORK_FREE, 2, 1, 3, 1, 1.7, (double)NAN, 432, "12000rpm", "380mm/min",
     "0.57mm"}};

static const struct {
    const char *name;
    double diameter;
    double flutes;
    double stickout;
    double flute_length;
    uint32_t passes;
    const char *why;
    const char *better;
} tools[EXAMPLE_TOOLS] = {
    {"6mm", 6, 1, 26, 18, 2, "the largest that faces six parts in one path", ""},
    {"2mm", 2, 1, 14, 6, 3, "half the inside corner of the pocket", ""},
    {"0.8mm", 0.8, 2, 10.5, 2.4, 2, "fits the inside corner of 0.5 mm",
     "with a neck of 0.7 mm it would bend less"},
    {"1mm", 1, 2, 15, 6, 1, "it has the diameter of the hole", ""}};

static bite_answer *new_answer(const bite_library *library, size_t pass, size_t draws)
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_error error = BITE_ERROR_INIT;
    int drill = passes[pass].work == BITE_WORK_DRILL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, tools[passes[pass].tool].name, NULL),
                     BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", passes[pass].spindle, NULL),
                     BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", passes[pass].feed, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", passes[pass].pass_depth, NULL), BITE_OK);
    if (drill) {
        ck_assert_int_eq(bite_request_set(request, "operation", "drill", NULL), BITE_OK);
    } else if (!isnan(passes[pass].width)) {
        char width[32];
        size_t length = 0;
        ck_assert_int_eq(bite_quantity_write(passes[pass].width * MM, BITE_KIND_LENGTH, BITE_METRIC,
                                             width, sizeof width, &length, NULL),
                         BITE_OK);
        ck_assert_int_eq(bite_request_set(request, "width", width, NULL), BITE_OK);
    }
    ck_assert_msg(bite_answer_new(request, draws, 0.95, &answer, &error) == BITE_OK, "pass %zu: %s",
                  pass, error.message);
    bite_request_free(request);
    return answer;
}

static void fill_passes(example_job *example, const bite_library *library, size_t draws,
                        int hostile)
{
    for (size_t i = 0; i < EXAMPLE_PASSES; i++) {
        bite_planned_pass *pass = &example->passes[i];
        pass->name = "pass";
        pass->title = hostile && i == 1 ? hostile_pass_title : passes[i].title;
        pass->work = passes[i].work;
        pass->setup = passes[i].setup;
        pass->count = passes[i].count;
        pass->passes = passes[i].passes;
        pass->tool = passes[i].tool;
        pass->chosen = i != 3;
        pass->depth = passes[i].depth * MM;
        pass->width = passes[i].width * MM;
        pass->step_down = pass->last_step = pass->depth / pass->passes;
        pass->entry.why = "";
        pass->entry.kind = passes[i].work == BITE_WORK_DRILL  ? BITE_ENTER_DRILL
                           : passes[i].work == BITE_WORK_SLOT ? BITE_ENTER_RAMP
                                                              : BITE_ENTER_OUTSIDE;
        pass->entry.feed = 0.005;
        pass->entry.angle = 0.05;
        pass->entry.length = 0.005;
        pass->entry.leg = INFINITY;
        pass->entry.legs = 1.0;
        pass->path = (bite_planned_path){0,           (double)NAN, (double)NAN, 0,
                                         (double)NAN, (double)NAN, (double)NAN};
        pass->lap = 0.1;
        pass->corners = 4;
        pass->answer = new_answer(library, i, draws);
        pass->seconds = passes[i].seconds;
        pass->feed_seconds = 0.3 * passes[i].seconds;
        pass->slowed = i == 2 ? 0.62 : 1.0;
        pass->hold_utilization = i == 3 ? (double)NAN : 0.05 + 0.04 * (double)i;
    }
    for (size_t i = 0; i < EXAMPLE_TOOLS; i++) {
        bite_planned_tool *tool = &example->tools[i];
        tool->name = tools[i].name;
        tool->diameter = tools[i].diameter * MM;
        tool->flutes = tools[i].flutes;
        tool->stickout = tools[i].stickout * MM;
        tool->flute_length = tools[i].flute_length * MM;
        tool->passes = tools[i].passes;
        tool->place = (uint32_t)i + 1;
        tool->why = tools[i].why;
        tool->better = tools[i].better;
    }
}

static void fill_stock(struct bite_job *job)
{
    bite_planned_stock *stock = &job->stock;
    ck_assert_int_eq(
        bite_library_record(job->library, BITE_SHEETS, "acrylic.cast", &stock->sheet, NULL),
        BITE_OK);
    stock->nominal = 3 * MM;
    stock->tolerance = 0.7 * MM;
    stock->thin = 2.3 * MM;
    stock->thick = 3.7 * MM;
    stock->needed = 2 * MM;
    stock->skim = 0.4 * MM;
    stock->share_top = 0.5;
    stock->chosen = 1;
    stock->removal =
        bite_sheet_stock_remove(stock->thin, stock->thick, job->thickness, stock->share_top);
    stock->gap = 4 * MM;
    stock->margin = 8 * MM;
    bite_sheet_stock_layout(job->length, job->width, 6, stock->gap, stock->margin, 0.3, 0.2,
                            &stock->layout);
    stock->sheet_length = 0.3;
    stock->sheet_width = 0.2;
    stock->yield =
        bite_sheet_stock_yield(job->length, job->width, stock->gap, stock->margin, 0.3, 0.2);
    stock->parting_text =
        "Table or band saw with a fine, no-set or triple-chip blade, film on, sheet clamped flat.";
    stock->limit.applies = 1;
    stock->limit.demand = 2 * MM;
    stock->limit.capacity = 2.3 * MM;
    stock->limit.utilization = 0.87;
    stock->limit.chance = 0.03;
    stock->limit.verdict = BITE_CLEAR;
    bite_planned_warp *warp = &job->warp;
    warp->limit = stock->limit;
    warp->limit.demand = 0.041 * MM;
    warp->limit.capacity = 0.1 * MM;
    warp->limit.chance = 0.08;
    warp->limit.verdict = BITE_TIGHT;
    warp->span = 40 * MM;
    warp->stress = 3.2e6;
    warp->one_sided = 0.19 * MM;
    warp->as_planned = 0.012 * MM;
    warp->warmth = 0.044 * MM;
    warp->coupon = 0.6 * MM;
    warp->coupon_cut = 1 * MM;
    warp->anneal = "Anneal at 80 degC: flat between glass plates, slowly up, an hour for every 3 "
                   "mm, and down at 10 K "
                   "an hour or slower.";
    warp->anneal_at = 353.15;
}

static void fill_hold(struct bite_job *job, int hostile)
{
    static const char *const mounting[] = {
        "Clean fixture and part with soapy water, dry.",
        "Tape on the fixture and on the part, edge to edge, pressed down, no overlaps.",
        "A thin, even wave of glue on one tape, put the part on, press flat under a block.",
        "Let it cure; ventilate."};
    static const char *const release[] = {
        "Pull the part off by bending the tape, a thin plastic blade under one corner.",
        "Peel the tape off the part at a flat angle; where it clings, warm water of 50 degC.",
        "Soapy water for the rest; no solvent."};
    static const char *const layers[] = {"masking-tape", "cyanoacrylate", "masking-tape"};
    bite_planned_hold *hold = &job->hold;
    ck_assert_int_eq(bite_library_record(job->library, BITE_HOLDS, "tape-glue", &hold->hold, NULL),
                     BITE_OK);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_int_eq(bite_library_layer(job->library, layers[i], &hold->layers[i], NULL),
                         BITE_OK);
        hold->release[i] = release[i];
    }
    memcpy(hold->mounting, mounting, sizeof mounting);
    hold->mounting[0] = hostile ? hostile_note : mounting[0];
    hold->mounting_count = 4;
    hold->release_count = 3;
    hold->layer_count = 3;
    hold->weakest = 0;
    hold->area = 1.2e-3;
    hold->chance = 0.02;
    hold->utilization = 0.33;
    hold->worst_pass = 7;
    hold->tape = 0.14 * MM;
    hold->break_through = 0.1 * MM;
    hold->cure = 120;
}

static void fill_fluids(struct bite_job *job)
{
    static const char *const names[][2] = {{"coolant", "air"},
                                           {"cleaner", "isopropanol"},
                                           {"remover", "acetone"},
                                           {"tapping", "soapy-water"}};
    for (size_t i = 0; i < 4; i++) {
        const bite_item_record *fluid = NULL;
        ck_assert_int_eq(bite_fluid_find(job->library, names[i][1], &fluid, NULL), BITE_OK);
        ck_assert_int_eq(bite_fluid_rate(job->library, fluid, job->grade, 0, &job->fluids[i], NULL),
                         BITE_OK);
        job->fluid_uses[i] = names[i][0];
        job->fluid_instead[i] = i == 1 ? "soapy water" : "";
    }
    job->fluid_count = 4;
}

static void fill_lists(example_job *example, int hostile)
{
    static const bite_planned_check checks[] = {{.what = "thickness, four corners and middle",
                                                 .nominal = 1.6 * MM,
                                                 .tolerance = 0.05 * MM,
                                                 .with = "micrometer",
                                                 .note = ""},
                                                {.what = "floor of the pocket",
                                                 .nominal = 0.8 * MM,
                                                 .tolerance = 0.05 * MM,
                                                 .with = "micrometer, ball",
                                                 .note = "on a flat pin"},
                                                {.what = "length",
                                                 .nominal = 40 * MM,
                                                 .tolerance = 0.1 * MM,
                                                 .with = "caliper",
                                                 .note = ""},
                                                {.what = "hole to edge",
                                                 .nominal = 4 * MM,
                                                 .tolerance = 0.05 * MM,
                                                 .with = "optical",
                                                 .note = "two edges"},
                                                {.what = "flatness, free on a plate",
                                                 .nominal = 0,
                                                 .tolerance = 0.1 * MM,
                                                 .with = "feeler",
                                                 .note = "an hour after release"}};
    static const bite_remark remarks[] = {
        {BITE_REMARK_FLAMMABLE, BITE_DANGER, "common-practice", {{"acetone", 0}}},
        {BITE_REMARK_FLUID_NO,
         BITE_CARE,
         "handbook: chemical resistance of acrylic sheet",
         {{"acetone", 0},
          {"remover", 0},
          {"acrylic/cast", 0},
          {"dissolves it", 0},
          {"", 0},
          {"", 0}}},
        {BITE_REMARK_SHEET_AS_SUPPLIED,
         BITE_CARE,
         "standard: ISO 7823-1",
         {{NULL, 2.3 * MM}, {NULL, 3.7 * MM}}},
        {BITE_REMARK_BOND_MAY_FAIL,
         BITE_CARE,
         "estimate: forces of this plan",
         {{"tape", 0}, {"Cut free", 0}, {NULL, 0.97}, {NULL, 0.46}}},
        {BITE_REMARK_CAUTION_OF_PASS,
         BITE_NOTE,
         "common-practice",
         {{"Cut free", 0}, {"Most small tools break on the way in: ramp at 3 degrees.", 0}}},
        {BITE_REMARK_TAPE_ON_TOOL, BITE_NOTE, "common-practice", {{0}}},
        {BITE_REMARK_FACING_ORDER, 0, "", {{NULL, 0.19 * MM}, {NULL, 0.012 * MM}}},
        {BITE_REMARK_DEFAULTS, 0, "", {{"one part, no coolant", 0}}}};
    memcpy(example->checks, checks, sizeof checks);
    memcpy(example->remarks, remarks, sizeof remarks);
    if (hostile) {
        example->remarks[0].values[0].text = hostile_note;
        example->remarks[1].source = hostile_note;
        example->checks[0].note = hostile_note;
        example->tools[0].why = hostile_note;
    }
}

void example_job_fill(example_job *example, const bite_library *library, size_t draws,
                      bite_units units, int hostile)
{
    static const bite_planned_time time = {.feed_only = 612,
                                           .cornering = 998,
                                           .cutting = 1610,
                                           .entries = 155,
                                           .air = 60,
                                           .rapids = 100,
                                           .ways = 315,
                                           .tool_changing = 200,
                                           .spindle_starts = 10,
                                           .zeroing = 30,
                                           .changes = 240,
                                           .mounting = 1100,
                                           .cure = 400,
                                           .loading = 1500,
                                           .releasing = 180,
                                           .soak = 60,
                                           .cleaning = 240,
                                           .release = 480,
                                           .whole = 4145,
                                           .hands = 1750,
                                           .machine_alone = 1935,
                                           .waiting = 460,
                                           .overlapped = 2165,
                                           .corrected = 4420,
                                           .records = 5,
                                           .tool_changes = 6};
    struct bite_job *job = &example->job;
    bite_error error = BITE_ERROR_INIT;
    memset(example, 0, sizeof *example);
    job->library = library;
    job->allocator = *bite_library_allocator(library);
    ck_assert_msg(bite_job_file_open(library, NULL, job_text, sizeof job_text - 1, NULL, NULL,
                                     &job->file_data, &error) == BITE_OK,
                  "%s %s", error.message, error.key);
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &job->grade, NULL), BITE_OK);
    job->units = units;
    job->title = hostile ? hostile_title : "Cover plate";
    job->file = "somewhere/cover-plate.ini";
    job->confidence = 0.95;
    job->draws = draws;
    job->length = 40 * MM;
    job->width = 30 * MM;
    job->thickness = 1.6 * MM;
    job->thinnest = 0.8 * MM;
    job->count = 6;
    job->clear = 1;
    fill_passes(example, library, draws, hostile);
    fill_stock(job);
    fill_hold(job, hostile);
    fill_fluids(job);
    memcpy(example->bench_fluids, job->fluids, sizeof example->bench_fluids);
    job->bench_fluids = example->bench_fluids;
    job->bench_fluid_count = 4;
    fill_lists(example, hostile);
    job->time = time;
    job->passes = example->passes;
    job->pass_count = EXAMPLE_PASSES;
    job->setups = 2;
    job->tools = example->tools;
    job->tool_count = EXAMPLE_TOOLS;
    job->checks = example->checks;
    job->check_count = sizeof example->checks / sizeof *example->checks;
    job->remarks = example->remarks;
    job->remark_count = sizeof example->remarks / sizeof *example->remarks;
    job->verdict = BITE_TIGHT;
    job->chance = 0.17;
    ck_assert_int_eq(bite_plan_windows(job, NULL), BITE_OK);
}

void example_job_free(example_job *example)
{
    bite_plan_windows_free(&example->job);
    for (size_t i = 0; i < EXAMPLE_PASSES; i++) {
        bite_answer_free(example->passes[i].answer);
        example->passes[i].answer = NULL;
    }
    bite_job_file_free(&example->job.file_data);
}
