/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A writer over the caller's sink. */
#include "core/base/writer.h"
#include <string.h>

void bite_writer_start(bite_writer *writer, bite_sink sink, void *user)
{
    writer->sink = sink;
    writer->user = user;
    writer->status = BITE_OK;
    writer->size = 0;
}

bite_status bite_writer_end(bite_writer *writer)
{
    size_t size = writer->size;
    writer->size = 0;
    if (writer->status == BITE_OK && size > 0 &&
        writer->sink(writer->user, writer->text, size) != 0) {
        writer->status = BITE_CANNOT_WRITE;
    }
    return writer->status;
}

void bite_writer_part(bite_writer *writer, const char *text, size_t size)
{
    while (writer->status == BITE_OK && size > 0) {
        size_t part = sizeof writer->text - writer->size;
        part = size < part ? size : part;
        memcpy(writer->text + writer->size, text, part);
        writer->size += (uint32_t)part;
        text += part;
        size -= part;
        if (writer->size == sizeof writer->text) {
            (void)bite_writer_end(writer);
        }
    }
}

void bite_writer_text(bite_writer *writer, const char *text)
{
    bite_writer_part(writer, text, strlen(text));
}
