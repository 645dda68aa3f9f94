/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plugin of a toy family: BITE_TEST_TOY names what it is, a sound one of this or another
 * version of the interface, or one with a fault in its lists. */
#include <coolbite/family.h>
#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

/* ---- versions of the interface ---- */

/* A descriptor as it was in version 1.0, and as it may be in a later one. */
struct old_family {
    uint32_t struct_size;
    uint32_t abi;
    const char *name;
    const char *table;
    enum bite_family_status (*fill)(const struct bite_host *host, struct bite_grade *grade);
    enum bite_family_status (*property)(const struct bite_host *host,
                                        const struct bite_grade *grade, const char *key,
                                        double temperature, double *out);
    enum bite_family_status (*caution)(const struct bite_host *host, struct bite_case *judged);
    enum bite_family_status (*check)(const struct bite_host *host);
};

struct new_family {
    struct bite_family known;
    const void *unknown[5];
};

static int is(const char *what)
{
    const char *named = getenv("BITE_TEST_TOY");
    return named != NULL && strcmp(named, what) == 0;
}

/* ---- what it says ---- */

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    struct bite_figure toughness = host->figure(grade, "toy_toughness");
    if (is("sets") && isnan(toughness.value)) {
        struct bite_figure usual = {3000.0, 2000.0, 4000.0};
        return host->set(grade, "toy_toughness", &usual, "estimate: by the plugin") == 0
                   ? BITE_FAMILY_OK
                   : BITE_FAMILY_FAULT;
    }
    return BITE_FAMILY_OK;
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    int refused =
        host->caution(judged, "eyes", BITE_DANGER, "Wear eye protection.", "common-practice");
    refused |= host->caution(judged, "toy", BITE_NOTE, "Toys break: {toy_load.demand}.", "memory");
    refused |= host->caution(judged, "table", BITE_NOTE, "The plugin knows more.", "memory");
    return refused == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
}

enum { TOUGHNESS, FEED, DEPTH, DRILLS };
static const char *const load_numbers[] = {"toy_toughness", "feed_rate", "depth", "operation:drill",
                                           NULL};

/* Demand: toughness x depth, N/m; capacity: 60 N/m less a share for the feed. */
static enum bite_family_status judge_load(size_t count, const double *const *numbers,
                                          double *demand, double *capacity)
{
    for (size_t k = 0; k < count; k++) { /* a word is 1 or 0, in all places */
        if (numbers[DRILLS][k] != numbers[DRILLS][0]) {
            return BITE_FAMILY_FAULT;
        }
    }
    if (numbers[DRILLS][0] == 1.0) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        demand[k] = numbers[TOUGHNESS][k] * numbers[DEPTH][k];
        capacity[k] = 4.0 - 100.0 * numbers[FEED][k];
    }
    if (is("nan")) {
        demand[0] = (double)NAN;
    } else if (is("infinite")) {
        capacity[0] = (double)INFINITY;
    } else if (is("negative")) {
        demand[0] = -1.0;
    } else if (is("lazy")) {
        return count > 0 ? BITE_FAMILY_FAULT : BITE_FAMILY_OK;
    }
    return BITE_FAMILY_OK;
}

/* Fills nothing. */
static enum bite_family_status judge_nothing(size_t count, const double *const *numbers,
                                             double *demand, double *capacity)
{
    (void)count;
    (void)numbers;
    (void)demand;
    (void)capacity;
    return BITE_FAMILY_OK;
}

static const char *const advisory_numbers[] = {"chip_thickness_max", NULL};

static enum bite_family_status judge_chip(size_t count, const double *const *numbers,
                                          double *demand, double *capacity)
{
    for (size_t k = 0; k < count; k++) {
        demand[k] = 1e-3;
        capacity[k] = numbers[0][k];
    }
    return BITE_FAMILY_OK;
}

/* ---- what it lists ---- */

static struct bite_family_figure toughness = {.struct_size =
                                                  (uint32_t)sizeof(struct bite_family_figure),
                                              .name = "toy_toughness",
                                              .quantity = "force per length of edge",
                                              .summary = "what the toy withstands",
                                              .least = 1.0,
                                              .most = 1e6};

