/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tests/support/test_locale.h"
#include "tests/support/support.h"
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

const char *const bite_test_locales[BITE_TEST_LOCALES] = {"C", "de_DE.UTF-8", "tr_TR.UTF-8",
                                                          "ps_AF.UTF-8"};

void bite_test_set_locale(const char *name)
{
    char compiled[700];
    bite_test_build(compiled, sizeof compiled, "tests/locales");
    if (setlocale(LC_ALL, name) != NULL ||
        (setenv("LOCPATH", compiled, 1) == 0 && setlocale(LC_ALL, name) != NULL)) {
        return;
    }
    ck_assert_msg(getenv("BITE_TEST_LOCALES") == NULL, "there is no locale %s", name);
    fprintf(stderr, "there is no locale %s: not tried\n", name);
}
