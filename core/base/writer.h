/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A writer over the caller's sink, which remembers that the sink refused. */
#ifndef BITE_BASE_WRITER_H
#define BITE_BASE_WRITER_H

#include <coolbite/coolbite.h>

/** status: BITE_OK, or BITE_CANNOT_WRITE once the sink has refused; nothing is written after that.
 */
typedef struct bite_writer {
    bite_sink sink;
    void *user;
    bite_status status;
} bite_writer;

void bite_writer_text(bite_writer *writer, const char *text); /* ended by 0 */
void bite_writer_part(bite_writer *writer, const char *text, size_t size);

#endif
