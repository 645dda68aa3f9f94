/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One library for a test, with its own tables. */
#include "tests/support/open_library.h"

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
