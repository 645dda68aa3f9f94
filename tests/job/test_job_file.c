/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole jobs: what is planned, what is chosen, what is refused and warned of; files of all sorts,
 * no memory, refusing sinks. */
#include "core/job/plan.h"
#include "core/job/plan_steps.h"
#include "tests/support/test_tables.h"
#include <dirent.h>
#include <errno.h>
#include <jansson.h>
#include <locale.h>
#include <math.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define HEAD "[format]\nkind = job\nversion = 1\n"
#define ACRYLIC "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n"
#define GIVEN "spindle = 9000rpm\nfeed = 300mm/min\n"
#define ONE_PASS "[pass.a]\nwork = cut-free\ntool = 2mm\n" GIVEN

static bite_test_shop shop;
static bite_library *library;

static void setup(void)
{
    char data[600];
    bite_test_shop_make(&shop);
    (void)snprintf(data, sizeof data, "%s/data", shop.root);
    ck_assert_int_eq(setenv("XDG_DATA_HOME", data, 1), 0);
    ck_assert_int_eq(unsetenv("COOLBITE_TABLE_PATH"), 0);
    library = bite_test_shop_open(&shop, NULL);
}

static void teardown(void)
{
    bite_library_close(library);
    bite_test_remove(shop.root);
}

static bite_job_options options_of(size_t draws)
{
    bite_job_options options = {(uint32_t)sizeof options, BITE_METRIC, 0, 2, draws, 0.95};
    return options;
}

/* What was complained of. */
typedef struct heard {
    uint32_t count;
    uint32_t lines[300];
    char said[300][400];
} heard;

static void hear(void *user, const bite_error *fault)
{
    heard *to = user;
    if (to->count < 300) {
        to->lines[to->count] = fault->line;
        (void)snprintf(to->said[to->count], sizeof to->said[0], "%.120s: %.200s (%.60s)",
                       fault->key, fault->message, fault->hint);
    }
    to->count++;
}

static heard *faults_of(const char *text, size_t size, bite_error *error)
{
    static heard heard_of;
    bite_job_options options = options_of(BITE_DRAWS_NONE);
    bite_job *job = NULL;
    memset(&heard_of, 0, sizeof heard_of);
    bite_status status =
        bite_job_parse(library, "hostile.ini", text, size, &options, hear, &heard_of, &job, error);
    ck_assert_msg(status == BITE_BAD_FILE, "%s: %s", bite_status_name(status), error->message);
    ck_assert_ptr_null(job);
    ck_assert_uint_ge(heard_of.count, 1);
    ck_assert_str_eq(error->file, "hostile.ini");
    return &heard_of;
}

/* Of a file that is wrong in one way: said so, on that line. */
static void refused(const char *text, uint32_t line, const char *says)
{
    bite_error error = BITE_ERROR_INIT;
    heard *of = faults_of(text, strlen(text), &error);
    ck_assert_msg(of->count == 1, "%u faults: %s; %s", of->count, of->said[0], of->said[1]);
    ck_assert_msg(strstr(of->said[0], says) != NULL, "%s", of->said[0]);
    ck_assert_msg(of->lines[0] == line, "line %u: %s", of->lines[0], of->said[0]);
}

static bite_job *plan_with(const char *text, const bite_job_options *options)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = NULL;
    ck_assert_msg(bite_job_parse(library, "job.ini", text, strlen(text), options, NULL, NULL, &job,
                                 &error) == BITE_OK,
                  "%s:%u %s %s (%s)", error.file, error.line, error.key, error.message, error.hint);
    return job;
}

static bite_job *plan(const char *text)
{
    bite_job_options options = options_of(BITE_DRAWS_NONE);
    return plan_with(text, &options);
}

__attribute__((format(printf, 1, 2))) static bite_job *plan_of(const char *format, ...)
{
    char text[8000];
    va_list list;
    va_start(list, format);
    int length = vsnprintf(text, sizeof text, format, list);
    va_end(list);
    ck_assert(length > 0 && (size_t)length < sizeof text);
    return plan(text);
}

static const bite_remark *remark_of(const bite_job *job, const char *about, const char *says)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (strcmp(job->remarks[i].about, about) == 0 &&
            strstr(job->remarks[i].text, says) != NULL) {
            return &job->remarks[i];
        }
    }
    return NULL;
}

/* A sink that keeps what it is given, and refuses after so many bytes. */
typedef struct kept {
    char *text;
    size_t size;
    size_t most;
    size_t room;
} kept;

static int keep(void *user, const char *text, size_t size)
{
    kept *to = user;
    if (size > to->most - to->size) {
        return -1;
    }
    if (to->room < to->size + size + 1) {
        to->room = 2 * (to->size + size) + 1000;
        to->text = realloc(to->text, to->room);
        ck_assert_ptr_nonnull(to->text);
    }
    memcpy(to->text + to->size, text, size);
    to->size += size;
    to->text[to->size] = 0;
    return 0;
}

static char *write_as(const bite_job *job, uint32_t format, uint32_t ascii)
{
    bite_style style = {(uint32_t)sizeof style, format, BITE_METRIC, 0, 0, ascii, 0, 0};
    kept to = {NULL, 0, SIZE_MAX, 0};
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_job_write(job, &style, keep, &to, &error) == BITE_OK, "%s", error.message);
    return to.text;
}

static json_t *json_of(const bite_job *job)
{
    json_error_t why;
    char *text = write_as(job, BITE_JSON, 0);
    json_t *root = json_loads(text, 0, &why);
    ck_assert_msg(root != NULL, "%s", why.text);
    free(text);
    return root;
}

/* ---- what is planned ---- */

static char *read_source(const char *name, size_t *size)
{
    char path[4096];
    bite_error error = BITE_ERROR_INIT;
    char *text = NULL;
    bite_test_source(path, sizeof path, name);
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s", path);
    text = calloc(1, 1 << 18);
    ck_assert_ptr_nonnull(text);
    *size = fread(text, 1, (1 << 18) - 1, file);
    (void)fclose(file);
    (void)error;
    return text;
}

/* What holds of every plan. */
static void check_plan(const bite_job *job)
{
    ck_assert_uint_ge(job->pass_count, 1);
    ck_assert_uint_ge(job->tool_count, 1);
    double seconds = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_cut *cut = &pass->answer->full;
        ck_assert(cut->spindle_speed > 0.0 && cut->feed_rate > 0.0 && cut->depth > 0.0);
        ck_assert(pass->seconds > 0.0 && pass->slowed > 0.0 && pass->slowed <= 1.0);
        ck_assert(pass->seconds >= pass->feed_seconds * (1.0 - 1e-9));
        ck_assert_uint_lt(pass->tool, job->tool_count);
        ck_assert(pass->work == BITE_WORK_CHAMFER ||
                  pass->passes * cut->depth >= pass->depth * (1.0 - 1e-6));
        ck_assert(job->verdict >= pass->answer->result.verdict);
        ck_assert(i == 0 || job->passes[i - 1].setup <= pass->setup);
        ck_assert(i == 0 || job->passes[i - 1].work != BITE_WORK_FREE ||
                  pass->work == BITE_WORK_FREE || job->passes[i - 1].setup < pass->setup);
        seconds += pass->seconds;
    }
    bite_assert_near(seconds, job->time.cutting + job->time.ways, 1e-9);
    bite_assert_near(job->time.whole,
                     seconds + job->time.changes + job->time.loading + job->time.release, 1e-9);
    ck_assert(job->stock.thin <= job->stock.nominal && job->stock.nominal <= job->stock.thick);
    for (size_t i = 1; i < job->remark_count; i++) {
        ck_assert_uint_ge(job->remarks[i - 1].severity, job->remarks[i].severity);
    }
    ck_assert_ptr_nonnull(remark_of(job, "safety", "manual"));
    json_t *root = json_of(job);
    ck_assert_uint_eq(json_array_size(json_object_get(root, "passes")), job->pass_count);
    ck_assert_uint_eq(json_array_size(json_object_get(root, "remarks")), job->remark_count);
    json_decref(root);
    char *text = write_as(job, BITE_TEXT, 0);
    ck_assert_ptr_nonnull(strstr(text, job->passes[0].title));
    free(text);
}

START_TEST(every_job_that_ships_plans_and_is_installed)
{
    char path[4096];
    size_t size = 0;
    size_t count = 0;
    char *list = read_source("tables/Makefile.inc", &size);
    bite_test_source(path, sizeof path, "tables/jobs");
    DIR *folder = opendir(path);
    ck_assert_ptr_nonnull(folder);
    for (struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        char name[400];
        char file[4600];
        bite_job *job = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_job_options options = options_of(0);
        if (entry->d_name[0] == '.') {
            continue;
        }
        (void)snprintf(name, sizeof name, "tables/jobs/%s", entry->d_name);
        ck_assert_msg(strstr(list, name) != NULL, "%s is not in tables/Makefile.inc", name);
        (void)snprintf(file, sizeof file, "%s/%s", path, entry->d_name);
        ck_assert_msg(bite_job_open(library, file, &options, NULL, NULL, &job, &error) == BITE_OK,
                      "%s: %s", name, error.message);
        check_plan(job);
        ck_assert_ptr_nonnull(bite_job_file_text(job->file_data.job, "made_up"));
        ck_assert(job->chance >= 0.0 && job->chance <= 1.0);
        bite_job_free(job);
        count++;
    }
    (void)closedir(folder);
    free(list);
    ck_assert_uint_ge(count, 3);
}
END_TEST

START_TEST(what_is_left_out_is_chosen)
{
    static const char *const grades[] = {"acrylic/cast", "polycarbonate/sheet", "aluminium/6061-T6",
                                         "acetal"};
    bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 60 mm\nwidth = 40 mm\nthickness "
                                 "= 3 mm\nthinnest = 1.5 mm\n",
                            grades[_i]);
    check_plan(job);
    ck_assert_uint_eq(job->stock.chosen, 1);
    ck_assert(job->stock.nominal - job->stock.tolerance >= job->stock.needed - 1e-9);
    ck_assert_uint_eq(job->pass_count, 4); /* both faces, the thin section, cut free */
    ck_assert_uint_eq(job->passes[3].work, BITE_WORK_FREE);
    ck_assert_uint_eq(job->stock.layout.along * job->stock.layout.rows, 1);
    for (size_t i = 0; i < job->pass_count; i++) {
        ck_assert_uint_eq(job->passes[i].chosen, 1);
    }
    ck_assert_ptr_nonnull(remark_of(job, "passes", "names no passes"));
    ck_assert_ptr_nonnull(remark_of(job, "hold", "does not say how the part is held"));
    bite_job_free(job);
}
END_TEST

