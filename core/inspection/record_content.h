/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of a record, applied one after another. */
#ifndef BITE_INSPECTION_RECORD_CONTENT_H
#define BITE_INSPECTION_RECORD_CONTENT_H

#include "core/inspection/record_line.h"
#include "core/inspection/record_model.h"

/** Applies the lines in the bytes that follow those that were read. What is left without a line end
 * is taken if it is sound, otherwise it is the torn line. Damages are added to the record.
 * BITE_NO_MEMORY: the record must not be used any more. */
BITE_CHECKED bite_status bite_record_take_lines(struct bite_record *record, const char *text,
                                                size_t size, bite_error *error);

/** Compares the head with the last seal, and adds a damage if it was changed since, or settles the
 * one that was added. Errors as bite_record_take_lines. */
BITE_CHECKED bite_status bite_record_check_seal(struct bite_record *record, bite_error *error);

/** The reading of a line; NULL: the line is not one. */
bite_reading *bite_record_reading_at(const struct bite_record *record, uint64_t line);

/** The damage that a line belongs to; NULL: none. */
bite_record_damage *bite_record_damage_at(const struct bite_record *record, uint64_t line);

/** The index of the characteristic of a number; SIZE_MAX: none. */
size_t bite_record_characteristic_index(const struct bite_record *record, uint32_t number);

#endif
