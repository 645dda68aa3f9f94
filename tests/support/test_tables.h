/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The project's tables and built families in a private folder, so that the tests also pass in a
 * clone with another umask or owner. */
#ifndef BITE_TESTS_SUPPORT_TEST_TABLES_H
#define BITE_TESTS_SUPPORT_TEST_TABLES_H

#include "tests/support/support.h"

typedef struct bite_test_shop {
    char root[400];
    char families[500];
    char tables[500];
} bite_test_shop;

/** Makes the folder with all tables and families; remove it with bite_test_remove(shop->root). */
void bite_test_shop_make(bite_test_shop *shop);
/** Puts one more built module among the families, as NAME.so. */
void bite_test_shop_put(const bite_test_shop *shop, const char *built, const char *as);
/** Opens it; fails the test if that fails. */
bite_library *bite_test_shop_open(const bite_test_shop *shop, const bite_allocator *allocator);

#endif
