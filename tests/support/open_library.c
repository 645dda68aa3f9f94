/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One library for a test, with its own tables. */
#include "tests/support/open_library.h"
#include "tests/support/support.h"

bite_test_shop shop;
bite_library *library;

void open_library(void)
{
    bite_test_shop_make(&shop);
    library = bite_test_shop_open(&shop, NULL);
}

void close_library(void)
{
    bite_library_close(library);
    bite_test_remove(shop.root);
}

bite_answer *answer_of_typed(const bite_library *of, const char *const typed[][2], size_t count,
                             size_t draws)
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_new(of, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    for (size_t i = 0; i < count; i++) {
        ck_assert_int_eq(bite_request_set(request, typed[i][0], typed[i][1], NULL), BITE_OK);
    }
    ck_assert_int_eq(bite_answer_new(request, draws, 0.95, &answer, NULL), BITE_OK);
    bite_request_free(request);
    return answer;
}
