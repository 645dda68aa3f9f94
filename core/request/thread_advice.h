/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do for a thread in a material: drill, speed, torque, depth, wall, inserts. */
#ifndef BITE_REQUEST_THREAD_ADVICE_H
#define BITE_REQUEST_THREAD_ADVICE_H

#include "core/library/item.h"
#include "core/library/material_record.h"
#include <coolbite/coolbite.h>

#define BITE_THREAD_DRILLS 3
#define BITE_THREAD_INSERTS 4

/** A drill and the share of thread that it leaves. */
typedef struct bite_thread_drill {
    const char *name;
    double diameter; /* m */
    double share;    /* 1 */
} bite_thread_drill;

/** A threaded insert for the thread. */
typedef struct bite_thread_insert {
    const bite_item_record *record;
    uint32_t unfit; /* 1: not for this material */
    double outer;   /* m */
    double hole;    /* m */
    double boss;    /* m, diameter of the material around it */
} bite_thread_insert;

/** Lengths in m; NaN: not known. Records and texts are borrowed until the library closes. */
typedef struct bite_thread_advice {
    const bite_item_record *thread;
    const bite_material *material;
    const bite_item_record *usual;    /* of tapping in hole_work.ini; NULL: it has nothing */
    const bite_item_record *drilling; /* likewise */
    double diameter;
    double pitch;
    double share;                                 /* of thread that is usual */
    double hole;                                  /* for that share */
    bite_thread_drill drills[BITE_THREAD_DRILLS]; /* the nearest first, then a smaller, a larger */
    size_t drill_count;
    double speed;  /* m/s */
    double turns;  /* 1/s */
    double feed;   /* m/s */
    double torque; /* N m, with its band */
    double torque_low;
    double torque_high;
    double strength;     /* N m, at which the tap breaks */
    double length;       /* of thread */
    double blind;        /* depth of the full diameter of a blind hole for that length */
    double wall;         /* around the thread */
    double forming_hole; /* for a forming tap; NaN: not in this material */
    bite_thread_insert inserts[BITE_THREAD_INSERTS]; /* of plastics and boards */
    size_t insert_count;
} bite_thread_advice;

/** thread and material: names. BITE_UNKNOWN_NAME, BITE_NO_MEMORY, errors of bite_answer_new. */
bite_status bite_thread_advise(const bite_library *library, const char *thread,
                               const char *material, bite_thread_advice *advice, bite_error *error);

#endif
