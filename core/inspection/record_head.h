/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The head of a record, an INI text: which part, and what is measured on it. */
#ifndef BITE_INSPECTION_RECORD_HEAD_H
#define BITE_INSPECTION_RECORD_HEAD_H

#include "core/inspection/record_reader.h"

/** Reads a head into the record; the rest of it is as bite_record_head_init left it. Faults are
 * reported to the reader, which counts them. BITE_NO_MEMORY, BITE_IO: the head cannot be read. */
bite_status bite_record_head_read(bite_record_reader *reader, const char *text, size_t size,
                                  bite_error *error);

/** Nothing stated. */
void bite_record_head_init(struct bite_record *record);
void bite_characteristic_init(bite_characteristic *characteristic);

/** Sets a text of the section [record] by its key ("lot"); the text is borrowed. BITE_UNKNOWN_NAME:
 * no such key; BITE_OUT_OF_RANGE: a head cannot have this text. */
bite_status bite_record_head_set(struct bite_record *record, const char *key, const char *text,
                                 bite_error *error);

/** A text of the section [record] by its key; NULL: no such key. Borrowed. */
const char *bite_record_head_text(const struct bite_record *record, const char *key);

/** Writes the head, up to and with the line [readings], to the sink. Texts that a head cannot have
 * are written with apostrophes for quotation marks and slashes for backslashes. */
bite_status bite_record_head_write(const struct bite_record *record, bite_sink sink, void *user);

#endif
