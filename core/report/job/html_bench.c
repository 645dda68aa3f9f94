/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page for the bench: it is left with whoever takes the part off, cleans it and measures it, so
 * that it repeats what this person needs of the other pages. */
#include "core/report/job/html_bench.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/remarks.h"
#include "core/report/job/html_sections.h"
#include "core/report/job/remark_text.h"
#include <math.h>
#include <string.h>

/* ---- fluids ---- */

/* What the job uses a fluid for: "cleaner"; NULL: the job does not use it. */
static const char *use_of(const struct bite_job *job, const bite_item_record *fluid)
{
    for (size_t i = 0; i < job->fluid_count && i < BITE_FLUIDS_MAX; i++) {
        if (job->fluids[i].fluid != NULL && job->fluids[i].fluid == fluid) {
            return job->fluid_uses[i];
        }
    }
    return NULL;
}

static void write_fluid(bite_job_html_page *html, const bite_fluid_rating *result)
{
    bite_page *page = &html->page;
    const char *use = use_of(html->job, result->fluid);
    bite_html_put(page, use == NULL ? "%s" : "<b>%s</b>", result->fluid->title);
    if (use != NULL) {
        bite_html_put(page, " (this job&#39;s %s)", use);
    }
    bite_page_text(page, bite_fluid_is_flammable(result->fluid) ? " (flammable)" : "");
    if (result->other != BITE_RATED_UNKNOWN && result->other != result->rating) {
        bite_page_text(page, " (sources differ)");
    }
}

/* A row of all fluids with one rating: those of the bench, then others that the job uses. */
static void rating_row(bite_job_html_page *html, uint32_t rated, const char *advice)
{
    const struct bite_job *job = html->job;
    size_t written = 0;
    size_t own = job->fluid_count < BITE_FLUIDS_MAX ? job->fluid_count : BITE_FLUIDS_MAX;
    for (size_t i = 0; i < job->bench_fluid_count + own; i++) {
        int bench = i < job->bench_fluid_count;
        const bite_fluid_rating *result =
            bench ? &job->bench_fluids[i] : &job->fluids[i - job->bench_fluid_count];
        int again = 0;
        for (size_t k = 0; !bench && k < job->bench_fluid_count; k++) {
            again |= job->bench_fluids[k].fluid == result->fluid;
        }
        if (result->fluid == NULL || result->rating != rated || again) {
            continue;
        }
        if (written++ == 0) {
            bite_page_text(&html->page, "<tr><th scope=\"row\">");
            bite_job_html_rating(html, rated);
            bite_html_put(&html->page, "<small>%s</small></th><td>", advice);
        }
        bite_page_text(&html->page, written > 1 ? ", " : "");
        write_fluid(html, result);
    }
    bite_page_text(&html->page, written > 0 ? ".</td></tr>\n" : "");
}

static void fluids(bite_job_html_page *html)
{
    static const struct {
        uint32_t rated;
        const char *advice;
    } rows[] = {{BITE_RATED_SAFE, "may touch it"},
                {BITE_RATED_NO, "never on this part"},
                {BITE_RATED_RISK, "ask first"},
                {BITE_RATED_UNKNOWN, "try a scrap first"}};
    const struct bite_job *job = html->job;
    if (job->fluid_count + job->bench_fluid_count == 0) {
        return;
    }
    bite_html_put(&html->page, "<h3>Cleaning: what may touch %s</h3>\n<table class=\"ratings\">",
                  job->grade == NULL ? "the part" : job->grade->record.name);
    bite_page_text(&html->page, "<tbody>\n");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        rating_row(html, rows[i].rated, rows[i].advice);
    }
    bite_page_text(&html->page, "</tbody></table>\n");
    bite_html_put(&html->page,
                  "<p class=\"small\">Rated by chemical class, for a part %s. The safety data "
                  "sheet of the fluid takes precedence.</p>\n",
                  job->annealed ? "that is annealed after machining"
                                : "as machined, with stress in its edges");
}

/* ---- waiting and looking ---- */

/* The longest wait after a fluid that the job names: one that may be used, or a refused one; NaN:
 * none. */
static double longest_watch(const struct bite_job *job, int refused)
{
    double longest = (double)NAN;
    for (size_t i = 0; i < job->fluid_count && i < BITE_FLUIDS_MAX; i++) {
        if ((job->fluids[i].rating == BITE_RATED_NO) == refused) {
            longest = fmax(longest, job->fluids[i].watch);
        }
    }
    return longest;
}

