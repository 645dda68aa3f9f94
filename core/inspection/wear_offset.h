/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the measured sizes say of the cut that made them, and the correction of the next one. */
#ifndef BITE_INSPECTION_WEAR_OFFSET_H
#define BITE_INSPECTION_WEAR_OFFSET_H

#include <stddef.h>
#include <stdint.h>

/** What is asked. SI; NaN: not stated. */
typedef struct bite_offset_question {
    const double *parts; /* sizes of the parts, in the order in which they were made */
    size_t count;
    uint32_t measures; /* a bite_measured */
    double nominal;
    double lower;
    double upper;
    double uncertainty; /* standard, of one reading; NaN counts as 0 here */
    double wall_error;  /* predicted, of one wall, without sign; and its band */
    double wall_error_low;
    double wall_error_high;
} bite_offset_question;

/** Which offset of a control moves the size. */
typedef enum bite_offset_kind {
    BITE_OFFSET_NONE,   /* this kind of size has none, or nothing was measured */
    BITE_OFFSET_RADIUS, /* a wall: the tool's radius (or diameter) */
    BITE_OFFSET_LENGTH  /* a floor or a face: the tool's length */
} bite_offset_kind;

/** The measured error against the prediction. */
typedef enum bite_offset_match {
    BITE_MATCH_UNKNOWN, /* nothing was predicted */
    BITE_MATCH_WITHIN,  /* no larger than the high end of the band */
    BITE_MATCH_BEYOND,  /* larger, by more than its uncertainty */
    BITE_MATCH_UNCLEAR  /* larger, by less than its uncertainty */
} bite_offset_match;

/** Lengths in m; positive material means that too much was left standing. */
typedef struct bite_wear_offset {
    uint32_t kind;
    uint32_t match;
    double target;      /* the middle of the limits, else the nominal size */
    double mean;        /* of the parts */
    double deviation;   /* mean - target */
    double uncertainty; /* standard, of the deviation */
    double walls;       /* walls that the size has: 2 or 1 */
    double left;        /* material left, of each wall, or on the floor */
    double left_uncertainty;
    double unexplained;  /* of |left|, beyond the predicted band; 0: none */
    double spread;       /* standard deviation from part to part; NaN: fewer than 2 parts */
    double parts_spread; /* of it, without the readings' uncertainty; 0: none is seen; NaN */
    double drift;        /* of the size, for each part made; NaN: fewer than 6 parts */
    double drift_uncertainty;
    double expected;   /* size of the next part: the mean, or where the drift leads */
    uint32_t drifts;   /* 1: the drift is more than three times its uncertainty */
    uint32_t corrects; /* 1: what the next part would miss is more than twice that uncertainty */
    double radius;     /* what to add to the wear offset of the tool's radius; NaN: not that */
    double diameter;   /* ... or to that of its diameter */
    double length;     /* ... to that of its length */
} bite_wear_offset;

/**
 * The correction that brings the next parts to the target.
 *
 * A positive radius in a control keeps the tool's centre further from the wall, so that an outside
 * size grows and an inside size shrinks; a positive length lifts the tool. What was left standing
 * is therefore subtracted, for inside and outside sizes alike. The uncertainty of the mean is the
 * root of s^2/n + u^2: that of the instrument does not average out.
 */
void bite_wear_offset_of(const bite_offset_question *question, bite_wear_offset *offset);

#endif
