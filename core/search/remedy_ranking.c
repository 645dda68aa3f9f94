/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which changes help against a symptom enough to be named, and their order. */
#include "core/search/remedy_ranking.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

/* A change that reduces the sum over the suspects by less than this does not count. */
static const double helps_least = 0.03;

/* Nor does one that reduces a single suspect by less than this. */
static const double helps_one_least = 0.2;

/* The chance of the suspects is unchanged if it falls by less than this share. */
static const double chance_least = 0.1;

/* A change that lowers the chance may raise the sum over the suspects by this factor. */
static const double sum_most = 1.02;

/* How much of the sum over the suspects counts against their chance. */
static const double left_counts = 0.02;

/* A larger change of the same input has to leave less than this share of the merit. */
static const double worth_more = 0.95;

/* Above this chance of the trouble anything more is worth it. */
static const double likely = 0.5;

/* A suspect that grows by up to this factor does not count as worse. */
static const double worse_most = 1.1;

double bite_suspect_weight(const bite_suspect *suspect, double share)
{
    return suspect->is_limit ? share
                             : BITE_EXPLAINS_FROM * (suspect->lacking ? 1.0 / share : share);
}

/* Whether one suspect that counts is much reduced while the sum of all does not grow. */
static int helps_one(const bite_diagnosis *diagnosis, const bite_remedy *remedy)
{
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        double before = bite_suspect_weight(suspect, suspect->share);
        if (before >= BITE_EXPLAINS_FROM &&
            bite_suspect_weight(suspect, remedy->after[i]) < (1.0 - helps_one_least) * before) {
            return remedy->left <= 1.0;
        }
    }
    return 0;
}

/* Two standard deviations of a chance estimated from this number of draws. */
static double scatter_of(double chance, uint32_t draws)
{
    return 2.0 * sqrt(chance * (1.0 - chance) / draws);
}

/* Whether the input scatters: once it is changed it no longer does, and the draws are others. */
static int is_drawn(const bite_answer *answer, uint32_t input)
{
    for (size_t i = 0; i < answer->spread_count; i++) {
        if (answer->spreads[i].input == input) {
            return 1;
        }
    }
    const bite_input *changed = bite_input_at(input); /* NULL: another workholding */
    return changed == NULL || changed->words > 0;     /* what follows such a word scatters */
}

/* Two standard deviations of the difference of two chances. Of the same draws only those count in
 * which one is exceeded and the other is not. */
static double scatter_of_change(const bite_diagnosis *diagnosis, const bite_remedy *remedy,
                                uint32_t draws)
{
    return is_drawn(diagnosis->answer, remedy->change.input)
               ? scatter_of(diagnosis->trouble, draws)
               : 2.0 * sqrt(fabs(diagnosis->trouble - remedy->trouble) / draws);
}

/* Whether the draws show that the trouble becomes less likely, also where the best estimates hide
 * it: more feed cools an edge that moves too slowly and heats one that does not, and a melted edge
 * points to the former. */
static int lowers_trouble(const bite_diagnosis *diagnosis, const bite_remedy *remedy,
                          uint32_t draws)
{
    return draws > 0 && remedy->trouble < (1.0 - chance_least) * diagnosis->trouble &&
           remedy->trouble < diagnosis->trouble - scatter_of_change(diagnosis, remedy, draws);
}

int bite_remedy_helps(const bite_diagnosis *diagnosis, const bite_remedy *remedy, uint32_t draws)
{
    return remedy->left < 1.0 - helps_least || helps_one(diagnosis, remedy) ||
           (remedy->left <= sum_most && lowers_trouble(diagnosis, remedy, draws));
}

int bite_remedy_worsens_first(const bite_diagnosis *diagnosis, const bite_remedy *remedy)
{
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        if (!isnan(suspect->share)) {
            return bite_suspect_weight(suspect, remedy->after[i]) >
                   worse_most * bite_suspect_weight(suspect, suspect->share);
        }
    }
    return 0;
}

int bite_remedy_raises_chance(const bite_diagnosis *diagnosis, double before, double after,
                              uint32_t draws)
{
    return after > 0.5 * (1.0 - diagnosis->answer->confidence) &&
           after > before + scatter_of(fmax(before, after), draws);
}

double bite_remedy_merit(const bite_remedy *remedy)
{
    return isnan(remedy->trouble) ? remedy->left
                                  : remedy->trouble + left_counts * fmin(2.0, remedy->left);
}

/* Air is at hand in most shops, and no fluid has to be found that the material bears: it is listed
 * beside mist and flood. */
static int is_air(const bite_change *change)
{
    return change->word == BITE_COOLANT_AIR &&
           bite_input_at(change->input) == bite_input_find("coolant");
}

/* The index of the remedy that changes the same input; remedy_count: there is none. */
static uint32_t find_same(const bite_diagnosis *diagnosis, const bite_change *change)
{
    uint32_t at = 0;
    while (at < diagnosis->remedy_count &&
           (diagnosis->remedies[at].change.input != change->input ||
            is_air(&diagnosis->remedies[at].change) != is_air(change))) {
        at++;
    }
    return at;
}

void bite_remedy_insert(bite_diagnosis *diagnosis, const bite_remedy *remedy)
{
    uint32_t same = find_same(diagnosis, &remedy->change);
    if (same < diagnosis->remedy_count) {
        const bite_remedy *now = &diagnosis->remedies[same];
        double share = now->trouble > likely ? 1.0 : worth_more;
        if (remedy->merit >= share * now->merit) {
            return;
        }
        memmove(&diagnosis->remedies[same], &diagnosis->remedies[same + 1],
                (diagnosis->remedy_count - same - 1) * sizeof *remedy);
        diagnosis->remedy_count--;
    }
    uint32_t at = diagnosis->remedy_count;
    while (at > 0 && diagnosis->remedies[at - 1].merit > remedy->merit) {
        at--;
    }
    if (at >= BITE_REMEDIES_MAX) {
        return;
    }
    uint32_t count = diagnosis->remedy_count < BITE_REMEDIES_MAX ? diagnosis->remedy_count
                                                                 : BITE_REMEDIES_MAX - 1;
    memmove(&diagnosis->remedies[at + 1], &diagnosis->remedies[at], (count - at) * sizeof *remedy);
    diagnosis->remedies[at] = *remedy;
    diagnosis->remedy_count = count + 1;
}
