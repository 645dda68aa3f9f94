/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A length at the reference temperature, from one that was read at another. SI units. */
#ifndef BITE_PHYSICS_MEASUREMENT_LENGTH_CORRECTION_H
#define BITE_PHYSICS_MEASUREMENT_LENGTH_CORRECTION_H

/** The reference temperature of lengths, K: 20 degC (ISO 1). */
#define BITE_REFERENCE_TEMPERATURE 293.15

/** What a reading was taken of, with what, and how well that is known (standard uncertainties). */
typedef struct bite_length_reading {
    double length;                      /* m, as read */
    double part_expansion;              /* 1/K */
    double part_temperature;            /* K */
    double gauge_expansion;             /* 1/K; 0: the gauge corrects itself */
    double gauge_temperature;           /* K */
    double length_uncertainty;          /* m, of the gauge and its use */
    double part_expansion_uncertainty;  /* 1/K */
    double gauge_expansion_uncertainty; /* 1/K */
    double temperature_uncertainty;     /* K, of the part and of the gauge, each */
} bite_length_reading;

/** The length at 20 degC: L (1 - a_p (T_p - 20 degC) + a_g (T_g - 20 degC)), to first order (ISO/TR
 * 16015:2003 by its scope; the form is common). A part that is warm by a gauge at 20 degC reads too
 * long, a gauge that is warm too short. */
double bite_length_at_reference(const bite_length_reading *reading);

/** Its standard uncertainty: the root of the sum of the squares of the reading's, of L (T - 20
 * degC) u(a) and of L a u(T), for part and gauge (Swyt 1994 for the two terms; GUM for the sum). */
double bite_length_uncertainty(const bite_length_reading *reading);

#endif
