/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a machinist is told about drilling, tapping and reaming a material. */
#ifndef BITE_REQUEST_HOLE_CAUTIONS_H
#define BITE_REQUEST_HOLE_CAUTIONS_H

#include "core/request/answer.h"
#include <coolbite/family.h>

/** Hands the cautions of a drilled, tapped or reamed hole to the view; of other cuts there are
 * none. The texts may have places, which the view fills. Returns 0: no memory. */
int bite_hole_cautions(const bite_answer *answer, const bite_case_view *view);

#endif
