/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sink that keeps a page, and can refuse. */
#ifndef BITE_TESTS_PAPER_H
#define BITE_TESTS_PAPER_H

#include <stddef.h>

#define BITE_PAPER_MOST (1u << 21)

typedef struct bite_test_paper {
    char text[BITE_PAPER_MOST]; /* ended by 0 */
    size_t size;
    size_t calls;
    size_t most;   /* bytes with the 0 that it holds; 0: all there is room for */
    size_t refuse; /* fails at this call and all after it; 0: never */
} bite_test_paper;

/** Empties it; from now on it fails at that call. */
void bite_test_paper_start(bite_test_paper *paper, size_t refuse);

/** A bite_sink; user: the paper. */
int bite_test_paper_take(void *user, const char *text, size_t size);

/** How often a text is in it. */
size_t bite_test_paper_times(const bite_test_paper *paper, const char *what);

#endif
