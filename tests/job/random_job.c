/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random job files that are valid. */
#include "tests/job/random_job.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)

/* A job while it is written. Lengths in mm. */
typedef struct draft {
    growing_text text;
    uint64_t seed;
    int inch; /* 1: lengths are written in inches */
    double length;
    double width;
    double thickness;
    double count;
    int vise;
} draft;

static double between(draft *job, double low, double high)
{
    return bite_test_between(&job->seed, low, high);
}

static size_t pick(draft *job, size_t count)
{
    return (size_t)between(job, 0.0, (double)count);
}

static int chance(draft *job, double share)
{
    return between(job, 0.0, 1.0) < share;
}

static void put_length(draft *job, const char *key, double mm)
{
    if (job->inch) {
        append(&job->text, "%s = %.5f in\n", key, mm / 25.4);
    } else {
        append(&job->text, "%s = %.4f mm\n", key, mm);
    }
}

static void put_head(draft *job)
{
    static const char *const goals[] = {"cool", "gentle", "fine", "fast"};
    append(&job->text, HEAD "[job]\nunits = %s\n", job->inch ? "inch" : "metric");
    if (chance(job, 0.3)) {
        append(&job->text, "goal = %s\n", goals[pick(job, COUNT(goals))]);
    }
}

static void put_part(draft *job)
{
    static const char *const materials[] = {"acrylic/cast",
                                            "acrylic/extruded",
                                            "polycarbonate",
                                            "acetal",
                                            "polyethylene",
                                            "nylon",
                                            "pvc",
                                            "abs",
                                            "peek",
                                            "ptfe",
                                            "aluminium/6061-T6",
                                            "brass",
                                            "steel",
                                            "copper",
                                            "wood",
                                            "tooling-board",
                                            "glass-laminate",
                                            "graphite",
                                            "polystyrene",
                                            "magnesium"};
    append(&job->text, "[part]\nmaterial = %s\n", materials[pick(job, COUNT(materials))]);
    put_length(job, "length", job->length);
    put_length(job, "width", job->width);
    put_length(job, "thickness", job->thickness);
    append(&job->text, "count = %.0f\n", job->count);
    if (chance(job, 0.5)) {
        put_length(job, "tolerance", between(job, 0.03, 0.3));
    }
    if (chance(job, 0.3)) {
        put_length(job, "thinnest", between(job, 0.3, 0.9) * job->thickness);
    }
    if (chance(job, 0.3)) {
        put_length(job, "flatness", between(job, 0.1, 0.5));
    }
    if (chance(job, 0.2)) {
        append(&job->text, "clear = yes\n");
    }
}

static void put_stock(draft *job)
{
    static const char *const faces[] = {"both", "top", "none"};
    append(&job->text, "[stock]\n");
    if (chance(job, 0.5)) {
        append(&job->text, "faces = %s\n", faces[pick(job, COUNT(faces))]);
    }
    if (chance(job, 0.2)) { /* measured, of a sheet that contains the part */
        double thin = job->thickness + between(job, 0.0, 0.5);
        put_length(job, "thinnest", thin);
        put_length(job, "thickest", thin + between(job, 0.0, 0.3));
    }
    if (chance(job, 0.2)) {
        put_length(job, "skim", between(job, 0.0, 0.5));
    }
    if (chance(job, 0.25)) { /* some sheets are too small for all parts, or for one */
        put_length(job, "length", between(job, 1.0, 8.0) * job->length);
        put_length(job, "width", between(job, 1.0, 8.0) * job->width);
    }
}

static void put_machine(draft *job)
{
    static const char *const machines[] = {"desktop-light", "board-mill",    "trim-router",
                                           "bench-24k",     "gantry-router", "small-vmc",
                                           "knee-mill"};
    if (chance(job, 0.8)) {
        append(&job->text, "[machine]\nname = %s\n", machines[pick(job, COUNT(machines))]);
    }
    if (chance(job, 0.5)) {
        append(&job->text, "[tools]\nat_hand = 1mm 2mm 3mm 6mm%s tm-1.4 tm-2.1 tm-2.8 tm-4.4%s\n",
               chance(job, 0.5) ? " 1/8in 1/4in" : "",
               chance(job, 0.5) ? " tmf-0.5 tmf-0.7 tmf-1.27" : "");
    }
}

