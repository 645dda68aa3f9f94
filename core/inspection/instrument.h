/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A measuring instrument of the tables: how well it reads, and what its force does to a part. */
#ifndef BITE_INSPECTION_INSTRUMENT_H
#define BITE_INSPECTION_INSTRUMENT_H

#include "core/library/item.h"

/** How an instrument touches the part: the words of its table key `contact`. */
enum { BITE_CONTACT_NONE, BITE_CONTACT_FLAT, BITE_CONTACT_BALL, BITE_CONTACT_BLADES };

/** SI; NaN: the table does not state it. */
typedef struct bite_instrument {
    const bite_item_record *record; /* borrowed from the library */
    int judges;                     /* 1: accepts or rejects, has no number */
    double resolution;
    double error_limit;
    double error_share;
    double handling;
    double force; /* N */
    uint32_t contact;
    double contact_size; /* m, the diameter of a face or the radius of a ball */
    double expansion;    /* 1/K */
    double least;
    double most;
} bite_instrument;

/** Reads a record of the collection of instruments. */
void bite_instrument_read(const bite_item_record *record, bite_instrument *instrument);

/** Whether it measures that: a word of its key `measures`. */
int bite_instrument_measures(const bite_instrument *instrument, const char *what);

/** The standard uncertainty of one reading of a length, m: the root of the sum of the squares of
 * (error_limit + error_share L)/sqrt(3), resolution/sqrt(12) (GUM 4.3.7, 4.4.1, rectangular) and
 * handling. What is not stated counts as 0; NaN for an instrument that judges. */
double bite_instrument_uncertainty(const bite_instrument *instrument, double length);

#endif
