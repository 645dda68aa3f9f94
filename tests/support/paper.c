/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sink that keeps a page, and can refuse. */
#include "tests/support/paper.h"
#include <string.h>

void bite_test_paper_start(bite_test_paper *paper, size_t refuse)
{
    paper->size = paper->calls = 0;
    paper->refuse = refuse;
    paper->text[0] = 0;
}

int bite_test_paper_take(void *user, const char *text, size_t size)
{
    bite_test_paper *paper = user;
    size_t most = paper->most == 0 ? sizeof paper->text : paper->most;
    paper->calls++;
    if ((paper->refuse > 0 && paper->calls >= paper->refuse) || size >= most - paper->size) {
        return 1;
    }
    memcpy(paper->text + paper->size, text, size);
    paper->size += size;
    paper->text[paper->size] = 0;
    return 0;
}

size_t bite_test_paper_times(const bite_test_paper *paper, const char *what)
{
    size_t count = 0;
    for (const char *at = strstr(paper->text, what); at != NULL; at = strstr(at + 1, what)) {
        count++;
    }
    return count;
}