static void put_hold(draft *job)
{
    static const char *const holds[] = {"tape",   "tape-glue", "glue",   "hot-melt",
                                        "vacuum", "vise",      "screws", "tabs"};
    size_t which = pick(job, COUNT(holds) + 1);
    if (which < COUNT(holds)) {
        append(&job->text, "[hold]\nmethod = %s\n", holds[which]);
        job->vise = which == 5;
        if (which == 6 && chance(job, 0.7)) { /* screws in two corners */
            append(&job->text, "[screw.s]\nat = %.3f mm %.3f mm, %.3f mm %.3f mm\n",
                   0.1 * job->length, 0.1 * job->width, 0.9 * job->length, 0.9 * job->width);
        }
    }
}

/* The pass of one work, within the part. */
static void put_pass(draft *job, size_t index, const char *work, double tool, int setups)
{
    double shorter = fmin(job->length, job->width);
    int inside = strcmp(work, "slot") == 0 || strcmp(work, "pocket") == 0 ||
                 strcmp(work, "rough") == 0 || strcmp(work, "bore") == 0;
    int drill = strcmp(work, "drill") == 0;
    int chamfer = strcmp(work, "chamfer") == 0;
    append(&job->text, "[pass.p%zu]\nwork = %s\n", index, work);
    if (chance(job, 0.8) || inside || drill || chamfer) {
        append(&job->text, "tool = %.0fmm\n", tool);
    }
    if (setups > 2) {
        append(&job->text, "setup = %zu\n", 1 + index % (size_t)setups);
    } else if (setups > 1) {
        append(&job->text, "setup = %zu\n", 1 + pick(job, 2));
    }
    if (chance(job, 0.9)) {
        append(&job->text, "spindle = %.0frpm\nfeed = %.0fmm/min\n", between(job, 3000, 9500),
               between(job, 100, 700));
    }
    if (inside) {
        put_length(job, "across", between(job, 1.05, 1.5) * fmin(2.0 * tool, 0.5 * shorter));
        put_length(job, "length", between(job, 0.6, 1.0) * shorter);
    }
    if (chamfer) {
        put_length(job, "depth", between(job, 0.1, 0.4) * fmin(0.5 * tool, job->thickness));
    } else if ((inside || drill) && chance(job, 0.8)) {
        put_length(job, "depth", between(job, 0.1, 0.9) * job->thickness);
    }
    if ((drill || inside) && chance(job, 0.4)) {
        append(&job->text, "at = %.3f mm %.3f mm\n", between(job, 0.1, 0.9) * job->length,
               between(job, 0.1, 0.9) * job->width);
    } else if ((drill || inside) && chance(job, 0.3)) {
        append(&job->text, "count = %zu\n", 1 + pick(job, 4));
    }
    if (strcmp(work, "finish") == 0 && chance(job, 0.5)) {
        put_length(job, "length", between(job, 0.5, 3.0) * shorter);
    }
}

/* A thread, the drill of its hole, mills that cut it, and how deep they reach, mm. */
static const struct {
    const char *thread;
    const char *drill;
    const char *single;
    const char *full; /* NULL: the table has none */
    double reach;     /* of both */
} threads[] = {{"M2", "1.6mm", "tm-1.4", NULL, 5.1},
               {"M3", "2.5mm", "tm-2.1", "tmf-0.5", 5.7},
               {"M4", "3.3mm", "tm-2.8", "tmf-0.7", 8.0},
               {"1/4-20", "5.1mm", "tm-4.4", "tmf-1.27", 13.3},
               {"4-40", "2.2mm", NULL, NULL, 0.0}};

/* A thread that is tapped, milled, or left to the plan. */
static void put_thread(draft *job, size_t which, const char *work)
{
    append(&job->text, "thread = %s\n%s", threads[which].thread,
           chance(job, 0.2) ? "hand = left\n" : "");
    double deepest = 0.8 * job->thickness;
    if (strcmp(work, "thread-mill") == 0) {
        const char *mill = threads[which].full != NULL && chance(job, 0.5) ? threads[which].full
                                                                           : threads[which].single;
        append(&job->text, chance(job, 0.5) ? "tool = %s\n" : "# tool = %s\n", mill);
        deepest = fmin(deepest, threads[which].reach);
        put_length(job, "depth", between(job, 0.4, 1.0) * deepest);
    } else if (chance(job, 0.4)) {
        put_length(job, "depth", between(job, 0.4, 1.0) * deepest);
    }
}

