/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One cell of a table: reading its text into the members of bite_cell. cell->field is set. */
#ifndef BITE_TABLES_FIELD_VALUE_H
#define BITE_TABLES_FIELD_VALUE_H

#include "core/tables/typed_table.h"

bite_status bite_cell_figure(const char *text, bite_cell *cell, bite_error *error); /* value, low, high, banded */
bite_status bite_cell_curve(const char *text, bite_cell *cell, bite_error *error);
bite_status bite_cell_word(const char *text, bite_cell *cell, bite_error *error);

#endif
