/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plugin that asks its host and gives it figures, curves and cautions, good and bad: the test
 * names in BITE_TEST_ASK what it does. */
#include <coolbite/family.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static int is_asked(const char *what)
{
    const char *asked = getenv("BITE_TEST_ASK");
    return asked != NULL && strcmp(asked, what) == 0;
}

static const char long_text[] = "1234567890123456789012345678901234567890123456789012345678901234";

/* ---- figures ---- */

static const struct bite_figure good = {900.0, 800.0, 1000.0};
static const struct bite_figure turned = {900.0, 1000.0, 800.0};
static const struct bite_figure high = {900.0, 800.0, 850.0};
static const struct bite_figure light = {1e-3, 1e-3, 1e-3};
static const struct bite_figure heavy = {1e6, 1e6, 1e6};
static const struct bite_figure none = {NAN, NAN, NAN};

static const struct {
    const char *ask;
    const char *key;
    const struct bite_figure *figure;
    const char *source;
} sets[] = {
    {"set no key", NULL, &good, "memory"},      {"set unknown", "weight", &good, "memory"},
    {"set word", "substance", &good, "memory"}, {"set curve", "strength.at", &good, "memory"},
    {"set nothing", "density", NULL, "memory"}, {"set turned", "density", &turned, "memory"},
    {"set high", "density", &high, "memory"},   {"set none", "density", &none, "memory"},
    {"set light", "density", &light, "memory"}, {"set heavy", "density", &heavy, "memory"},
    {"set unsourced", "density", &good, NULL},  {"set", "density", &good, "estimate: by the test"}};

/* NULL: the host answers as it should. */
static const char *wrong_answer(const struct bite_host *host, const struct bite_grade *grade)
{
    struct bite_figure density = host->figure(grade, "density");
    const char *substance = host->word(grade, "substance");
    const char *title = host->word(grade, "title");
    return !(density.low <= density.value && density.value <= density.high) ? "density"
           : !isnan(host->figure(grade, "weight").value)                    ? "weight"
           : !isnan(host->figure(grade, "substance").value)                 ? "a word's figure"
           : !isnan(host->figure(grade, NULL).low)                          ? "no key"
           : substance == NULL || strcmp(substance, "amorphous") != 0       ? "substance"
           : title == NULL || strlen(title) < 3                             ? "title"
           : host->word(grade, "density") != NULL                           ? "a figure's word"
           : host->word(grade, "weight") != NULL                            ? "unknown word"
           : host->word(grade, NULL) != NULL                                ? "word of no key"
                                                                            : NULL;
}

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    const char *wrong = is_asked("figures") ? wrong_answer(host, grade) : NULL;
    if (wrong != NULL) {
        host->reason(host, wrong);
        return BITE_FAMILY_FAULT;
    }
    for (size_t i = 0; i < sizeof sets / sizeof *sets; i++) {
        if (is_asked(sets[i].ask) &&
            host->set(grade, sets[i].key, sets[i].figure, sets[i].source) != 0) {
            return BITE_FAMILY_FAULT;
        }
    }
    return BITE_FAMILY_OK;
}

/* ---- curves ---- */

static enum bite_family_status property(const struct bite_host *host,
                                        const struct bite_grade *grade, const char *key,
                                        double temperature, double *out)
{
    (void)grade;
    if (is_asked("curve") && strcmp(key, "heat_capacity") == 0) {
        *out = 1000.0 + 2.0 * temperature;
        return BITE_FAMILY_OK;
    }
    if (is_asked("curve beside the table") && strcmp(key, "strength") == 0) {
        *out = 1.0;
        return BITE_FAMILY_OK;
    }
    if (is_asked("curve without an end") && strcmp(key, "heat_capacity") == 0 &&
        temperature < 400.0) {
        *out = 1000.0;
        return BITE_FAMILY_OK;
    }
    if (is_asked("curve too low") || is_asked("curve too high") || is_asked("curve of nothing")) {
        *out = is_asked("curve too low") ? -1.0 : is_asked("curve too high") ? 1e9 : (double)NAN;
        return BITE_FAMILY_OK;
    }
    if (is_asked("curve fails")) {
        host->reason(host, "the furnace is cold");
        return BITE_FAMILY_FAULT;
    }
    return BITE_FAMILY_NO_DATA;
}

