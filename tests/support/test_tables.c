/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables and families in a private folder. */
#include "tests/support/test_tables.h"
#include <stdio.h>
#include <sys/stat.h>

static void copy_file(const char *from, const char *to)
{
    static char bytes[1 << 20];
    FILE *file = fopen(from, "rb");
    if (file == NULL) {
        bite_test_stop("%s cannot be read", from);
    }
    size_t size = fread(bytes, 1, sizeof bytes, file);
    (void)fclose(file);
    bite_test_write(to, bytes, size);
    if (chmod(to, 0644) != 0) {
        bite_test_stop("%s cannot be opened to others", to);
    }
}

static void copy_tables(const bite_test_shop *shop)
{
    static const char *const names[] = {"tools.ini",
                                        "holders.ini",
                                        "machines.ini",
                                        "coolants.ini",
                                        "fluids.ini",
                                        "workholding.ini",
                                        "sheet_stock.ini",
                                        "symptoms.ini",
                                        "instruments.ini",
                                        "threads.ini",
                                        "drills.ini",
                                        "hole_work.ini",
                                        "uncertainty.ini",
                                        "materials/abs.ini",
                                        "materials/acetal.ini",
                                        "materials/acrylic.ini",
                                        "materials/aluminium.ini",
                                        "materials/brass.ini",
                                        "materials/bronze.ini",
                                        "materials/carbon-laminate.ini",
                                        "materials/cast-iron.ini",
                                        "materials/copper.ini",
                                        "materials/glass-laminate.ini",
                                        "materials/graphite.ini",
                                        "materials/magnesium.ini",
                                        "materials/nickel-alloy.ini",
                                        "materials/nylon.ini",
                                        "materials/peek.ini",
                                        "materials/pei.ini",
                                        "materials/pet.ini",
                                        "materials/petg.ini",
                                        "materials/phenolic-laminate.ini",
                                        "materials/pla.ini",
                                        "materials/polycarbonate.ini",
                                        "materials/polyethylene.ini",
                                        "materials/polypropylene.ini",
                                        "materials/polystyrene.ini",
                                        "materials/ptfe.ini",
                                        "materials/pvc.ini",
                                        "materials/stainless.ini",
                                        "materials/steel.ini",
                                        "materials/titanium.ini",
                                        "materials/tooling-board.ini",
                                        "materials/wax.ini",
                                        "materials/wood.ini"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char from[4096];
        char name[100];
        char to[700];
        (void)snprintf(name, sizeof name, "tables/%s", names[i]);
        bite_test_source(from, sizeof from, name);
        (void)snprintf(to, sizeof to, "%s/%s", shop->tables, names[i]);
        copy_file(from, to);
    }
}

void bite_test_shop_put(const bite_test_shop *shop, const char *built, const char *as)
{
    char from[4096];
    char to[700];
    bite_test_build(from, sizeof from, built);
    (void)snprintf(to, sizeof to, "%s/%s.so", shop->families, as);
    copy_file(from, to);
}

void bite_test_shop_make(bite_test_shop *shop)
{
    static const char *const plugins[] = {
        "acrylic", "aluminium",     "carbon-laminate", "glass-laminate", "magnesium",
        "nylon",   "polycarbonate", "stainless",       "titanium",       "wood"};
    char materials[600];
    bite_test_folder(shop->root, sizeof shop->root);
    (void)snprintf(shop->families, sizeof shop->families, "%s/families", shop->root);
    (void)snprintf(shop->tables, sizeof shop->tables, "%s/tables", shop->root);
    (void)snprintf(materials, sizeof materials, "%s/materials", shop->tables);
    if (mkdir(shop->families, 0755) != 0 || chmod(shop->families, 0755) != 0 ||
        mkdir(shop->tables, 0755) != 0 || mkdir(materials, 0755) != 0) {
        bite_test_stop("cannot make folders below %s", shop->root);
    }
    copy_tables(shop);
    for (size_t i = 0; i < sizeof plugins / sizeof *plugins; i++) {
        char built[80];
        (void)snprintf(built, sizeof built, "plugins/.libs/%s.so", plugins[i]);
        bite_test_shop_put(shop, built, plugins[i]);
    }
}

bite_library *bite_test_shop_open(const bite_test_shop *shop, const bite_allocator *allocator)
{
    bite_library_options options = {sizeof options, allocator, shop->families, shop->tables};
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    if (bite_library_open(&options, &library, &error) != BITE_OK) {
        bite_test_stop("%s", error.message);
    }
    return library;
}