START_TEST(what_was_given_stays)
{
    bite_job *job = plan(
        HEAD ACRYLIC
        "[stock]\nthinnest = 2.9 mm\nthickest = 3.1 mm\n[pass.a]\nwork = pocket\ntool = "
        "1.5mm\npass_depth = 0.25 mm\ndepth = 1 mm\n" GIVEN "[pass.b]\nwork = slot\ntool = 2mm\n");
    const bite_cut *cut = &job->passes[0].answer->full;
    ck_assert_str_eq(job->passes[0].name, "a");
    ck_assert_uint_eq(job->passes[0].chosen, 0);
    ck_assert_uint_eq(job->passes[0].passes, 4);
    bite_assert_near(cut->spindle_speed, 150.0, 1e-9);
    bite_assert_near(cut->feed_rate, 0.005, 1e-9);
    bite_assert_near(cut->diameter, 1.5e-3, 1e-9);
    bite_assert_near(cut->floor_thickness, 1e-3,
                     1e-9); /* of the part, not of the sheet before it was faced */
    ck_assert_uint_eq(job->passes[1].chosen, 1);
    ck_assert_uint_eq(job->stock.measured, 1);
    bite_assert_near(job->stock.nominal, 3e-3, 1e-12);
    bite_assert_near(job->stock.thin, 2.9e-3, 1e-12);
    bite_job_free(job);
}
END_TEST

/* Cast acrylic sheet of t comes as t give or take 0.4 mm + t/10: 2.2 mm are surely in 3 mm
 * (2.3), 1.6 mm in 2.5 mm (1.85), with a skim of 0.1 mm off each face that is cut. Where both stay
 * the part is what the sheet is: the nearest one. */
START_TEST(the_sheet_is_chosen_by_what_is_cut)
{
    static const struct {
        const char *faces;
        double part; /* mm */
        double needed;
        double nominal;
        double top; /* off it, of a thick sheet */
        double below;
    } cases[] = {{"both", 2.0, 2.2, 3.0, 0.85, 0.85}, {"top", 2.0, 2.1, 3.0, 1.7, 0.0},
                 {"none", 2.0, 1.95, 2.0, 0.0, 0.0},  {"both", 1.65, 1.85, 2.5, 0.75, 0.75},
                 {"top", 1.75, 1.85, 2.5, 1.4, 0.0},  {"none", 1.9, 1.85, 2.0, 0.0, 0.0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job *job = plan_of(HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 "
                                     "mm\nthickness = %.2f mm\ntolerance = "
                                     "0.05 mm\n[stock]\nfaces = %s\n" ONE_PASS,
                                cases[i].part, cases[i].faces);
        bite_assert_near(1e3 * job->stock.needed, cases[i].needed, 1e-9);
        bite_assert_near(1e3 * job->stock.nominal, cases[i].nominal, 1e-9);
        ck_assert_double_eq_tol(1e3 * job->stock.removal.thick_top, cases[i].top, 1e-9);
        ck_assert_double_eq_tol(1e3 * job->stock.removal.thick_below, cases[i].below, 1e-9);
        ck_assert(job->stock.as_sold
                      ? !job->stock.limit.applies
                      : job->stock.limit.applies && job->stock.limit.verdict != BITE_OVER);
        bite_job_free(job);
    }
}
END_TEST

/* Many large parts on one blank, and a feature of the least depth there is: planned, not refused
 * for what the plan makes of them.
 */
START_TEST(ends_of_what_can_be_planned)
{
    bite_job *job = plan(
        HEAD "[part]\nmaterial = acrylic/cast\nlength = 900 mm\nwidth = 800 mm\nthickness = 5 "
             "mm\ncount = "
             "400\n[hold]\nmethod = tape\n[pass.a]\nwork = slot\ntool = 3mm\ndepth = 1 mm\n" GIVEN);
    ck_assert(job->passes[0].answer->full.bond_area > 9.0);
    bite_job_free(job);
    /* not clear in one pass, and a micrometre is not halved */
    job = plan(HEAD "[job]\ngoal = fast\n[part]\nmaterial = wood\nlength = 40 mm\nwidth = 30 "
                    "mm\nthickness = 27 mm\nfinish = 52 "
                    "um\n[stock]\nfaces = none\n[machine]\nname = bench-24k\n[pass.a]\nwork = "
                    "pocket\ntool = 12mm\ndepth = 1 um\n");
    ck_assert_uint_eq(job->passes[0].passes, 1);
    bite_job_free(job);
}
END_TEST

/* Drills first, which push sideways little: what comes after still counts. */
START_TEST(the_hold_is_judged_by_all_passes)
{
    bite_job *job =
        plan(HEAD ACRYLIC
             "[hold]\nmethod = tape\narea = 20 mm2\n[pass.a]\nwork = drill\ntool = 2mm\n" GIVEN
             "[pass.b]\nwork = cut-free\ntool = 2mm\n" GIVEN);
    double most = 0.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        most = fmax(most, job->passes[i].hold_utilization);
    }
    ck_assert(most > 1.0);
    ck_assert_double_eq(job->hold.utilization, most);
    ck_assert_ptr_nonnull(remark_of(job, "hold", "may let go"));
    ck_assert_uint_eq(job->verdict, BITE_OVER);
    bite_job_free(job);
}
END_TEST

/* ---- the order of work ---- */

static size_t place_of(const bite_job *job, const char *name)
{
    size_t i = 0;
    while (i < job->pass_count && strcmp(job->passes[i].name, name) != 0) {
        i++;
    }
    ck_assert_uint_lt(i, job->pass_count);
    return i;
}

START_TEST(usual_order_and_after)
{
    bite_job *job =
        plan(HEAD ACRYLIC "[pass.free]\nwork = cut-free\ntool = 2mm\n" GIVEN
                          "[pass.wall]\nwork = finish\ntool = "
                          "2mm\nwidth = 0.1 mm\ndepth = 1 mm\n" GIVEN
                          "[pass.pocket]\nwork = pocket\ntool = 2mm\ndepth "
                          "= 1 mm\n" GIVEN "[pass.face]\nwork = face\ntool = 2mm\n" GIVEN);
    ck_assert_uint_eq(place_of(job, "face"), 0);
    ck_assert_uint_eq(place_of(job, "pocket"), 1);
    ck_assert_uint_eq(place_of(job, "wall"), 2);
    ck_assert_uint_eq(place_of(job, "free"), 3);
    ck_assert_uint_eq(job->time.tool_changes, 0);
    bite_job_free(job);
    /* what the job says goes before what is usual: an edge broken once the part is free, a pocket
     * after a finished wall */
    job = plan(HEAD ACRYLIC
               "[pass.free]\nwork = cut-free\ntool = 2mm\n" GIVEN
               "[pass.wall]\nwork = finish\ntool = 2mm\nwidth = 0.1 "
               "mm\ndepth = 1 mm\n" GIVEN
               "[pass.pocket]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\nafter = wall\n" GIVEN
               "[pass.edge]\nwork = chamfer\ntool = 3mm\ndepth = 0.2 mm\nafter = free\n" GIVEN);
    ck_assert_uint_lt(place_of(job, "wall"), place_of(job, "pocket"));
    ck_assert_uint_lt(place_of(job, "pocket"), place_of(job, "free"));
    ck_assert_uint_eq(place_of(job, "edge"), 3);
    bite_job_free(job);
}
END_TEST

START_TEST(circles_are_named)
{
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = c\n[pass.b]\nwork = slot\nafter = "
                         "a\n[pass.c]\nwork = slot\nafter = "
                         "b\n[pass.d]\nwork = slot\nafter = a\n",
            11, "pass.a:after: a, c, b wait for each other in a circle");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = a\n", 11, "waits for itself");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = b\n[pass.b]\nwork = slot\nsetup = 2\n", 11,
            "later setup");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nafter = b\n", 11, "there is no pass b");
}
END_TEST

/* ---- facts of the trade ---- */

/* Common practice, no source: cleaners that craze or dissolve acrylic; soapy water does not. */
START_TEST(cleaners_on_acrylic)
{
    static const char *const bad[] = {"acetone",   "isopropanol",   "ipa",
                                      "degreaser", "glass-cleaner", "lacquer-thinner"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        bite_job *job = plan_of(HEAD ACRYLIC "[fluids]\ncleaner = %s\n" ONE_PASS, bad[i]);
        const bite_remark *remark = remark_of(job, "fluids", "Refused");
        ck_assert_uint_eq(job->fluids[0].rating, BITE_RATED_NO);
        ck_assert_msg(remark != NULL && remark->severity == BITE_CARE && remark->source[0] != 0,
                      "%s", bad[i]);
        ck_assert_uint_eq(job->verdict, BITE_OVER);
        bite_job_free(job);
    }
    bite_job *job =
        plan(HEAD ACRYLIC
             "[fluids]\ncleaner = soapy-water\ncoolant_fluid = air\nmarking = pencil\n" ONE_PASS);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_uint_eq(job->fluids[i].rating, BITE_RATED_SAFE);
    }
    ck_assert_ptr_null(remark_of(job, "fluids", ""));
    bite_job_free(job);
}
END_TEST

static bite_job *cooled(const char *grade, const char *fluid)
{
    return plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 "
                        "mm\n[fluids]\ncoolant_fluid = "
                        "%s\n" ONE_PASS,
                   grade, fluid);
}

/* Common practice, no source: synthetic coolants and ester mist are a risk on stressed acrylic and
 * polycarbonate, harmless on metal. */
START_TEST(coolants_on_plastics_and_metal)
{
    static const char *const plastics[] = {"acrylic/cast", "acrylic/extruded",
                                           "polycarbonate/sheet"};
    static const char *const fluids[] = {"full-synthetic", "mist-lubricant"};
    static const char *const all[] = {"full-synthetic", "mist-lubricant", "acetone", "isopropanol",
                                      "degreaser",      "glass-cleaner",  "naphtha", "soapy-water"};
    for (size_t i = 0; i < 3; i++) {
        for (size_t k = 0; k < 2; k++) {
            bite_job *job = cooled(plastics[i], fluids[k]);
            ck_assert(job->fluids[0].rating == BITE_RATED_RISK ||
                      job->fluids[0].rating == BITE_RATED_NO);
            ck_assert_ptr_nonnull(remark_of(job, "fluids", job->fluids[0].fluid->title));
            bite_job_free(job);
        }
    }
    for (size_t k = 0; k < sizeof all / sizeof *all; k++) {
        bite_job *job = cooled("aluminium/6061-T6", all[k]);
        ck_assert_msg(job->fluids[0].rating == BITE_RATED_SAFE, "%s on aluminium", all[k]);
        ck_assert_ptr_null(remark_of(job, "fluids", ""));
        bite_job_free(job);
    }
}
END_TEST

