/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measuring instruments. */
#include "core/inspection/instrument.h"
#include "core/base/text.h"
#include <math.h>

static double or_zero(double value)
{
    return isnan(value) ? 0.0 : value;
}

void bite_instrument_read(const bite_item_record *record, bite_instrument *instrument)
{
    instrument->record = record;
    instrument->judges = bite_item_is_yes(record, "judges");
    instrument->resolution = bite_item_figure(record, "resolution");
    instrument->error_limit = bite_item_figure(record, "error_limit");
    instrument->error_share = bite_item_figure(record, "error_share");
    instrument->handling = bite_item_figure(record, "handling");
    instrument->force = bite_item_figure(record, "force");
    instrument->contact = bite_item_word(record, "contact", BITE_CONTACT_NONE);
    instrument->contact_size = bite_item_figure(record, "contact_size");
    instrument->expansion = bite_item_figure(record, "expansion");
    instrument->least = bite_item_figure(record, "least");
    instrument->most = bite_item_figure(record, "most");
}

int bite_instrument_measures(const bite_instrument *instrument, const char *what)
{
    return bite_text_list_has(bite_item_text(instrument->record, "measures"), what,
                              bite_text_equals_part);
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
