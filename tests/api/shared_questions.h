/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions to a library, and to handles of it, whose answers are text. */
#ifndef BITE_TESTS_API_SHARED_QUESTIONS_H
#define BITE_TESTS_API_SHARED_QUESTIONS_H

#include "tests/support/paper.h"
#include <coolbite/coolbite.h>

/** What is asked. All but the library may be NULL where only a library is asked. */
typedef struct bite_shared_handles {
    const bite_library *library;
    const bite_request *request;
    bite_answer *answer;
    bite_choice *choice;
    bite_window *window;
    bite_job *job;
    bite_batch *batch;
} bite_shared_handles;

typedef struct bite_shared_question bite_shared_question;
/** Asks, and writes the answer to a page; uses no assertion, for it runs on any thread. */
typedef bite_status bite_shared_ask(const bite_shared_handles *of, const bite_shared_question *what,
                                    bite_test_paper *page, bite_error *error);
struct bite_shared_question {
    bite_shared_ask *ask;
    const char *name;     /* of a material, a job file, a thing of the collection ... */
    uint32_t collection;  /* or a bite_format */
    bite_status expected; /* BITE_OK, or the refusal that is meant */
};

/** Questions to a library, of each way in: what they need is read when it is first asked for. */
extern const bite_shared_question bite_questions_of_library[];
extern const size_t bite_questions_of_library_count;
/** Questions to the handles. */
extern const bite_shared_question bite_questions_of_handles[];
extern const size_t bite_questions_of_handles_count;

/** Handles of the example's library. */
bite_shared_handles bite_shared_handles_make(void);
void bite_shared_handles_free(bite_shared_handles *of);

#endif