/* Common practice, no source: glue that comes off with acetone is not for acrylic and
 * polycarbonate; between two tapes it is. */
START_TEST(holds_that_need_a_solvent)
{
    static const char *const grades[] = {"acrylic/cast", "polycarbonate/sheet",
                                         "aluminium/6061-T6"};
    static const char *const holds[] = {"glue", "tape-glue"};
    for (size_t i = 0; i < 3; i++) {
        for (size_t k = 0; k < 2; k++) {
            bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 "
                                         "mm\nthickness = 2 mm\n[hold]\nmethod = "
                                         "%s\n" ONE_PASS,
                                    grades[i], holds[k]);
            uint32_t expected = i < 2 && k == 0;
            ck_assert_uint_eq(job->hold.refused, expected);
            ck_assert(!expected || job->verdict == BITE_OVER);
            ck_assert((remark_of(job, "hold", "acetone, which attacks") != NULL) ==
                      (expected != 0));
            /* acetone burns, though it is in the hold and not among the fluids */
            ck_assert((remark_of(job, "safety", "acetone burns") != NULL) == (k == 0));
            ck_assert_ptr_nonnull(remark_of(job, "safety", "Cyanoacrylate"));
            ck_assert(k == 0 || job->hold.weakest == 0);
            bite_job_free(job);
        }
    }
}
END_TEST

/* Common practice, no source: film winds round the cutter, and so does tape of film; paper tape
 * does not. */
START_TEST(film_and_tape)
{
    static const char own[] =
        "[format]\nkind = holds\nversion = 1\n[hold.film-glue]\ntitle = film tapes\nsort = "
        "bond\nlayers = "
        "film-tape cyanoacrylate film-tape\nsafety = 4\nsafety.source = memory\nglued = yes\n";
    char path[700];
    (void)snprintf(path, sizeof path, "%s/own", shop.root);
    ck_assert_int_eq(mkdir(path, 0755), 0);
    (void)snprintf(path, sizeof path, "%s/own/workholding.ini", shop.root);
    bite_test_write(path, own, strlen(own));
    char both[1300];
    (void)snprintf(both, sizeof both, "%s/own:%s", shop.root, shop.tables);
    bite_library_options options = {sizeof options, NULL, shop.families, both};
    bite_library_close(library);
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    bite_job *film = plan(HEAD ACRYLIC "[stock]\nfilm = on\n[hold]\nmethod = film-glue\n" ONE_PASS);
    bite_job *paper =
        plan(HEAD ACRYLIC "[stock]\nfilm = off\n[hold]\nmethod = tape-glue\n" ONE_PASS);
    ck_assert_ptr_nonnull(remark_of(film, "hold", "winds round the cutter"));
    ck_assert_ptr_null(remark_of(paper, "hold", "winds round the cutter"));
    ck_assert_ptr_nonnull(remark_of(film, "stock", "Protective film is on"));
    ck_assert_ptr_null(remark_of(paper, "stock", "Protective film is on"));
    bite_job_free(film);
    bite_job_free(paper);
}
END_TEST

/* Common practice, no source: a through cut ends inside the tape, not in the skin above it and not
 * in the fixture. */
START_TEST(through_cuts_end_in_the_tape)
{
    static const char *const holds[] = {"tape", "tape-glue"};
    for (size_t i = 0; i < 2; i++) {
        bite_job *job = plan_of(HEAD ACRYLIC "[hold]\nmethod = %s\n" ONE_PASS, holds[i]);
        ck_assert(job->hold.break_through > 0.0 && job->hold.break_through < job->hold.tape);
        ck_assert_ptr_null(remark_of(job, "hold", "cuts through into"));
        bite_job_free(job);
        job = plan_of(HEAD ACRYLIC "[hold]\nmethod = %s\nbreak_through = 0.3 mm\n" ONE_PASS,
                      holds[i]);
        ck_assert_ptr_nonnull(remark_of(job, "hold", "cuts through into"));
        bite_job_free(job);
    }
    bite_job *job = plan(HEAD ACRYLIC "[hold]\nmethod = vacuum\n" ONE_PASS);
    ck_assert(isnan(job->hold.tape));
    ck_assert_ptr_nonnull(remark_of(job, "hold", "needs a board"));
    bite_job_free(job);
}
END_TEST

/* Common practice, no source: alcohol on a laser-cut edge crazes it; soapy water does not, nor
 * alcohol on an edge that was sawn. */
START_TEST(laser_cut_edges)
{
    static const char *const cuts[] = {"laser", "saw"};
    static const char *const cleaners[] = {"isopropanol", "ethanol", "soapy-water"};
    for (size_t i = 0; i < 2; i++) {
        for (size_t k = 0; k < 3; k++) {
            bite_job *job =
                plan_of(HEAD ACRYLIC "[stock]\nparted_by = %s\n[fluids]\ncleaner = %s\n" ONE_PASS,
                        cuts[i], cleaners[k]);
            ck_assert((remark_of(job, "fluids", "laser-cut edge") != NULL) == (i == 0 && k < 2));
            bite_job_free(job);
        }
    }
}
END_TEST

/* A strip of sheet of the same thickness, faced on one side. */
static bite_job *faced(const char *grade)
{
    return plan_of(
        HEAD
        "[part]\nmaterial = acrylic/%s\nlength = 150 mm\nwidth = 60 mm\nthickness = 2.5 "
        "mm\nflatness = 0.5 "
        "mm\n[stock]\nnominal = 4 mm\nthinnest = 3.9 mm\nthickest = 4.1 mm\nfaces = top\n" ONE_PASS,
        grade);
}

/* Common practice, no source: extruded acrylic is under more stress than cast, warps more, and
 * softens sooner. */
START_TEST(extruded_against_cast)
{
    bite_job *cast = faced("cast");
    bite_job *extruded = faced("extruded");
    ck_assert(cast->warp.limit.applies && extruded->warp.limit.applies);
    ck_assert(extruded->warp.limit.demand > 1.5 * cast->warp.limit.demand);
    ck_assert(extruded->warp.coupon > 1.5 * cast->warp.coupon);
    bite_assert_near(extruded->warp.as_planned, extruded->warp.one_sided,
                     1e-12); /* all of it comes off the top */
    ck_assert(extruded->passes[0].answer->full.softening <
              cast->passes[0].answer->full.softening - 5.0);
    ck_assert(extruded->passes[0].answer->result.limits[BITE_LIMIT_SOFTENING].utilization >
              cast->passes[0].answer->result.limits[BITE_LIMIT_SOFTENING].utilization);
    bite_job_free(cast);
    bite_job_free(extruded);
}
END_TEST

/* A pass that is cooled by mist warns of it, though the job as a whole is cooled by air. */
START_TEST(mist_of_one_pass)
{
    bite_job *job = plan(HEAD ACRYLIC "[fluids]\ncoolant = air\n" ONE_PASS);
    ck_assert_ptr_null(remark_of(job, "safety", "Mist of cutting fluid"));
    bite_job_free(job);
    job = plan(HEAD ACRYLIC "[fluids]\ncoolant = air\n" ONE_PASS "coolant = mist\n");
    ck_assert_ptr_nonnull(remark_of(job, "safety", "Mist of cutting fluid"));
    bite_job_free(job);
}
END_TEST

/* A check without a size has no tolerance of the part's. */
START_TEST(checks)
{
    bite_job *job = plan(HEAD ACRYLIC "tolerance = 0.05 mm\n[check.a]\nwhat = "
                                      "crazes\n[check.b]\nnominal = 2 mm\n[check.c]\nnominal = "
                                      "1 mm\ntolerance = 0.2 mm\n" ONE_PASS);
    ck_assert_uint_eq(job->check_count, 3);
    ck_assert(isnan(job->checks[0].tolerance));
    bite_assert_near(job->checks[1].tolerance, 0.05e-3, 1e-12);
    bite_assert_near(job->checks[2].tolerance, 0.2e-3, 1e-12);
    ck_assert_str_eq(job->checks[1].what, "b");
    bite_job_free(job);
}
END_TEST

/* ---- faults of a file ---- */

/* As many faults as lines, one on each. */
static void faults_stand_on(const char *text, const uint32_t *lines, uint32_t expected)
{
    bite_error error = BITE_ERROR_INIT;
    heard *of = faults_of(text, strlen(text), &error);
    for (size_t i = 0; i < expected; i++) {
        size_t hits = 0;
        for (size_t k = 0; k < of->count; k++) {
            hits += of->lines[k] == lines[i];
        }
        ck_assert_msg(hits == 1, "line %u: %zu faults", lines[i], hits);
    }
    ck_assert_msg(of->count == expected, "%u faults", of->count);
    ck_assert_uint_eq(error.faults, expected);
}

START_TEST(ten_faults_are_ten)
{
    static const char text[] = HEAD "[part]\n"
                                    "material = acrilic/cast\n" /* line 5 */
                                    "length = 40\n"
                                    "width = 30 mm\n"
                                    "thickness = 2 mm\n"
                                    "thinnest = 3 mm\n" /* 9 */
                                    "colour = red\n"
                                    "[stock]\n"
                                    "nominal = 1 mm\n" /* 12 */
                                    "[machine]\n"
                                    "name = bench-24x\n" /* 14 */
                                    "[hold]\n"
                                    "method = glu\n" /* 16 */
                                    "[pass.a]\n"
                                    "work = solt\n" /* 18 */
                                    "tool = 99\n"
                                    "depth = 8 mm\n"; /* 20 */
    static const uint32_t lines[] = {5, 6, 9, 10, 12, 14, 16, 18, 19, 20};
    faults_stand_on(text, lines, sizeof lines / sizeof *lines);
}
END_TEST