static void waits(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    const struct bite_job *job = html->job;
    double watch = longest_watch(job, 0);
    double after_mistake = longest_watch(job, 1);
    int cures = isfinite(job->hold.cure) && job->hold.cure > 0.0;
    int anneals = job->annealed && job->warp.anneal != NULL && job->warp.anneal[0] != 0;
    if (!cures && !isfinite(watch) && !isfinite(after_mistake) && !anneals) {
        return;
    }
    bite_page_text(page, "<h3>Waiting</h3>\n<ul class=\"ticks\">\n");
    if (cures) {
        bite_html_put(page,
                      "<li><span class=\"box\"></span><span>Cure, after mounting and before "
                      "cutting: <b>%s</b>.</span></li>\n",
                      bite_html_time(page, job->hold.cure).text);
    }
    if (isfinite(watch)) {
        bite_html_put(page,
                      "<li><span class=\"box\"></span><span>After cleaning: wait <b>%s</b>, "
                      "then look for crazes again, before shipping.</span></li>\n",
                      bite_html_time(page, watch).text);
    }
    if (isfinite(after_mistake)) {
        bite_html_put(page,
                      "<li><span class=\"box\"></span><span>If a fluid marked NO has touched "
                      "a part: watch that part for <b>%s</b>.</span></li>\n",
                      bite_html_time(page, after_mistake).text);
    }
    if (anneals) {
        bite_html_put(page, "<li><span class=\"box\"></span><span>%s</span></li>\n",
                      job->warp.anneal);
    }
    bite_page_text(page, "</ul>\n");
}

static int has_sticky_layers(const struct bite_job *job)
{
    return job->hold.layer_count > 0;
}

static int has_bow(const struct bite_job *job)
{
    return isfinite(job->warp.as_planned) && job->warp.as_planned > 0.0;
}

static int may_craze(const struct bite_job *job)
{
    for (size_t i = 0; i < job->bench_fluid_count; i++) {
        if (isfinite(job->bench_fluids[i].watch)) {
            return 1;
        }
    }
    return isfinite(longest_watch(job, 0)) || isfinite(longest_watch(job, 1));
}

static int is_clear(const struct bite_job *job)
{
    return job->clear != 0;
}

static int is_any(const struct bite_job *job)
{
    (void)job;
    return 1;
}

/* What to look for, and for which parts. All of it is common practice. */
static const struct {
    int (*applies)(const struct bite_job *job);
    const char *text;
} looks[] = {
    {is_any, "Burrs, chips and torn places along edges and around holes. Edges are sharp until "
             "they are broken."},
    {may_craze, "Crazes: fine bright lines at edges, holes and inside corners, in raking light, "
                "from several sides."},
    {is_clear, "Haze, scratches and melted streaks, against a dark ground."},
    {has_sticky_layers, "Glue or tape left on the part."},
    {has_bow, "Bow: lay the free part on a flat plate, both ways up."},
};

static void looking(bite_job_html_page *html)
{
    bite_page_text(&html->page, "<h3>Look for</h3>\n<ul class=\"ticks\">\n");
    for (size_t i = 0; i < sizeof looks / sizeof *looks; i++) {
        if (looks[i].applies(html->job)) {
            bite_html_put(&html->page, "<li><span class=\"box\"></span><span>%s</span></li>\n",
                          looks[i].text);
        }
    }
    bite_page_text(&html->page, "</ul>\n");
}

/* ---- cautions ---- */

static int is_for_bench(const bite_remark *remark)
{
    return remark->id == BITE_REMARK_FLAMMABLE || remark->id == BITE_REMARK_CYANOACRYLATE ||
           remark->id == BITE_REMARK_RELEASE_SOLVENT ||
           (remark->severity > 0 && strcmp(bite_remark_about(remark), "fluids") == 0);
}

void bite_job_html_bench(bite_job_html_page *html)
{
    bite_page *page = &html->page;
    bite_page_text(page, "<div class=\"two even\">\n<div>\n");
    bite_job_html_release(html, html->setups);
    waits(html);
    bite_page_text(page, "</div>\n<div>\n");
    looking(html);
    bite_page_text(page, "</div>\n</div>\n");
    fluids(html);
    bite_job_html_checks(html);
    bite_job_html_warnings(html, "Dangers and cautions at the bench", html->setups, is_for_bench);
    bite_page_text(page, "<dl class=\"facts sign\">\n");
    static const char *const fields[] = {"Taken off by", "Cleaned by", "Date", "Good", "Scrap"};
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        bite_html_put(page, "<div><dt>%s</dt><dd class=\"fill\">&#160;</dd></div>\n", fields[i]);
    }
    bite_page_text(page, "</dl>\n");
}
