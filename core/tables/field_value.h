/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One cell of a table: reading its text into the members of bite_field_value. cell->field is set.
 */
#ifndef BITE_TABLES_FIELD_VALUE_H
#define BITE_TABLES_FIELD_VALUE_H

#include "core/tables/typed_table.h"

bite_status bite_field_value_figure(const char *text, bite_field_value *field_value,
                                    bite_error *error); /* value, low, high, banded */
bite_status bite_field_value_curve(const char *text, bite_field_value *field_value,
                                   bite_error *error);
bite_status bite_field_value_word(const char *text, bite_field_value *field_value,
                                  bite_error *error);

#endif
