/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A writer over the caller's sink, which collects 4 KiB for each call of it, and remembers that the
 * sink refused. */
#ifndef BITE_BASE_WRITER_H
#define BITE_BASE_WRITER_H

#include <coolbite/coolbite.h>

/** status: BITE_OK, or BITE_CANNOT_WRITE once the sink has refused; nothing is written after that.
 */
typedef struct bite_writer {
    bite_sink sink;
    void *user;
    bite_status status;
    uint32_t size;   /* of what is collected */
    char text[4096]; /* a call into another language costs more than its bytes */
} bite_writer;

void bite_writer_start(bite_writer *writer, bite_sink sink, void *user);
void bite_writer_text(bite_writer *writer, const char *text); /* ended by 0 */
void bite_writer_part(bite_writer *writer, const char *text, size_t size);
/** Hands what was collected to the sink; returns the status. */
bite_status bite_writer_end(bite_writer *writer);

#endif
