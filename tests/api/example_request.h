/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An example request in a shop of its own, with good options for every call and bad members. */
#ifndef BITE_TESTS_API_EXAMPLE_REQUEST_H
#define BITE_TESTS_API_EXAMPLE_REQUEST_H

#include "tests/support/test_tables.h"

#define BITE_HOSTILE_NUMBERS 9
#define BITE_HOSTILE_WORDS 5

/** Numbers that no member accepts, NaN first. */
extern const double bite_hostile_numbers[BITE_HOSTILE_NUMBERS];
extern const uint32_t bite_hostile_words[BITE_HOSTILE_WORDS];

extern bite_test_shop bite_example_shop;
extern bite_library *bite_example_library;
extern bite_request *bite_example_request;

/** Fixture: opens the shop and makes the request; and undoes both. */
void bite_example_open(void);
void bite_example_close(void);

/** Fails unless the status is the wanted one, the error has words, and its key begins with key. */
void bite_assert_refused(bite_status status, bite_status wanted, const bite_error *error,
                         const char *key);

bite_choice_options bite_example_choice(void);
bite_window_options bite_example_window(void);
bite_job_options bite_example_job(void);
bite_answer *bite_example_answer(size_t draws);

#endif