static struct bite_family_limit load = {.struct_size = (uint32_t)sizeof(struct bite_family_limit),
                                        .name = "toy_load",
                                        .quantity = "force",
                                        .summary = "the toy withstands the load",
                                        .equation = "toughness x depth against what feed leaves",
                                        .source = "memory",
                                        .remedy = "Cut less deep.",
                                        .numbers = load_numbers,
                                        .judge = judge_load};

static struct bite_family_limit chip = {.struct_size = (uint32_t)sizeof(struct bite_family_limit),
                                        .advisory = 1,
                                        .name = "toy_chip",
                                        .quantity = "length",
                                        .summary = "the chip is as thick as a sheet",
                                        .equation = "1 mm against the chip",
                                        .source = "memory",
                                        .remedy = "Take thicker chips.",
                                        .numbers = advisory_numbers,
                                        .judge = judge_chip};

static const struct bite_family_figure *figures[20] = {&toughness};
static const struct bite_family_limit *limits[6] = {&load, &chip};

/* Puts a fault into the lists. */
static void spoil(void)
{
    static const char *const unknown_numbers[] = {"feed_rate", "feed_ratio", NULL};
    static const char *const unknown_words[] = {"operation:knit", NULL};
    static const char *const many[] = {"depth", "depth", "depth", "depth", "depth", "depth",
                                       "depth", "depth", "depth", "depth", "depth", "depth",
                                       "depth", "depth", "depth", "depth", "depth", NULL};
    if (is("figure_taken")) {
        toughness.name = "density";
    } else if (is("figure_name")) {
        toughness.name = "Toy toughness";
    } else if (is("figure_quantity")) {
        toughness.quantity = "charm";
    } else if (is("figure_range")) {
        toughness.most = (double)NAN;
    } else if (is("figure_escape")) {
        toughness.summary = "\033[31mred";
    } else if (is("figure_twice")) {
        figures[1] = &toughness;
    } else if (is("figure_short")) {
        toughness.struct_size = 8;
    } else if (is("limit_taken")) {
        load.name = "power";
    } else if (is("limit_number")) {
        load.numbers = unknown_numbers;
    } else if (is("limit_word")) {
        load.numbers = unknown_words;
    } else if (is("limit_many")) {
        load.numbers = many;
    } else if (is("limit_source")) {
        load.source = "because";
    } else if (is("limit_nameless")) {
        load.name = NULL;
    } else if (is("limit_remedy")) {
        load.remedy = NULL;
    } else if (is("limit_function")) {
        load.judge = NULL;
    } else if (is("limit_twice")) {
        limits[1] = &load;
    } else if (is("empty")) {
        load.judge = judge_nothing;
    } else if (is("needed")) {
        toughness.needed = 1;
    } else if (is("advisory")) {
        load.advisory = 1;
    }
}

const struct bite_family *bite_family_entry(void)
{
    static const struct old_family old = {
        (uint32_t)sizeof(struct old_family), 1u, "toy", "toy.ini", fill, NULL, caution, NULL};
    static struct new_family family = {{.struct_size = (uint32_t)sizeof(struct bite_family),
                                        .abi = BITE_FAMILY_ABI,
                                        .name = "toy",
                                        .table = "toy.ini",
                                        .fill = fill,
                                        .caution = caution,
                                        .figures = figures,
                                        .limits = limits},
                                       {"a", "b", "c", "d", "e"}};
    if (is("old")) {
        return (const struct bite_family *)(const void *)&old;
    }
    if (is("new")) {
        family.known.struct_size = (uint32_t)sizeof family;
        family.known.abi = BITE_FAMILY_ABI_MAJOR | 7u << 16;
    } else if (is("major")) {
        family.known.abi = (BITE_FAMILY_ABI_MAJOR + 1u) | BITE_FAMILY_ABI_MINOR << 16;
    } else if (is("name_only")) { /* ends before its functions */
        family.known.struct_size = (uint32_t)offsetof(struct bite_family, fill);
    } else if (is("cut_off")) {
        family.known.struct_size = (uint32_t)offsetof(struct bite_family, caution) + 3u;
    } else if (is("huge")) {
        family.known.struct_size = 1u << 20;
    }
    spoil();
    return &family.known;
}
