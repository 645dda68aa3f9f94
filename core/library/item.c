/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading one record by its keys. */
#include "core/library/item.h"
#include <math.h>
#include <string.h>

const bite_field_value *bite_item_field(const bite_item_record *record, const char *key)
{
    for (size_t i = 0; i < record->value_count; i++) {
        if (strcmp(record->values[i].field->name, key) == 0) {
            return &record->values[i];
        }
    }
    return NULL;
}

double bite_item_figure(const bite_item_record *record, const char *key)
{
    const bite_field_value *field_value = record == NULL ? NULL : bite_item_field(record, key);
    return field_value == NULL ? (double)NAN : field_value->value;
}

double bite_item_figure_or(const bite_item_record *record, const char *key, double otherwise)
{
    double figure = bite_item_figure(record, key);
    return isnan(figure) ? otherwise : figure;
}

const char *bite_item_text(const bite_item_record *record, const char *key)
{
    const bite_field_value *field_value = bite_item_field(record, key);
    return field_value == NULL || field_value->text == NULL ? "" : field_value->text;
}

uint32_t bite_item_word(const bite_item_record *record, const char *key, uint32_t fallback)
{
    const bite_field_value *field_value = bite_item_field(record, key);
    return field_value == NULL ? fallback : field_value->word;
}

int bite_item_is_yes(const bite_item_record *record, const char *key)
{
    return bite_item_word(record, key, 0) == 1;
}
