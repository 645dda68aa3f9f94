/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error that the tool's deflection leaves on the wall. */
#include "tests/oracle/closed_forms/finished_wall.h"
#include "tests/support/test_formulas.h"
#include <math.h>

/* Between two kinks the error of the wall is smooth over its height: it is computed at their ends
 * and in steps of the lag of the helix. */
static const double wall_step = 0.25; /* rad */

/* Called for each instant at which a height of the wall is finished. */
typedef void (*visit_point)(void *work, const bite_wall_point *point);

/* Visits the wall at phi_wall between two tip angles of one span of the force. from: the first
 * angle less span.away. */
static void visit_between(const bite_edge_integrals *edges, bite_edge_span span, double phi_wall,
                          bite_angle from, double to, int first, double sign, visit_point visit,
                          void *work)
{
    double whole = to - span.away - from.at;
    int steps = 1 + (int)(whole / wall_step);
    bite_angle step = bite_angle_small(whole / steps);
    double rise = 1.0 / edges->lag;
    for (int i = 0; i <= steps; i++) {
        if (i >= first) {
            bite_wall_point point;
            point.sign = sign;
            point.height = (from.at + span.away - phi_wall) * rise;
            bite_edge_within(edges, span, &from, point.met);
            visit(work, &point);
        }
        from = bite_angle_sum(from.at + step.at, from, step);
    }
}

/* Each height of the wall is finished at its own instant, phi_tip = phi_wall + height tan(beta)/R:
 * from foot to top, span by span.
 */
static void visit_wall(const bite_edge_integrals *edges, double phi_wall, double sign,
                       visit_point visit, void *work)
{
    double top = phi_wall + edges->depth * edges->lag;
    double low = fmin(phi_wall, top);
    double high = fmax(phi_wall, top);
    bite_edge_span span = bite_edge_span_at(edges, low);
    bite_angle from = bite_angle_of(low - span.away);
    int first = 0;
    for (; span.end < high;
         span = bite_edge_span_next(edges, span), from = edges->kink[span.kink].angle) {
        visit_between(edges, span, phi_wall, from, span.end, first, sign, visit, work);
        first = 1; /* the load is continuous: a span begins with the value at the end of the one
                      before */
    }
    visit_between(edges, span, phi_wall, from, high, first, sign, visit, work);
}

static void visit_walls(const bite_edge_integrals *edges, bite_arc arc, visit_point visit,
                        void *work)
{
    /* The finishing edge is about to enter or has just left: a small angle inside the arc, where it
     * still cuts. */
    const double inset = 1e-9;
    if (arc.leave >= M_PI) {
        visit_wall(edges, M_PI - inset, 1.0, visit, work);
    }
    if (arc.enter <= 0.0) {
        visit_wall(edges, inset, -1.0, visit, work);
    }
}

static void store_point(void *work, const bite_wall_point *point)
{
    bite_wall *wall = work;
    if (wall->count < BITE_WALL_POINTS) {
        wall->points[wall->count] = *point;
    }
    wall->count++;
}

void bite_wall_init(bite_wall *wall, const bite_edge_integrals *edges, bite_arc arc)
{
    wall->count = 0;
    visit_walls(edges, arc, store_point, wall);
}

/* The largest errors so far. */
typedef struct wall_measure {
    const bite_tool_deflection *bend;
    const bite_pressure *pressure;
    bite_wall_errors worst;
} wall_measure;

static void update_worst(void *work, const bite_wall_point *point)
{
    wall_measure *measure = work;
    double *worst = point->sign > 0.0 ? &measure->worst.climb : &measure->worst.conventional;
    double left = point->sign * bite_force_of(measure->pressure, point->met).y *
                  bite_tool_deflection_at(measure->bend, point->height);
    *worst = fabs(left) <= fabs(*worst) ? *worst : left; /* the first one replaces a NaN */
}

bite_wall_errors bite_tool_deflection_wall_errors(const bite_tool_deflection *deflection,
                                                  const bite_pressure *pressure,
                                                  const bite_edge_integrals *edges, bite_arc arc,
                                                  const bite_wall *wall)
{
    wall_measure measure = {deflection, pressure, {(double)NAN, (double)NAN}};
    if (wall->count > BITE_WALL_POINTS) { /* a helix of many turns */
        visit_walls(edges, arc, update_worst, &measure);
        return measure.worst;
    }
    for (int i = 0; i < wall->count; i++) {
        update_worst(&measure, &wall->points[i]);
    }
    return measure.worst;
}