/* Holes that are drilled, then tapped, threaded by a mill or reamed. */
static void put_holes(draft *job)
{
    static const char *const works[] = {"tap", "thread-mill", "thread", "ream"};
    const char *work = works[pick(job, COUNT(works))];
    int mills = strcmp(work, "thread-mill") == 0;
    int reams = strcmp(work, "ream") == 0;
    size_t which =
        pick(job, COUNT(threads) - (size_t)mills); /* no mill of the table cuts the last */
    char at[100];
    (void)snprintf(at, sizeof at, "at = %.3f mm %.3f mm\n", between(job, 0.2, 0.8) * job->length,
                   between(job, 0.2, 0.8) * job->width);
    int placed = chance(job, 0.5);
    append(&job->text, "[pass.hole]\nwork = drill\ntool = %s\n%s",
           reams ? "2.8mm" : threads[which].drill, placed ? at : "");
    append(&job->text, "[pass.fit]\nwork = %s\n", work);
    append(&job->text, "%s%s", chance(job, 0.7) ? "hole = hole\n" : "", placed ? at : "");
    if (!reams) {
        put_thread(job, which, work);
        return;
    }
    append(&job->text, "tool = 3mm\n");
    if (chance(job, 0.4)) {
        put_length(job, "depth", between(job, 0.3, 0.8) * job->thickness);
    }
}

/* Clamps on the blank; some stand where a pass goes. */
static void put_clamps(draft *job)
{
    append(&job->text, "[clamp.c]\nat = %.3f mm %.3f mm\n", between(job, 0.0, 1.2) * job->length,
           between(job, 0.0, 1.2) * job->width);
    put_length(job, "length", between(job, 5.0, 20.0));
    put_length(job, "width", between(job, 5.0, 20.0));
    if (chance(job, 0.3)) {
        put_length(job, "below", between(job, 0.0, 1.0) * job->thickness);
    } else if (chance(job, 0.5)) {
        put_length(job, "height", between(job, 2.0, 40.0));
    }
}

/* What setups state of themselves. */
static void put_setups(draft *job, int setups)
{
    static const char *const sides[] = {"top", "bottom"};
    static const char *const zeros[] = {"stock-top", "finished-face", "fixture"};
    static const char *const holds[] = {"tape", "vacuum", "screws", "tabs"};
    for (int i = 1; i <= setups; i++) {
        append(&job->text, "[setup.%d]\n", i);
        if (chance(job, 0.5)) {
            append(&job->text, "side = %s\n", sides[pick(job, COUNT(sides))]);
        }
        if (chance(job, 0.7)) {
            append(&job->text, "datum_z = %s\n", zeros[pick(job, COUNT(zeros))]);
        }
        if (chance(job, 0.3)) {
            append(&job->text, "method = %s\n", holds[pick(job, COUNT(holds))]);
        }
    }
}

growing_text random_job_text(uint64_t number)
{
    static const char *const works[] = {"face",  "rough",   "slot",   "pocket",  "bore",
                                        "drill", "contour", "finish", "chamfer", "cut-free"};
    /* not the step of the generator, or each job would have the draws of the one before it, shifted
     * by one */
    draft job = {.seed = 0xd1342543de82ef95u * (number + 1)};
    job.inch = chance(&job, 0.35);
    job.length = bite_test_decades(&job.seed, 15.0, 300.0);
    job.width = bite_test_decades(&job.seed, 10.0, 300.0);
    job.thickness = bite_test_decades(&job.seed, 1.0, 20.0);
    job.count = chance(&job, 0.3) ? 1.0 : floor(bite_test_decades(&job.seed, 1.0, 60.0));
    put_head(&job);
    put_part(&job);
    put_stock(&job);
    put_machine(&job);
    put_hold(&job);
    size_t passes = pick(&job, 6);
    int setups = chance(&job, 0.4) ? 2 + (int)pick(&job, 3) : 1;
    for (size_t i = 0; i < passes; i++) {
        double tool = 1.0 + (double)pick(&job, 3);
        put_pass(&job, i, works[pick(&job, COUNT(works))], tool, setups);
    }
    if (chance(&job, 0.25)) {
        put_holes(&job);
    }
    if (chance(&job, 0.2)) {
        put_clamps(&job);
    }
    if (setups > 2 && passes > 0 && chance(&job, 0.7)) {
        put_setups(&job, (int)fmin((double)passes, setups));
    }
    return job.text;
}
