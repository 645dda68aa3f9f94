/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the library writes, kept as one text. */
#ifndef BITE_TEST_WRITTEN_TEXT_H
#define BITE_TEST_WRITTEN_TEXT_H

#include <stddef.h>

typedef struct bite_written_text {
    char *at;    /* owned: free; NULL: nothing was written */
    size_t size; /* without the null at its end */
} bite_written_text;

/** A bite_sink; user: a bite_written_text, all zero at first. */
int bite_written_text_add(void *user, const char *piece, size_t size);

#endif