/* What the bytes tell does not hide what the sense tells, and no fault makes another of itself. */
START_TEST(broken_lines_hide_nothing)
{
    static const char text[] = "x = 1\n" /* line 1: before the first section */
        HEAD "[part]\n"
                               "material = foo\n" /* 6 */
                               "length = 1e999mm\n"
                               "width = 3\n" /* 8 */
                               "Thickness = 2 mm\n"
                               "[pass.a]\n"
                               "work = slit\n" /* 11 */
                               "depth = \"1 mm\n"
                               "[pass.b\n" /* 13: what stands in it is nobody's */
                               "work = foo\n"
                               "after = c\n"
                               "[pass.c]\n"
                               "work = slot\n"
                               "after = b\n" /* may be there */
                               "[pass.c]\n"  /* 19 */
                               "work = slot\n"
                               "foo = 3\n" /* 21 */
                               "tool = 2\xff mm\n";
    static const uint32_t lines[] = {1, 6, 7, 8, 9, 11, 12, 13, 19, 20, 21, 22};
    faults_stand_on(text, lines, sizeof lines / sizeof *lines);
    refused(HEAD "[part\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 "
                 "mm\n" ONE_PASS,
            4, "not closed");
    refused(HEAD "[part]\nmaterial = acrylic/cast\nLENGTH = 40 mm\nwidth = 30 mm\nthickness = 2 "
                 "mm\n" ONE_PASS,
            6, "no key's name");
    refused(HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm ; long\nwidth = 30 mm\nthickness "
                 "= 2 mm\n" ONE_PASS,
            6, "unquoted value");
    refused("length = 40 mm\n" HEAD ACRYLIC ONE_PASS, 1, "before the first section");
    refused("[format]\nkind = \"job\nversion = 1\n" ACRYLIC ONE_PASS, 2, "not closed");
}
END_TEST

START_TEST(one_fault_is_one)
{
    refused(HEAD "[part]\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n" ONE_PASS, 4,
            "does not state material");
    refused(HEAD ONE_PASS, 0, "no part");
    refused(HEAD ACRYLIC "[pass.a]\ndepth = 1 mm\n", 9, "does not state its work");
    refused(HEAD ACRYLIC "[pass.a]\nwork = drill\n", 9, "names no tool");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nentry = sideways\n", 11,
            "outside, plunge, ramp, helix");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nsetup = 1.5\n", 11, "whole numbers");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\ncount = 1.5\n", 11, "whole numbers");
    refused(HEAD ACRYLIC "[stock]\nthinnest = 2.9 mm\n", 10, "a thinnest and a thickest place");
    refused(HEAD ACRYLIC "[stock]\nthickest = 2.9 mm\n", 10, "a thinnest and a thickest place");
    refused(HEAD ACRYLIC "[pass.a]\nwork = pocket\ndepth = 290 mm\n", 11,
            "deeper than the sheet, which is up to");
    refused(HEAD ACRYLIC "[stock]\nnominal = 3 mm\n[pass.a]\nwork = pocket\ndepth = 3.1 mm\n", 13,
            "deeper than the sheet");
    refused(HEAD ACRYLIC "[hold]\nmethod = tabs\ntabs = 50\ntab_width = 3 mm\n", 11,
            "leave nothing to be cut");
    refused(HEAD ACRYLIC "[hold]\nmethod = tabs\ntab_width = 200 mm\n", 11,
            "leave nothing to be cut");
    refused(HEAD ACRYLIC "[hold]\nmethod = vise\nclamp_force = 0 N\n", 11, "1 N");
    refused(HEAD ACRYLIC "[fluids]\ncleaner = acetoen\n", 10, "did you mean acetone");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nspindle = 12000\n", 11, "rpm");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nfeed = 3mm\n", 11, "length");
    refused(HEAD ACRYLIC
            "[pass.a]\nwork = slot\ntool = 2mm\nspindle = 9000rpm\nfeed = 0.01mm/min\n",
            13, "pass.a:feed: feed_rate of 0.01mm/min");
    refused(HEAD ACRYLIC
            "[pass.a]\nwork = slot\ntool = 2mm\nspindle = 300rpm\nfeed = 0.1um/tooth\n",
            13, "pass.a:feed: feed_rate is");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\ntool = 0.01mm\n", 11,
            "no end mill is of such a diameter");
    refused(HEAD ACRYLIC "[hold]\nmethod = vise\nscrews = 4\n" ONE_PASS, 11,
            "is of holding by screws");
    refused(HEAD ACRYLIC "[hold]\nmethod = tape\njaw_depth = 1 mm\n" ONE_PASS, 11,
            "is of holding by jaws");
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\nwidth = 3 mm\n", 11, "a slot has none");
    refused(HEAD ACRYLIC
            "[pass.a]\nwork = pocket\ntool = 20mm\nacross = 10 mm\ndepth = 1 mm\n" GIVEN,
            12, "wider than it is");
    refused(HEAD ACRYLIC
            "[tools]\nat_hand = 6mm\n[pass.a]\nwork = slot\nacross = 3 mm\ndepth = 1 mm\n" GIVEN,
            13, "wider than it is");
    refused(HEAD ACRYLIC "[tools]\nat_hand = 2mm 90mm\n", 10, "no end mill is of such a diameter");
    /* a through cut may end a little below the sheet */
    bite_job_free(plan(HEAD ACRYLIC "[stock]\nnominal = 3 mm\n" ONE_PASS "depth = 3.1 mm\n"));
}
END_TEST

/* What only the engine finds wrong is told of every pass, each on its line. */
START_TEST(passes_that_cannot_be_are_all_told)
{
    static const char text[] =
        HEAD ACRYLIC "[pass.a]\nwork = finish\ntool = 2mm\nwidth = 9 mm\n" GIVEN
                     "[pass.b]\nwork = slot\ntool = 2mm\n" GIVEN
                     "[pass.c]\nwork = finish\ntool = 1mm\nwidth = 8 mm\n" GIVEN;
    bite_error error = BITE_ERROR_INIT;
    heard *of = faults_of(text, sizeof text - 1, &error);
    ck_assert_uint_eq(of->count, 2);
    ck_assert_uint_eq(error.faults, 2);
    ck_assert_uint_eq(of->lines[0], 12);
    ck_assert_uint_eq(of->lines[1], 23); /* where the width stands */
    ck_assert_msg(strstr(of->said[1], "pass.c") != NULL &&
                      strstr(of->said[1], "larger than the tool") != NULL,
                  "%s", of->said[1]);
}
END_TEST

/* ---- hostile files ---- */

START_TEST(files_that_are_no_jobs)
{
    static const unsigned char elf[] = "\177ELF\002\001\001\000\000\000\377\376[part]\nlength = 3";
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options = options_of(0);
    bite_job *job = NULL;
    (void)faults_of("", 0, &error);
    (void)faults_of("\n\n\n", 3, &error);
    (void)faults_of((const char *)elf, sizeof elf - 1, &error);
    (void)faults_of(
        HEAD
        "[part]\nlength = 1e300 mm\nwidth = 1e999999 m\nthickness = -1 mm\nmaterial = acrylic\n",
        87, &error);
    (void)faults_of("[format]\nkind = machines\nversion = 1\n", 37, &error);
    ck_assert_int_eq(
        bite_job_open(library, "/nonexistent/job.ini", &options, NULL, NULL, &job, &error),
        BITE_NOT_FOUND);
    ck_assert_int_eq(bite_job_open(library, shop.root, &options, NULL, NULL, &job, &error),
                     BITE_NOT_FOUND);
    ck_assert_int_eq(bite_job_open(library, "/dev/zero", &options, NULL, NULL, &job, &error),
                     BITE_NOT_FOUND);
    ck_assert_ptr_null(job);
}
END_TEST

