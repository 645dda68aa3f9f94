/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arc of contact of one cut, from the formulas of core/physics/geometry/engagement.h. */
#ifndef BITE_TESTS_SUPPORT_TEST_ENGAGEMENT_H
#define BITE_TESTS_SUPPORT_TEST_ENGAGEMENT_H

#include "core/physics/geometry/engagement.h"

/** The arc of a straight pass with this span, rad. */
bite_arc bite_engagement_arc(double span, bite_side side);

/** The arc of a straight pass. */
bite_arc bite_engagement_straight(double diameter, double width, bite_side side);

/** The arc in an inside corner. */
bite_arc bite_engagement_corner(double diameter, double width, bite_side side,
                                double inside_radius);

double bite_engagement_span(bite_arc arc);

/** Largest of sin(phi) over the arc, and its mean: chip thickness / feed per tooth. */
double bite_engagement_sine_most(bite_arc arc);
double bite_engagement_sine_mean(bite_arc arc);

#endif