/* ---- cautions ---- */

static char longest[1100];
static char places[1000]; /* many numbers, each with its band */

static const struct {
    const char *ask;
    const char *name;
    int severity;
    const char *text;
    const char *source;
} cautions[] = {
    {"caution", "toy", BITE_CARE, "A depth of {depth}.", "memory"},
    {"caution again", "toy", BITE_NOTE, "Wear goggles.", "memory"},
    {"caution again", "toy", BITE_DANGER, "Wear goggles.", "memory"},
    {"caution again", "toy", BITE_CARE, "Wear goggles.", "memory"},
    {"caution places", "toy", BITE_NOTE, "{no_such} and {depth and {stickout} {", "memory"},
    {"caution bands", "toy", BITE_NOTE, places, "memory"},
    {"caution no name", NULL, BITE_NOTE, "Cut.", "memory"},
    {"caution empty name", "", BITE_NOTE, "Cut.", "memory"},
    {"caution Name", "Toy", BITE_NOTE, "Cut.", "memory"},
    {"caution na-me", "to-y", BITE_NOTE, "Cut.", "memory"},
    {"caution na{me", "to{y", BITE_NOTE, "Cut.", "memory"},
    {"caution long name", long_text, BITE_NOTE, "Cut.", "memory"},
    {"caution 0", "toy", 0, "Cut.", "memory"},
    {"caution 4", "toy", 4, "Cut.", "memory"},
    {"caution no text", "toy", BITE_NOTE, NULL, "memory"},
    {"caution no source", "toy", BITE_NOTE, "Cut.", NULL},
    {"caution hearsay", "toy", BITE_NOTE, "Cut.", "hearsay"},
    {"caution long text", "toy", BITE_NOTE, longest, "memory"},
    {"caution long source", "toy", BITE_NOTE, "Cut.", longest}};

static const char *wrong_number(const struct bite_host *host, const struct bite_case *judged)
{
    const char *family = host->choice(judged, "family");
    return !(host->number(judged, "depth") > 0.0)             ? "depth"
           : !isnan(host->number(judged, "weight"))           ? "weight"
           : !isnan(host->number(judged, NULL))               ? "number of no name"
           : family == NULL || strcmp(family, "acrylic") != 0 ? "family"
           : host->choice(judged, "weight") != NULL           ? "unknown choice"
           : host->choice(judged, NULL) != NULL               ? "choice of no name"
                                                              : NULL;
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    const char *wrong = is_asked("figures") ? wrong_number(host, judged) : NULL;
    if (wrong != NULL) {
        host->reason(host, wrong);
        return BITE_FAMILY_FAULT;
    }
    for (int i = 0; i < 40 && is_asked("caution many"); i++) {
        char text[] = "Rule 00.";
        text[5] = (char)('0' + i / 10);
        text[6] = (char)('0' + i % 10);
        if (host->caution(judged, "toy", i % 2 ? BITE_NOTE : BITE_DANGER, text, "memory") != 0) {
            return BITE_FAMILY_FAULT;
        }
    }
    for (size_t used = 0; used + 10 < sizeof places; used += 9) {
        memcpy(places + used, "{runout} ", 10);
    }
    memset(longest, 'x', sizeof longest - 1);
    memcpy(longest, "memory: ", 8);
    for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++) {
        if (is_asked(cautions[i].ask) &&
            host->caution(judged, cautions[i].name, (enum bite_severity)cautions[i].severity,
                          cautions[i].text, cautions[i].source) != 0) {
            return BITE_FAMILY_FAULT;
        }
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "acrylic",
                                              .table = "acrylic.ini",
                                              .fill = fill,
                                              .property = property,
                                              .caution = caution};
    return &family;
}