START_TEST(bad_calls)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options = options_of(0);
    bite_job *job = NULL;
    ck_assert_int_eq(bite_job_open(NULL, "x", &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_open(library, NULL, &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_open(library, "x", NULL, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_open(library, "x", &options, NULL, NULL, NULL, &error),
                     BITE_BAD_ARGUMENT);
    options.confidence = (double)NAN;
    ck_assert_int_eq(bite_job_open(library, "x", &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    options.confidence = 0.95;
    options.struct_size = 3;
    ck_assert_int_eq(bite_job_open(library, "x", &options, NULL, NULL, &job, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_ptr_null(job);
    ck_assert_int_eq(bite_job_verdict(NULL), BITE_NOT_JUDGED);
    ck_assert_int_eq(bite_job_time_add(NULL, 60.0, &error), BITE_BAD_ARGUMENT);
    bite_job_free(NULL);
    job = plan(HEAD ACRYLIC ONE_PASS);
    ck_assert_int_eq(bite_job_time_add(job, 0.0, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_job_time_add(job, (double)NAN, &error), BITE_BAD_ARGUMENT);
    bite_style style = {(uint32_t)sizeof style, BITE_SVG, BITE_METRIC, 0, 0, 0, 0, 0};
    ck_assert_int_eq(bite_job_write(job, &style, keep, NULL, &error), BITE_BAD_ARGUMENT);
    bite_job_free(job);
}
END_TEST

/* Room for a generated file. */
typedef struct growing {
    char *text;
    size_t size;
    size_t room;
} growing;

__attribute__((format(printf, 2, 3))) static void grow(growing *to, const char *format, ...)
{
    va_list list;
    if (to->room - to->size < 4000) {
        to->room = 2 * to->room + 8000;
        to->text = realloc(to->text, to->room);
        ck_assert_ptr_nonnull(to->text);
    }
    va_start(list, format);
    to->size += (size_t)vsnprintf(to->text + to->size, to->room - to->size, format, list);
    va_end(list);
}

static size_t count_of(const char *text, const char *word)
{
    size_t count = 0;
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word)) {
        count++;
    }
    return count;
}

START_TEST(too_many)
{
    bite_error error = BITE_ERROR_INIT;
    growing passes = {NULL, 0, 0};
    grow(&passes, HEAD ACRYLIC);
    for (int i = 0; i < 300; i++) {
        grow(&passes, "[pass.p%d]\nwork = slot\ntool = 2mm\n", i);
    }
    heard *of = faults_of(passes.text, passes.size, &error);
    ck_assert_uint_eq(of->count, 1);
    ck_assert_uint_eq(of->lines[0], 9 + 3 * BITE_PASSES_MAX);
    ck_assert_ptr_nonnull(strstr(of->said[0], "more passes than a job may have"));
    free(passes.text);
    growing tools = {NULL, 0, 0};
    grow(&tools, HEAD ACRYLIC "[tools]\nat_hand =");
    for (int i = 0; i < 100; i++) {
        grow(&tools, " %d.%dmm", 1 + i / 10, i % 10);
    }
    grow(&tools, "\n");
    of = faults_of(tools.text, tools.size, &error);
    ck_assert_uint_eq(of->count, 1);
    ck_assert_uint_eq(of->lines[0], 10);
    ck_assert_ptr_nonnull(strstr(of->said[0], "more tools than are looked at"));
    free(tools.text);
}
END_TEST

/* The longest line that a table takes is in every title and name: nothing is cut inside a sign,
 * nothing overflows. */
START_TEST(long_and_odd_titles)
{
    char title[960];
    growing job_text = {NULL, 0, 0};
    size_t used = 0;
    for (; used + 40 < sizeof title;) {
        used += (size_t)snprintf(title + used, sizeof title - used, "%s",
                                 "it's <b>&amp;</b> \xc3\xa4\xe2\x82\xac %s%n ");
    }
    (void)snprintf(title + used, sizeof title - used, "the-end");
    grow(&job_text,
         HEAD "[job]\ntitle = \"%s\"\n" ACRYLIC "[hold]\nmethod = tape-glue\narea = 9 mm2\n",
         title);
    grow(&job_text, "[check.a]\nwhat = \"%s\"\n", title);
    grow(&job_text, "with = \"%s\"\n", title);
    grow(&job_text, "note = \"%s\"\n", title);
    grow(&job_text, "[pass.a]\ntitle = \"%s\"\nwork = cut-free\ntool = 2mm\n" GIVEN, title);
    grow(&job_text, "[pass.b]\ntitle = \"%s\"\nwork = pocket\ndepth = 1 mm\n", title);
    bite_job *job = plan(job_text.text);
    json_t *root = json_of(job);
    ck_assert_str_eq(json_string_value(json_object_get(root, "title")), title);
    json_decref(root);
    char *text = write_as(job, BITE_TEXT, 0);
    char *plain = write_as(job, BITE_TEXT, 1);
    ck_assert_ptr_nonnull(remark_of(job, "hold", "may let go"));
    for (const char *at = text; *at != 0; at++) {
        ck_assert((unsigned char)*at >= 0x20 || *at == '\n');
    }
    for (const char *at = plain; *at != 0; at++) {
        ck_assert(((unsigned char)*at >= 0x20 && (unsigned char)*at < 0x7f) || *at == '\n');
    }
    /* none is cut: of the job, of two passes, of what holds them and may let go, of a check's three
     * words */
    ck_assert_uint_ge(count_of(text, "the-end"), 8);
    json_t *whole = json_string(text); /* jansson takes no bytes that are not UTF-8 */
    ck_assert_ptr_nonnull(whole);
    json_decref(whole);
    free(plain);
    free(text);
    bite_job_free(job);
    free(job_text.text);
}
END_TEST

START_TEST(control_characters_do_not_come_in)
{
    static const char *const signs[] = {"\033[31m", "\a", "\x7f", "\302\23331m", "\xc2\x80"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        char text[600];
        (void)snprintf(text, sizeof text, HEAD "[job]\ntitle = red %s\n" ACRYLIC ONE_PASS,
                       signs[i]);
        refused(text, 5, "control character");
    }
    bite_job_free(plan(HEAD "[job]\ntitle = \xc2\xa0gap\n" ACRYLIC
                           ONE_PASS)); /* a blank that does not break is none of them */
}
END_TEST

/* ---- many passes ---- */

static char *many(int passes, int tools)
{
    static const char *const works[] = {"slot", "pocket", "rough", "finish", "contour"};
    growing to = {NULL, 0, 0};
    grow(&to, HEAD "[part]\nmaterial = acrylic/cast\nlength = 200 mm\nwidth = 150 mm\nthickness = "
                   "8 mm\n[machine]\nname = "
                   "bench-24k\n[hold]\nmethod = tape\n");
    for (int i = 0; i < passes; i++) {
        double diameter = 0.5 + 0.1375 * (i % tools);
        grow(&to,
             "[pass.p%d]\nwork = %s\ntool = %.4fmm\ndepth = %.4f mm\nlength = 50 mm\nacross = 20 "
             "mm\n",
             i, works[i % 5], diameter, 0.1 + 0.7 * (i * 37 % passes) / passes * diameter);
        if (i % 5 == 2 || i % 5 == 3) {
            grow(&to, "width = %.4f mm\n", (0.05 + 0.4 * (i * 53 % passes) / passes) * diameter);
        }
        if (i >= 10 && i % 3 == 0) {
            grow(&to, "after = p%d\n", i - 10);
        }
    }
    return to.text;
}

START_TEST(two_hundred_passes_on_forty_tools)
{
    char *text = many(200, 40);
    struct timespec from;
    struct timespec to;
    bite_job_options options = options_of(0);
    (void)clock_gettime(CLOCK_MONOTONIC, &from);
    bite_job *job = plan_with(text, &options);
    (void)clock_gettime(CLOCK_MONOTONIC, &to);
    printf("200 passes on 40 tools: planned in %.2f s\n",
           (double)(to.tv_sec - from.tv_sec) + 1e-9 * (double)(to.tv_nsec - from.tv_nsec));
    ck_assert_uint_eq(job->pass_count, 200);
    ck_assert_uint_eq(job->tool_count, 40);
    for (int i = 12; i < 200; i += 3) {
        char first[10];
        char then[20];
        (void)snprintf(first, sizeof first, "p%d", i - 10);
        (void)snprintf(then, sizeof then, "p%d", i);
        ck_assert_uint_lt(place_of(job, first), place_of(job, then));
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        ck_assert_uint_eq(job->passes[i].answer->result.draws, 256);
        ck_assert_uint_ge(job->passes[i].answer->result.verdict, BITE_CLEAR);
    }
    check_plan(job);
    bite_job_free(job);
    free(text);
}
END_TEST

/* However many remarks the passes make, the dangers are among them. */
START_TEST(no_remark_is_cut_off)
{
    growing to = {NULL, 0, 0};
    grow(&to, HEAD ACRYLIC "[tools]\nat_hand = 6mm\n[fluids]\ncleaner = acetone\n");
    for (int i = 0; i < 256; i++) {
        grow(&to,
             "[pass.p%d]\ntitle = pocket %d\nwork = pocket\ninside_radius = 0.5 mm\nacross = 9 "
             "mm\ndepth = %d um\n" GIVEN,
             i, i, 10 + i);
    }
    bite_job *job = plan(to.text);
    ck_assert_uint_gt(job->remark_count, 257); /* none of the tools at hand fits, 256 times */
    ck_assert_ptr_nonnull(remark_of(job, "safety", "acetone burns"));
    ck_assert_ptr_nonnull(remark_of(job, "safety", "manual"));
    bite_job_free(job);
    free(to.text);
}
END_TEST

/* ---- units, threads, locales ---- */

static void same_number(double a, double b)
{
    ck_assert_msg((isnan(a) && isnan(b)) || fabs(a - b) <= 1e-7 * fmax(fabs(a), fabs(b)),
                  "%.12g and %.12g", a, b);
}

static void same_plan(const bite_job *a, const bite_job *b)
{
    ck_assert_uint_eq(a->pass_count, b->pass_count);
    ck_assert_uint_eq(a->verdict, b->verdict);
    for (size_t i = 0; i < a->pass_count; i++) {
        ck_assert_str_eq(a->passes[i].name, b->passes[i].name);
        ck_assert_uint_eq(a->passes[i].passes, b->passes[i].passes);
        same_number(a->passes[i].answer->full.spindle_speed,
                    b->passes[i].answer->full.spindle_speed);
        same_number(a->passes[i].answer->full.feed_rate, b->passes[i].answer->full.feed_rate);
        same_number(a->passes[i].answer->full.depth, b->passes[i].answer->full.depth);
        same_number(a->passes[i].seconds, b->passes[i].seconds);
        same_number(a->passes[i].hold_utilization, b->passes[i].hold_utilization);
    }
    same_number(a->stock.nominal, b->stock.nominal);
    same_number(a->stock.layout.length, b->stock.layout.length);
    same_number(a->warp.one_sided, b->warp.one_sided);
    same_number(a->time.whole, b->time.whole);
}

#define BOTH_UNITS(length, width, thick, hole, deep)                                               \
    HEAD "[job]\nunits = %s\n[part]\nmaterial = acrylic/cast\nlength = " length "\nwidth = " width \
         "\nthickness = " thick                                                                    \
         "\ncount = 3\n[hold]\nmethod = tape\n[pass.a]\nwork = pocket\ntool = " hole               \
         "\ndepth = " deep "\n[pass.b]\nwork = cut-free\ntool = " hole "\n"

START_TEST(inches_and_millimetres)
{
    bite_job_options options = options_of(BITE_DRAWS_NONE);
    char text[1000];
    (void)snprintf(text, sizeof text,
                   BOTH_UNITS("50.8 mm", "25.4 mm", "2.54 mm", "3.175mm", "1.27 mm"), "metric");
    bite_job *metric = plan(text);
    (void)snprintf(text, sizeof text, BOTH_UNITS("2 in", "1 in", "0.1 in", "1/8in", "0.05 in"),
                   "inch");
    bite_job *inch = plan(text);
    ck_assert_uint_eq(inch->units, BITE_INCH);
    options.units_given = 1; /* the caller's word goes before the file's */
    bite_job *as_metric = plan_with(text, &options);
    ck_assert_uint_eq(as_metric->units, BITE_METRIC);
    same_plan(metric, as_metric);
    char *shown = write_as(inch, BITE_TEXT, 0);
    ck_assert_ptr_nonnull(strstr(shown, "2 in x 1 in x 0.1 in"));
    ck_assert_msg(strstr(shown, " mm ") == NULL && strstr(shown, "mm/min") == NULL &&
                      strstr(shown, " um") == NULL,
                  "%s", shown);
    free(shown);
    bite_job_free(metric);
    bite_job_free(inch);
    bite_job_free(as_metric);
}
END_TEST

/* Threads change nothing; nor does a host that has set its own locale, whose numbers have a comma.
 */
START_TEST(threads_and_locales_change_nothing)
{
    static const char text[] = HEAD ACRYLIC
        "count = 2\n[hold]\nmethod = tape-glue\n[pass.a]\nwork = pocket\ndepth = 1.25 mm\n"
        "[pass.b]\nwork = cut-free\n";
    bite_job_options options = options_of(512);
    options.threads = 1;
    bite_job *one = plan_with(text, &options);
    char *first = write_as(one, BITE_TEXT, 0);
    char *first_json = write_as(one, BITE_JSON, 0);
    options.threads = 8;
    (void)setlocale(LC_ALL, "de_DE.UTF-8");
    bite_job *many_threads = plan_with(text, &options);
    char *second = write_as(many_threads, BITE_TEXT, 0);
    char *second_json = write_as(many_threads, BITE_JSON, 0);
    (void)setlocale(LC_ALL, "C");
    ck_assert_str_eq(first, second);
    ck_assert_str_eq(first_json, second_json);
    free(first);
    free(second);
    free(first_json);
    free(second_json);
    bite_job_free(one);
    bite_job_free(many_threads);
}
END_TEST

/* ---- a shop's own times ---- */

static void times_path(char *path, size_t size)
{
    (void)snprintf(path, size, "%s/data/coolbite/tables/times.ini", shop.root);
}

static char *read_times(void)
{
    char path[800];
    times_path(path, sizeof path);
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s", path);
    char *text = calloc(1, 100000);
    ck_assert_ptr_nonnull(text);
    (void)fread(text, 1, 99999, file);
    (void)fclose(file);
    return text;
}

static void reopen(void)
{
    bite_library_close(library);
    library = bite_test_shop_open(&shop, NULL);
}

static bite_job *job_of(const char *title, int count)
{
    return plan_of(HEAD "[job]\ntitle = %s\n" ACRYLIC
                        "count = %d\n[hold]\nmethod = tape\n" ONE_PASS,
                   title, count);
}

static void took(const char *title, int count, double ratio, double more)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job *job = job_of(title, count);
    ck_assert_msg(bite_job_time_add(job, ratio * job->time.whole + more, &error) == BITE_OK,
                  "%s: %s", error.file, error.message);
    bite_job_free(job);
    reopen();
}

START_TEST(times_correct_the_plan)
{
    bite_job *job = job_of("Plan, of four", 4);
    ck_assert(isnan(job->time.corrected) && job->time.records == 0);
    bite_job_free(job);
    took("First job", 1, 1.5, 0.0); /* one or two: by their mean ratio */
    job = job_of("Plan, of four", 4);
    bite_assert_near(job->time.corrected, 1.5 * job->time.whole, 1e-5);
    bite_job_free(job);
    took("Second job", 1, 2.5, 0.0);
    job = job_of("Plan, of four", 4);
    bite_assert_near(job->time.corrected, 2.0 * job->time.whole, 1e-5);
    bite_job_free(job);
    took("Third", 1, 2.0, 0.0); /* three of one length tell no line: by the ratio still */
    job = job_of("Plan, of four", 4);
    bite_assert_near(job->time.corrected, 2.0 * job->time.whole, 1e-5);
    bite_job_free(job);
    took("First job", 1, 1.25, 300.0); /* again: in place of the first */
    took("Second job", 9, 1.25, 300.0);
    took("Third", 40, 1.25, 300.0);
    char *text = read_times();
    ck_assert_uint_eq(count_of(text, "[time."), 3);
    ck_assert_uint_eq(count_of(text, "[time.first-job]"), 1);
    free(text);
    job = job_of("Plan, of four", 4); /* all on one line: least squares finds it */
    ck_assert_uint_eq(job->time.records, 3);
    bite_assert_near(job->time.corrected, 1.25 * job->time.whole + 300.0, 1e-5);
    char *shown = write_as(job, BITE_TEXT, 0);
    ck_assert_ptr_nonnull(strstr(shown, "by 3 of this shop's own times"));
    free(shown);
    bite_job_free(job);
}
END_TEST

/* Titles that a section's name does not hold stay apart: of other letters, or alike in their first
 * sixty. */
START_TEST(titles_stay_apart)
{
    static const char *const titles[] = {
        "\xd0\x9b\xd0\xb8\xd0\xbd\xd0\xb7\xd0\xb0",
        "\xd0\x9e\xd0\xba\xd0\xbd\xd0\xbe",
        "a very long title of a job that goes on and on and on, first half",
        "a very long title of a job that goes on and on and on, second half",
        "!",
        "Plain"};
    for (size_t i = 0; i < 6; i++) {
        took(titles[i], 1, 1.0 + (double)i, 0.0);
    }
    took(titles[0], 1, 3.0, 0.0);
    char *text = read_times();
    ck_assert_msg(count_of(text, "[time.") == 6, "%s", text);
    ck_assert_uint_eq(count_of(text, "[time.job]"), 1);
    ck_assert_uint_eq(count_of(text, "[time.plain]"), 1);
    free(text);
    bite_job *job = job_of("x", 1);
    ck_assert_uint_eq(job->time.records, 6);
    bite_job_free(job);
}
END_TEST

/* The table as it is when a time is added: what another program has put there since, and what this
 * one could not read. */
START_TEST(other_records_are_kept)
{
    static const char other[] = "[format]\nkind = times\nversion = 1\n[time.other]\nplanned = 100 "
                                "s\nplanned.source = memory\ntook = 130 "
                                "s\ntook.source = memory\n";
    char path[800];
    bite_error error = BITE_ERROR_INIT;
    took("Mine", 1, 1.5, 0.0);
    bite_job *job = job_of("Mine too", 1);
    times_path(path, sizeof path);
    bite_test_write(path, other, sizeof other - 1);
    ck_assert_int_eq(bite_job_time_add(job, 500.0, &error), BITE_OK);
    char *text = read_times();
    ck_assert_uint_eq(count_of(text, "[time.other]") + count_of(text, "[time.mine-too]"), 2);
    ck_assert_ptr_nonnull(strstr(text, "took = 130 s"));
    free(text);
    bite_test_write(path, "[format\nkind = times\n", 21);
    ck_assert_int_eq(bite_job_time_add(job, 500.0, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.file, path);
    text = read_times();
    ck_assert_str_eq(
        text,
        "[format\nkind = times\n"); /* someone's hand has been in it: not ours to throw away */
    free(text);
    bite_job_free(job);
}
END_TEST

static bite_status took_on_a_full_disk(const bite_job *job, size_t capacity)
{
    pid_t child = fork();
    if (child == 0) {
        struct rlimit limit = {capacity, capacity};
        (void)signal(SIGXFSZ, SIG_IGN);
        _exit(setrlimit(RLIMIT_FSIZE, &limit) != 0 ? 99 : (int)bite_job_time_add(job, 900.0, NULL));
    }
    int status = -1;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    return (bite_status)WEXITSTATUS(status);
}

START_TEST(a_time_that_cannot_be_written)
{
    char path[800];
    char folder[700];
    bite_error error = BITE_ERROR_INIT;
    took("Old", 1, 1.5, 0.0);
    char *before = read_times();
    bite_job *job = job_of("New", 1);
    /* room for the old table, not for the new one */
    ck_assert_int_eq(took_on_a_full_disk(job, strlen(before) + 40), BITE_CANNOT_WRITE);
    char *after = read_times();
    ck_assert_str_eq(before, after);
    free(after);
    (void)snprintf(folder, sizeof folder, "%s/data/coolbite/tables", shop.root);
    DIR *list = opendir(folder);
    ck_assert_ptr_nonnull(list);
    size_t files = 0;
    for (struct dirent *entry = readdir(list); entry != NULL; entry = readdir(list)) {
        files += entry->d_name[0] != '.';
    }
    (void)closedir(list);
    ck_assert_uint_eq(files, 1); /* nothing half-written lies beside it */
    if (geteuid() != 0) {        /* root writes everywhere */
        ck_assert_int_eq(chmod(folder, 0555), 0);
        ck_assert_int_eq(bite_job_time_add(job, 900.0, &error), BITE_CANNOT_WRITE);
        ck_assert_int_eq(chmod(folder, 0755), 0);
        after = read_times();
        ck_assert_str_eq(before, after);
        free(after);
    }
    /* a file stands where a folder should */
    (void)snprintf(path, sizeof path, "%s/data2", shop.root);
    bite_test_write(path, "x", 1);
    ck_assert_int_eq(setenv("XDG_DATA_HOME", path, 1), 0);
    ck_assert_int_eq(bite_job_time_add(job, 900.0, &error), BITE_CANNOT_WRITE);
    ck_assert_ptr_nonnull(strstr(error.file, "data2"));
    free(before);
    bite_job_free(job);
}
END_TEST

/* ---- no memory, no room ---- */

START_TEST(refusing_sinks)
{
    bite_job *job = plan(HEAD ACRYLIC "[hold]\nmethod = tape-glue\n" ONE_PASS);
    for (uint32_t format = BITE_TEXT; format <= BITE_JSON; format++) {
        bite_style style = {(uint32_t)sizeof style, format, BITE_METRIC, 0, 0, 0, 0, 0};
        char *all = write_as(job, format, 0);
        size_t size = strlen(all);
        for (size_t most = 0; most < size; most += 1 + size / 50) {
            kept to = {NULL, 0, most, 0};
            bite_error error = BITE_ERROR_INIT;
            ck_assert_int_eq(bite_job_write(job, &style, keep, &to, &error), BITE_CANNOT_WRITE);
            ck_assert_uint_gt(strlen(error.message), 5);
            ck_assert(to.size == 0 || memcmp(to.text, all, to.size) == 0);
            free(to.text);
        }
        free(all);
    }
    bite_job_free(job);
}
END_TEST

/* The n-th call fails and all after it, for every n: said so, nothing handed out, nothing held. */
static void fail_at_every_call(const char *text, uint32_t threads, size_t least)
{
    bite_test_memory memory = {0, 0, 0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library *of = bite_test_shop_open(&shop, &allocator);
    bite_job_options options = options_of(BITE_DRAWS_NONE);
    bite_job *job = NULL;
    bite_error error = BITE_ERROR_INIT;
    options.threads = threads;
    /* the library reads what it needs once: it keeps that */
    ck_assert_int_eq(
        bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error),
        BITE_OK);
    bite_job_free(job);
    size_t held = memory.held;
    bite_status status = BITE_NO_MEMORY;
    size_t n = 0;
    while (status != BITE_OK) {
        memory.calls = 0;
        memory.fail_at = ++n;
        job = NULL;
        status =
            bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error);
        ck_assert_msg(status == BITE_OK || status == BITE_NO_MEMORY, "call %zu: %s: %s", n,
                      bite_status_name(status), error.message);
        ck_assert((status == BITE_OK) == (job != NULL));
        if (job != NULL) {
            memory.calls = 0;
            memory.fail_at = 1;
            ck_assert_int_eq(bite_job_time_add(job, 100.0, &error), BITE_NO_MEMORY);
            bite_job_free(job);
        }
        ck_assert_msg(memory.held == held, "call %zu: %zu bytes are held", n, memory.held - held);
        ck_assert_uint_lt(n, 20000);
    }
    ck_assert_uint_gt(n, least);
    memory.fail_at = 0;
    bite_library_close(of);
    ck_assert_uint_eq(memory.held, 0);
}

START_TEST(without_memory)
{
    fail_at_every_call(HEAD ACRYLIC "[tools]\nat_hand = 2mm 3mm\n[hold]\nmethod = "
                                    "tape-glue\n[fluids]\ncleaner = ipa\n[pass.a]\nwork = "
                                    "drill\ntool = 2mm\n" GIVEN "[pass.b]\nwork = cut-free\n" GIVEN,
                       1, 15);
}
END_TEST

START_TEST(without_memory_while_choosing)
{
    fail_at_every_call(HEAD ACRYLIC
                       "[pass.b]\nwork = slot\ntool = 2mm\ndepth = 0.5 mm\npass_depth = 0.5 mm\n",
                       1, 15);
}
END_TEST

/* The first plan of a library, that reads the tables too. */
START_TEST(without_memory_from_the_start)
{
    static const char text[] =
        HEAD ACRYLIC "[hold]\nmethod = tape-glue\n[fluids]\ncleaner = ipa\n" ONE_PASS;
    bite_status status = BITE_NO_MEMORY;
    for (size_t n = 1; status != BITE_OK; n += n < 60 ? 1 : 7) {
        bite_test_memory memory = {0, 0, 0};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library *of = bite_test_shop_open(&shop, &allocator);
        bite_job_options options = options_of(BITE_DRAWS_NONE);
        bite_error error = BITE_ERROR_INIT;
        bite_job *job = NULL;
        options.threads = 1;
        memory.calls = 0;
        memory.fail_at = n;
        status =
            bite_job_parse(of, "job.ini", text, strlen(text), &options, NULL, NULL, &job, &error);
        ck_assert_msg(status == BITE_OK || status == BITE_NO_MEMORY, "call %zu: %s: %s %s", n,
                      bite_status_name(status), error.key, error.message);
        bite_job_free(job);
        bite_library_close(of);
        ck_assert_msg(memory.held == 0, "call %zu: %zu bytes are held", n, memory.held);
        ck_assert_uint_lt(n, 20000);
    }
}
END_TEST

/* A job is judged by the joint chance of its passes: from the same draws, so that many alike are
 * hardly worse than one, and never better than the worst; many different ones that are each clear
 * may be tight together. */
START_TEST(passes_are_judged_together)
{
    bite_job_options options = options_of(512);
    char text[4000] = HEAD ACRYLIC;
    double worst = 0.0;
    for (int i = 0; i < 6; i++) {
        size_t used = strlen(text);
        (void)snprintf(text + used, sizeof text - used,
                       "[pass.p%d]\nwork = slot\ntool = 2mm\ndepth = 0.4 mm\nspindle = %drpm\nfeed "
                       "= 300mm/min\n",
                       i, i < 3 ? 14000 : 9000 + 2000 * i);
    }
    bite_job *job = plan_with(text, &options);
    double apart = 1.0;
    for (size_t i = 0; i < job->pass_count; i++) {
        worst = fmax(worst, job->passes[i].answer->result.chance);
        apart *= 1.0 - job->passes[i].answer->result.chance;
    }
    ck_assert_double_gt(worst, 0.0);
    ck_assert_double_ge(job->chance, worst);
    ck_assert_double_lt(job->chance, 1.0 - apart); /* they share what is uncertain */
    ck_assert_uint_eq(job->verdict, job->chance > 0.5     ? BITE_OVER
                                    : job->chance >= 0.05 ? BITE_TIGHT
                                                          : BITE_CLEAR);
    bite_job_free(job);
}
END_TEST

/* What no pass faces stays as it came; what goes through goes through the thick end, into the tape;
 * a pocket bows the part. */
START_TEST(what_is_not_faced_is_cut_through)
{
    bite_job *job = plan(
        HEAD ACRYLIC
        "flatness = 0.2 mm\n[hold]\nmethod = tape\n[pass.hole]\nwork = drill\ntool = 2mm\n" GIVEN
        "[pass.web]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\n" GIVEN
        "[pass.free]\nwork = cut-free\ntool = "
        "2mm\n" GIVEN);
    ck_assert_double_eq(job->stock.skim, 0.0);
    ck_assert_double_gt(job->stock.thick, job->thickness);
    for (size_t i = 0; i < job->pass_count; i++) {
        double point = job->passes[i].work == BITE_WORK_DRILL ? 1e-3 / tan(59.0 * M_PI / 180.0)
                                                              : 0.0; /* of a drill of 2 mm */
        if (job->passes[i].work != BITE_WORK_POCKET) {
            bite_assert_near(job->passes[i].depth,
                             job->stock.thick + job->hold.break_through + point, 1e-12);
        }
    }
    ck_assert_double_gt(job->warp.as_planned, 0.0);
    ck_assert_double_gt(job->warp.limit.demand, 0.0);
    bite_job_free(job);
}
END_TEST

/* One name may stand for a drill, a cone and an end mill: three tools to set out, and changes
 * between them. */
START_TEST(one_name_three_tools)
{
    bite_job *job =
        plan(HEAD ACRYLIC "[pass.a]\nwork = drill\ntool = 3mm\n" GIVEN
                          "[pass.b]\nwork = chamfer\ntool = 3mm\ndepth = "
                          "0.2 mm\n" GIVEN "[pass.c]\nwork = cut-free\ntool = 3mm\n" GIVEN);
    ck_assert_uint_eq(job->tool_count, 3);
    ck_assert_uint_eq(job->time.tool_changes, 2);
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_tool *tool = &job->tools[job->passes[i].tool];
        bite_assert_near(tool->stickout, job->passes[i].answer->full.stickout,
                         1e-12); /* the sheet's is the one that was judged */
    }
    bite_job_free(job);
}
END_TEST

/* What is faced in one setup is skimmed on one face; a sheet that is not faced must be of the
 * part's thickness. */
START_TEST(faces_and_thickness)
{
    bite_job *one = plan(HEAD ACRYLIC "[pass.a]\nwork = face\ntool = 6mm\n" GIVEN);
    bite_job *second = plan(HEAD ACRYLIC "[pass.a]\nwork = face\nsetup = 2\ntool = 6mm\n" GIVEN
                                         "[pass.b]\nwork = slot\ntool = 2mm\ndepth = 1 mm\n" GIVEN);
    bite_job *off =
        plan(HEAD ACRYLIC
             "tolerance = 0.05 mm\n[stock]\nthinnest = 2.4 mm\nthickest = 2.6 mm\n" ONE_PASS);
    bite_job *on =
        plan(HEAD ACRYLIC
             "tolerance = 0.05 mm\n[stock]\nthinnest = 1.97 mm\nthickest = 2.03 mm\n" ONE_PASS);
    ck_assert_double_eq(one->stock.removal.thick_below, 0.0);
    bite_assert_near(one->stock.removal.thick_top, one->stock.thick - one->thickness, 1e-12);
    ck_assert_double_eq(second->stock.removal.thick_top, 0.0);
    bite_assert_near(second->stock.removal.thick_below, second->stock.thick - second->thickness,
                     1e-12);
    ck_assert_uint_eq(off->verdict, BITE_OVER);
    ck_assert_uint_eq(on->stock.off_size, 0);
    /* as it is sold: the nearest sheet, not the next one whose thinnest place would do */
    bite_job *sold = plan(HEAD ACRYLIC "tolerance = 0.05 mm\n" ONE_PASS);
    bite_assert_near(sold->stock.nominal, 2e-3, 1e-12);
    ck_assert_uint_eq(sold->stock.off_size, 1);
    ck_assert(!sold->stock.limit.applies);
    bite_job_free(sold);
    bite_job_free(one);
    bite_job_free(second);
    bite_job_free(off);
    bite_job_free(on);
}
END_TEST

/* Where the table has chamfer mills, chamfers get one and nothing else does; where the shop has
 * none, any tool stands for its cone.
 */
START_TEST(chamfers_get_cones)
{
    bite_job *any = plan(HEAD ACRYLIC "[pass.a]\nwork = slot\n" GIVEN
                                      "[pass.b]\nwork = chamfer\ndepth = 0.2 mm\n" GIVEN);
    bite_job *own = plan(HEAD ACRYLIC "[tools]\nat_hand = 2mm 3mm\n[pass.a]\nwork = slot\n" GIVEN
                                      "[pass.b]\nwork = chamfer\ndepth = 0.2 mm\n" GIVEN);
    for (size_t i = 0; i < any->pass_count; i++) {
        int cone = strncmp(any->tools[any->passes[i].tool].name, "cm-", 3) == 0;
        ck_assert_int_eq(cone, any->passes[i].work == BITE_WORK_CHAMFER);
    }
    ck_assert_uint_eq(own->pass_count, 2);
    bite_job_free(any);
    bite_job_free(own);
    refused(HEAD ACRYLIC "[pass.a]\nwork = slot\ntool = cm-6-90\n" GIVEN, 11,
            "cuts chamfers only");
}
END_TEST

/* By hand: a drill of 4 mm has a point of 2/tan 59 degrees = 1.2017 mm. The part is 2 mm thick. */
START_TEST(a_drill_has_a_point)
{
    static const struct {
        const char *depth;
        double to; /* mm; below 0: below the lowest face */
        const char *says;
    } holes[] = {
        {"depth = 0.5 mm\n", 1.7017, ""},
        {"depth = 1 mm\n", 2.2017, "comes through the other face, by 0.20172 mm"},
        {"depth = 2 mm\n", 3.2017, "goes 1.2017 mm below the part"},
        {"depth = 3.5 mm\n", 4.7017, "goes 2.7017 mm below the part"},
        {"", -1.2717,
         "goes 1.2717 mm below the part"}, /* half of a tape of 0.14 mm, and the point */
    };
    for (size_t i = 0; i < sizeof holes / sizeof *holes; i++) {
        bite_job *job = plan_of(HEAD ACRYLIC "[hold]\nmethod = tape-glue\n[pass.a]\ntitle = "
                                             "hole\nwork = drill\ntool = 4mm\n%s" GIVEN,
                                holes[i].depth);
        double depth = 1e3 * job->passes[0].depth;
        bite_assert_near(holes[i].to > 0.0 ? depth : 1e3 * job->stock.thick - depth, holes[i].to,
                         1e-4);
        ck_assert_int_eq(remark_of(job, "passes", "point") != NULL, holes[i].says[0] != 0);
        ck_assert_msg(holes[i].says[0] == 0 || remark_of(job, "passes", holes[i].says) != NULL,
                      "%s", holes[i].says);
        bite_job_free(job);
    }
}
END_TEST

/* Friction matters to a vacuum plate, stickiness does not; holes for screws come first. */
START_TEST(holds_by_their_kind)
{
    bite_job *nylon = plan(HEAD "[part]\nmaterial = nylon/6\nlength = 40 mm\nwidth = 30 "
                                "mm\nthickness = 2 mm\n[hold]\nmethod = vacuum\n" ONE_PASS);
    bite_job *ptfe = plan(HEAD "[part]\nmaterial = ptfe\nlength = 40 mm\nwidth = 30 mm\nthickness "
                               "= 2 mm\n[hold]\nmethod = vacuum\n" ONE_PASS);
    bite_job *screws =
        plan(HEAD ACRYLIC
             "[hold]\nmethod = screws\n[pass.a]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\n" GIVEN
             "[pass.b]\nwork = drill\ntool = 3mm\n" GIVEN);
    ck_assert_double_eq(nylon->hold.shear, ptfe->hold.shear);
    ck_assert_uint_eq(screws->passes[0].work, BITE_WORK_DRILL);
    bite_job_free(nylon);
    bite_job_free(ptfe);
    bite_job_free(screws);
}
END_TEST

#define FREE                                                                                       \
    "[pass.a]\nwork = pocket\ntool = 2mm\ndepth = 1 mm\n" GIVEN                                    \
    "[pass.b]\nwork = cut-free\ntool = 2mm\n" GIVEN

static bite_job *clamped(const char *hold)
{
    return plan_of(HEAD ACRYLIC "[hold]\n%s\n" FREE, hold);
}

/* Jaws, screws and tabs are judged by every pass's forces; each tells what it needs and what goes
 * first. */
START_TEST(clamps_are_judged)
{
    bite_job *soft = clamped("method = vise\nclamp_force = 20 N");
    bite_job *firm = clamped("method = vise\nclamp_force = 200 N");
    bite_job *bent = clamped("method = vise\nclamp_force = 20 kN");
    ck_assert_str_eq(bent->hold.failure_mode, "buckle");
    ck_assert_uint_eq(bent->verdict, BITE_OVER);
    ck_assert_ptr_nonnull(remark_of(bent, "hold", "buckles at"));
    ck_assert_ptr_nonnull(remark_of(soft, "hold", "held by nothing at the end"));
    ck_assert_ptr_nonnull(remark_of(soft, "hold", "may let go"));
    bite_assert_near(soft->passes[0].hold_utilization, 10.0 * firm->passes[0].hold_utilization,
                     1e-9);
    bite_assert_near(soft->hold.needs, soft->hold.utilization * 20.0, 1e-9);
    bite_job_free(soft);
    bite_job_free(firm);
    bite_job_free(bent);

    bite_job *deep =
        plan(HEAD ACRYLIC
             "[stock]\nthinnest = 2 mm\nthickest = 2 mm\n[hold]\nmethod = vise\njaw_depth = 1.5 "
             "mm\n[pass.a]\nwork = contour\ntool = 2mm\ndepth = 1.8 "
             "mm\n" GIVEN);
    ck_assert_ptr_nonnull(remark_of(deep, "hold", "the cutter meets them"));
    ck_assert_uint_eq(deep->verdict, BITE_OVER);
    bite_job_free(deep);
    bite_job *usual = clamped("method = screws\nfriction = 0.02");
    bite_job *more =
        clamped("method = screws\nscrews = 6\nscrew = 4 mm\ntorque = 0.5 Nm\nfriction = 0.02");
    bite_job *hard =
        clamped("method = screws\nscrews = 6\nscrew = 4 mm\nengaged = 12 mm\nclamp_force = 30 kN");
    bite_assert_near(usual->hold.force, 0.5 / (0.2 * 4e-3), 1e-9);
    bite_assert_near(usual->passes[0].hold_utilization / more->passes[0].hold_utilization, 3.0,
                     0.1); /* lift takes a little off both */
    ck_assert_str_eq(hard->hold.failure_mode, "stretch");
    ck_assert_uint_eq(hard->verdict, BITE_OVER);
    bite_job_free(usual);
    bite_job_free(more);
    bite_job_free(hard);

    bite_job *tabs = clamped("method = tabs\ntabs = 4\ntab_width = 6 mm\ntab_height = 1.5 mm");
    bite_job *thin = clamped("method = tabs\ntabs = 4\ntab_width = 6 mm\ntab_height = 0.05 mm");
    for (size_t i = 0; i < tabs->pass_count;
         i++) { /* a part that stands in its sheet needs no tabs */
        ck_assert_int_eq(!isnan(tabs->passes[i].hold_utilization),
                         tabs->passes[i].work == BITE_WORK_FREE);
    }
    ck_assert_double_lt(tabs->hold.utilization, 1.0);
    ck_assert_ptr_null(remark_of(tabs, "hold", "may let go"));
    ck_assert_ptr_nonnull(remark_of(tabs, "hold", "Leave 4 tabs of 6 mm by 1.5 mm"));
    ck_assert_double_gt(thin->hold.utilization, thin->hold.safety);
    ck_assert_uint_eq(thin->verdict, BITE_OVER);
    ck_assert_str_eq(thin->hold.failure_mode, "break");
    bite_job_free(tabs);
    bite_job_free(thin);
}
END_TEST

/* Common practice, no source: water and magnesium chips make hydrogen; what dissolves oil dissolves
 * wax. */
START_TEST(more_facts_of_fluids)
{
    static const char *const refused[][2] = {{"magnesium", "water"},
                                             {"magnesium", "emulsion"},
                                             {"wax", "naphtha"},
                                             {"wax", "mineral-oil"}};
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        bite_job *job = plan_of(HEAD "[part]\nmaterial = %s\nlength = 40 mm\nwidth = 30 "
                                     "mm\nthickness = 2 mm\n[fluids]\ncleaner = %s\n" ONE_PASS,
                                refused[i][0], refused[i][1]);
        ck_assert_uint_eq(job->fluids[0].rating, BITE_RATED_NO);
        ck_assert_uint_eq(job->verdict, BITE_OVER);
        bite_job_free(job);
    }
}
END_TEST

/* Sizes that cannot be are faults of the file, each with its key. */
START_TEST(sizes_that_cannot_be)
{
    static const struct {
        const char *pass;
        const char *key;
    } cases[] = {{"work = chamfer\ntool = 3mm\n", "pass.a:depth"},
                 {"work = pocket\ntool = 2mm\ndepth = 1 mm\nlength = 900 mm\n", "pass.a:length"},
                 {"work = bore\ntool = 2mm\nacross = 90 mm\n", "pass.a:across"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_job_options options = options_of(BITE_DRAWS_NONE);
        bite_error error = BITE_ERROR_INIT;
        bite_job *job = NULL;
        char text[1000];
        (void)snprintf(text, sizeof text, HEAD ACRYLIC "[pass.a]\n%s", cases[i].pass);
        ck_assert_int_eq(bite_job_parse(library, "job.ini", text, strlen(text), &options, NULL,
                                        NULL, &job, &error),
                         BITE_BAD_FILE);
        ck_assert_str_eq(error.key, cases[i].key);
        ck_assert_uint_eq(error.faults, 1);
    }
}
END_TEST

START_TEST(sheets_and_gaps_are_minded)
{
    bite_job *laser = plan(HEAD "[part]\nmaterial = polycarbonate\nlength = 40 mm\nwidth = 30 "
                                "mm\nthickness = 2 mm\n[stock]\nparted_by = "
                                "laser\n" ONE_PASS);
    bite_job *unknown = plan(HEAD "[part]\nmaterial = wood/mdf\nlength = 40 mm\nwidth = 30 "
                                  "mm\nthickness = 2 mm\n[stock]\nparted_by = "
                                  "saw\n" ONE_PASS);
    bite_job *narrow = plan(HEAD ACRYLIC "count = 4\n[stock]\ngap = 0.5 mm\n" ONE_PASS);
    bite_job *wide = plan(HEAD ACRYLIC "count = 4\n[stock]\ngap = 2.5 mm\n" ONE_PASS);
    ck_assert_uint_eq(remark_of(laser, "stock", "Do not")->severity, BITE_DANGER);
    ck_assert_ptr_nonnull(remark_of(unknown, "stock", "Nothing is known here of parting"));
    ck_assert_ptr_nonnull(remark_of(narrow, "stock", "into their neighbours"));
    ck_assert_ptr_null(remark_of(wide, "stock", "into their neighbours"));
    bite_job_free(laser);
    bite_job_free(unknown);
    bite_job_free(narrow);
    bite_job_free(wide);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job");
    TCase *tests = tcase_create("job");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, every_job_that_ships_plans_and_is_installed);
    tcase_add_loop_test(tests, what_is_left_out_is_chosen, 0, 4);
    tcase_add_test(tests, what_was_given_stays);
    tcase_add_test(tests, passes_are_judged_together);
    tcase_add_test(tests, what_is_not_faced_is_cut_through);
    tcase_add_test(tests, one_name_three_tools);
    tcase_add_test(tests, faces_and_thickness);
    tcase_add_test(tests, chamfers_get_cones);
    tcase_add_test(tests, a_drill_has_a_point);
    tcase_add_test(tests, clamps_are_judged);
    tcase_add_test(tests, holds_by_their_kind);
    tcase_add_test(tests, more_facts_of_fluids);
    tcase_add_test(tests, sizes_that_cannot_be);
    tcase_add_test(tests, sheets_and_gaps_are_minded);
    tcase_add_test(tests, the_hold_is_judged_by_all_passes);
    tcase_add_test(tests, ends_of_what_can_be_planned);
    tcase_add_test(tests, the_sheet_is_chosen_by_what_is_cut);
    tcase_add_test(tests, usual_order_and_after);
    tcase_add_test(tests, circles_are_named);
    tcase_add_test(tests, cleaners_on_acrylic);
    tcase_add_test(tests, coolants_on_plastics_and_metal);
    tcase_add_test(tests, holds_that_need_a_solvent);
    tcase_add_test(tests, film_and_tape);
    tcase_add_test(tests, through_cuts_end_in_the_tape);
    tcase_add_test(tests, laser_cut_edges);
    tcase_add_test(tests, extruded_against_cast);
    tcase_add_test(tests, mist_of_one_pass);
    tcase_add_test(tests, checks);
    tcase_add_test(tests, ten_faults_are_ten);
    tcase_add_test(tests, broken_lines_hide_nothing);
    tcase_add_test(tests, one_fault_is_one);
    tcase_add_test(tests, passes_that_cannot_be_are_all_told);
    tcase_add_test(tests, files_that_are_no_jobs);
    tcase_add_test(tests, bad_calls);
    tcase_add_test(tests, too_many);
    tcase_add_test(tests, long_and_odd_titles);
    tcase_add_test(tests, control_characters_do_not_come_in);
    tcase_add_test(tests, two_hundred_passes_on_forty_tools);
    tcase_add_test(tests, no_remark_is_cut_off);
    tcase_add_test(tests, inches_and_millimetres);
    tcase_add_test(tests, threads_and_locales_change_nothing);
    tcase_add_test(tests, times_correct_the_plan);
    tcase_add_test(tests, titles_stay_apart);
    tcase_add_test(tests, other_records_are_kept);
    tcase_add_test(tests, a_time_that_cannot_be_written);
    tcase_add_test(tests, refusing_sinks);
    tcase_add_test(tests, without_memory);
    tcase_add_test(tests, without_memory_while_choosing);
    tcase_add_test(tests, without_memory_from_the_start);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
