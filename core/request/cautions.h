/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions of the library's own checks and of the material family, with this case's numbers filled
 * in. */
#ifndef BITE_REQUEST_CAUTIONS_H
#define BITE_REQUEST_CAUTIONS_H

#include "core/request/answer.h"

/** Collects the cautions of the plausibility checks and of the family into the answer, danger
 * first. */
bite_status bite_answer_collect_cautions(bite_answer *answer, bite_error *error);

#endif
