/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A writer over the caller's sink. */
#include "core/base/writer.h"
#include <string.h>

void bite_writer_part(bite_writer *writer, const char *text, size_t size)
{
    if (writer->status == BITE_OK && size > 0 && writer->sink(writer->user, text, size) != 0) {
        writer->status = BITE_CANNOT_WRITE;
    }
}

void bite_writer_text(bite_writer *writer, const char *text)
{
    bite_writer_part(writer, text, strlen(text));
}
