/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a judged cut shows to the cautions of tables and plugins. */
#ifndef BITE_LIBRARY_CASE_VIEW_H
#define BITE_LIBRARY_CASE_VIEW_H

#include <coolbite/coolbite.h>

/** A judged cut, read by name. Numbers are in SI, temperatures in K. */
typedef struct bite_case_view {
    void *user;
    double (*number)(void *user, const char *name);      /* NaN: no such number, or no value */
    const char *(*choice)(void *user, const char *name); /* NULL: not given */
    /* The kind of a number, which fixes its unit; BITE_KIND_COUNT: no such number. */
    bite_kind (*kind)(void *user, const char *name);
    /* Receives a caution whose {places} are not filled yet. text is copied by the callee; 0: no
     * memory. */
    int (*caution)(void *user, const char *name, uint32_t severity, const char *text,
                   const char *source);
} bite_case_view;

#endif
