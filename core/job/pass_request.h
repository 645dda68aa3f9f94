/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The request of a pass: what the job, its setup, its section and its feature say of the cut. */
#ifndef BITE_JOB_PASS_REQUEST_H
#define BITE_JOB_PASS_REQUEST_H

#include "core/job/plan.h"

/** A number (SI) rounded to nine digits of a unit, so that binary noise never reaches the plan.
 * NaN: the input stays open. */
bite_status bite_plan_set_number(bite_request *request, const char *input, double si,
                                 const char *unit, bite_error *error);

/** The request of a pass with its tool, job->tools[pass->tool]: owned, bite_request_free. Errors as
 * those of a request. */
bite_status bite_plan_request(const bite_job *job, size_t index, bite_request **request,
                              bite_error *error);

/** Sets the inputs of the limits of flatness and stock thickness, for the pass that frees the part.
 */
bite_status bite_plan_request_part(const bite_job *job, bite_request *request, bite_error *error);

#endif
