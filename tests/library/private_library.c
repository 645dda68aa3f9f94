/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables and plugins for one test, which can change them before the library opens them. */
#include "tests/library/private_library.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bite_test_shop private_shop;
const char *const families = private_shop.families;
const char *const tables = private_shop.tables;
const char *const private_root = private_shop.root;

void private_setup(void)
{
    bite_test_shop_make(&private_shop);
    (void)unsetenv("COOLBITE_FAMILY_PATH");
    (void)unsetenv("COOLBITE_TABLE_PATH");
    (void)setenv("HOME", private_root, 1);
    (void)unsetenv("XDG_CONFIG_HOME");
    (void)unsetenv("XDG_DATA_HOME");
}

void private_teardown(void)
{
    bite_test_remove(private_root);
}

bite_library *open_private_library(const bite_allocator *allocator)
{
    return bite_test_shop_open(&private_shop, allocator);
}

void write_table(const char *name, const char *text)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/%s", tables, name);
    bite_test_write(path, text, strlen(text));
}

void put_family(const char *built, const char *as)
{
    bite_test_shop_put(&private_shop, built, as);
}
