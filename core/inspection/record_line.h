/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One line of a record: its number in the file, what it does, its fields, and the checksum of all
 * that is before " ~".
 *
 *   37 read characteristic=3 part=1 trial=1 value="12.03mm" time=2026-11-30T19:25:49Z ~1a2b3c4d
 */
#ifndef BITE_INSPECTION_RECORD_LINE_H
#define BITE_INSPECTION_RECORD_LINE_H

#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_RECORD_LINE_MAX 1000 /* bytes, with the line end */
#define BITE_RECORD_VALUE_MAX 64  /* bytes of a value as typed, with the 0; so the next two */
#define BITE_RECORD_PERSON_MAX 104
#define BITE_RECORD_NOTE_MAX 304

#define BITE_RECORD_ACTIONS 5 /* of bite_record_action */

typedef struct bite_record_line {
    uint64_t number;
    uint64_t of;
    uint32_t action;         /* a bite_record_action */
    uint32_t characteristic; /* its number */
    uint32_t part;
    uint32_t trial;
    uint32_t head; /* the checksum of the head */
    uint32_t reserved;
    double temperature; /* K; NaN */
    double time;        /* s since 1970 UTC; NaN */
    char value[BITE_RECORD_VALUE_MAX];
    char person[BITE_RECORD_PERSON_MAX];
    char note[BITE_RECORD_NOTE_MAX];
} bite_record_line;

typedef enum bite_line_state {
    BITE_LINE_SOUND,
    BITE_LINE_DAMAGED, /* the checksum is missing or wrong */
    BITE_LINE_CUT      /* the end of a line that was cut off, closed by the next append */
} bite_line_state;

/** What closes a line that was cut off. */
#define BITE_RECORD_CUT " ~cut"

/** Whether a line (without its line end) is as it was written. */
bite_line_state bite_record_line_check(const char *text, size_t length);

/** Takes a sound line apart. Returns NULL, or what is not understood: a static text. */
const char *bite_record_line_read(const char *text, size_t length, bite_record_line *line);

/** Writes a line with its checksum and line end; the fields that its action has and that are
 * stated. Returns its length; 0: a text of it has a character that a line cannot have, or it does
 * not fit. */
size_t bite_record_line_write(const bite_record_line *line, char *text, size_t size);

/** Whether a text may be in a line: printable UTF-8 without quotation marks and backslashes,
 * shorter than `most` bytes. */
bool bite_record_text_fits(const char *text, size_t most);

#endif
