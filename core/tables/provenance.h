/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sources: "grade: where". */
#ifndef BITE_TABLES_PROVENANCE_H
#define BITE_TABLES_PROVENANCE_H

#include "core/tables/typed_table.h"
#include <stdbool.h>

/** Splits "paper: Author Year" at its grade; *where: what follows, without blanks. False: no grade
 * that we know, or nothing behind one that needs a place. */
bool bite_source_read(const char *text, bite_source_grade *grade, const char **where);

const char *bite_source_grade_name(bite_source_grade grade);

#endif
