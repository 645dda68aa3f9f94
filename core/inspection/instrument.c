/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measuring instruments. */
#include "core/inspection/instrument.h"
#include <math.h>
#include <string.h>

static double figure(const bite_item_record *record, const char *key)
{
    const bite_field_value *value = bite_item_field(record, key);
    return value == NULL ? (double)NAN : value->value;
}

static double or_zero(double value)
{
    return isnan(value) ? 0.0 : value;
}

void bite_instrument_read(const bite_item_record *record, bite_instrument *instrument)
{
    instrument->record = record;
    instrument->judges = bite_item_is_yes(record, "judges");
    instrument->resolution = figure(record, "resolution");
    instrument->error_limit = figure(record, "error_limit");
    instrument->error_share = figure(record, "error_share");
    instrument->handling = figure(record, "handling");
    instrument->force = figure(record, "force");
    instrument->contact = bite_item_word(record, "contact", BITE_CONTACT_NONE);
    instrument->contact_size = figure(record, "contact_size");
    instrument->expansion = figure(record, "expansion");
    instrument->least = figure(record, "least");
    instrument->most = figure(record, "most");
}

int bite_instrument_measures(const bite_instrument *instrument, const char *what)
{
    const char *at = bite_item_text(instrument->record, "measures");
    size_t length = strlen(what);
    while (*at != 0) {
        size_t word = strcspn(at, " ");
        if (word == length && strncmp(at, what, length) == 0) {
            return 1;
        }
        at += word;
        at += strspn(at, " ");
    }
    return 0;
}

double bite_instrument_uncertainty(const bite_instrument *instrument, double length)
{
    double limit =
        or_zero(instrument->error_limit) + or_zero(instrument->error_share) * fabs(length);
    double step = or_zero(instrument->resolution);
    double handling = or_zero(instrument->handling);
    return instrument->judges
               ? (double)NAN
               : sqrt(limit * limit / 3.0 + step * step / 12.0 + handling * handling);
}
