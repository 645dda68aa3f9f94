/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cautions of a grade: those of its family, and of families that it is like. */
#ifndef BITE_LIBRARY_GRADE_CAUTIONS_H
#define BITE_LIBRARY_GRADE_CAUTIONS_H

#include "core/library/library_internal.h"
#include <stdbool.h>

/** Sets the rules of a material. False: no memory. */
bool bite_grade_cautions(const bite_library *library, const bite_family_state *family,
                         const bite_grade_state *grade, bite_material *material);

#endif
