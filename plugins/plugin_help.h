/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What plugins share: words of a cut, and cautions. Inline, because a plugin links to nothing of
 * the library. */
#ifndef BITE_PLUGINS_PLUGIN_HELP_H
#define BITE_PLUGINS_PLUGIN_HELP_H

#include <coolbite/family.h>
#include <math.h>
#include <string.h>

/* Whether an input of the judged cut is this word. */
static inline int choice_is(const struct bite_host *host, const struct bite_case *judged,
                            const char *name, const char *word)
{
    const char *choice = host->choice(judged, name);
    return choice != NULL && strcmp(choice, word) == 0;
}

/* Adds a caution that the part or the tool is at risk. Fails only if the host refused it. */
static inline enum bite_family_status add_care(const struct bite_host *host,
                                               struct bite_case *judged, const char *name,
                                               const char *text, const char *source)
{
    return host->caution(judged, name, BITE_CARE, text, source) == 0 ? BITE_FAMILY_OK
                                                                     : BITE_FAMILY_FAULT;
}

/* Sets a figure of the plugin's own that the grade does not state: grades of other tables need not
 * know it. */
static inline enum bite_family_status set_usual(const struct bite_host *host,
                                                struct bite_grade *grade, const char *name,
                                                const struct bite_figure *usual, const char *source)
{
    return !isnan(host->figure(grade, name).value) || host->set(grade, name, usual, source) == 0
               ? BITE_FAMILY_OK
               : BITE_FAMILY_FAULT;
}

/* Sets a figure to itself and its band times a factor; a grade that does not state it stays as it
 * is. */
static inline enum bite_family_status scale_figure(const struct bite_host *host,
                                                   struct bite_grade *grade, const char *name,
                                                   double factor, const char *source)
{
    struct bite_figure figure = host->figure(grade, name);
    if (isnan(figure.value)) {
        return BITE_FAMILY_OK;
    }
    figure.value *= factor;
    figure.low *= factor;
    figure.high *= factor;
    return host->set(grade, name, &figure, source) == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
}

#endif
