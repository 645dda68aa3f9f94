/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets as sellers list them: in millimetres, in inches or in both, with tolerances by rule or in
 * steps. */
#include "core/job/sheet_record.h"
#include "core/library/collection.h"
#include "tests/job/job_fixture.h"
#include <math.h>
#include <stdio.h>

static const bite_item_record *sheet_with(const char *keys)
{
    char table[1000];
    const bite_item_record *record = NULL;
    int length = snprintf(table, sizeof table,
                          "[format]\nkind = sheets\nversion = 1\n[sheet.acrylic.cast]\n"
                          "title = sheet of the shop\nlists = memory\n%s",
                          keys);
    ck_assert(length > 0 && (size_t)length < sizeof table);
    job_own_table("sheet_stock.ini", table);
    ck_assert_int_eq(bite_library_record(job_library, BITE_SHEETS, "acrylic.cast", &record, NULL),
                     BITE_OK);
    return record;
}

#define METRIC "fixed = 0.2 mm\nfixed.source = memory\nshare = 5 %\nshare.source = memory\n"
#define INCHES                                                                                     \
    "inch_fixed = 0.1 mm\ninch_fixed.source = memory\ninch_share = 10 %\n"                         \
    "inch_share.source = memory\n"

/* A sheet of 10 mm may be off by 0.2 mm and 5 %, 0.7 mm, or, where it is sold in inches, by 0.1 mm
 * and 10 %, 1.1 mm. What is sold in one system alone is that for both. A number without a unit, as
 * every other word, ends the list. */
START_TEST(rules_and_thicknesses)
{
    static const struct {
        const char *keys;
        int inch;
        size_t count;
        double first; /* mm */
        double last;
        double tolerance; /* mm, of 10 mm */
    } cases[] = {
        {METRIC "nominals = 2mm 3mm 5 mm\n", 0, 3, 2.0, 5.0, 0.7},
        {METRIC "nominals = 2mm 3mm 5 mm\n", 1, 3, 2.0, 5.0, 0.7},
        {METRIC INCHES "nominals = 2mm 3mm\ninch_nominals = 1/8in 1/4in 1/2in\n", 0, 2, 2.0, 3.0,
         0.7},
        {METRIC INCHES "nominals = 2mm 3mm\ninch_nominals = 1/8in 1/4in 1/2in\n", 1, 3, 3.175, 12.7,
         1.1},
        {METRIC INCHES "inch_nominals = 1/8in 1/4in\n", 0, 2, 3.175, 6.35, 1.1},
        {METRIC "inch_nominals = 1/8in 1/4in\n", 1, 2, 3.175, 6.35, 0.7},
        /* commas between them; a word that is no length ends the list */
        {METRIC "nominals = \"2mm, 3mm , 5mm\"\n", 0, 3, 2.0, 5.0, 0.7},
        {METRIC "nominals = \"2 mm, 3 mm, 5 mm\"\n", 0, 3, 2.0, 5.0, 0.7},
        {METRIC "nominals = \"2, 3 mm\"\n", 0, 0, 0.0, 0.0, 0.7},
        {METRIC "nominals = 2mm 3mm thick 5mm\n", 0, 2, 2.0, 3.0, 0.7},
        {METRIC "nominals = 2mm\nsteps = 3mm 0.2mm, 12mm 0.4mm\n", 0, 1, 2.0, 2.0, 0.4},
        {METRIC "nominals = 2mm\nsteps = 3mm 0.2mm, 9mm 0.3mm, 20mm\n", 0, 1, 2.0, 2.0, 0.3},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_sheet_rule rule;
        bite_sheet_read_rule(sheet_with(cases[i].keys), cases[i].inch, &rule);
        ck_assert_msg(rule.count == cases[i].count, "%zu: %zu", i, rule.count);
        if (rule.count > 0) {
            bite_assert_near(1e3 * rule.nominals[0], cases[i].first, 1e-9);
            bite_assert_near(1e3 * rule.nominals[rule.count - 1], cases[i].last, 1e-9);
        }
        bite_assert_near(1e3 * bite_sheet_stock_tolerance(&rule, 10e-3), cases[i].tolerance, 1e-9);
    }
}
END_TEST

/* The longer side first, whichever is listed first; a size that lacks a side is none. */
START_TEST(sizes_of_sheets)
{
    static const struct {
        const char *keys;
        int inch;
        size_t count;
        double length; /* mm, of the last */
        double width;
    } cases[] = {
        {"sizes = 1000mm x 2000mm, 600mm x 300mm\n", 0, 2, 600.0, 300.0},
        {"sizes = 1000mm x 2000mm\ninch_sizes = 24in x 48in\n", 1, 1, 1219.2, 609.6},
        {"sizes = 1000mm x 2000mm\n", 1, 1, 2000.0, 1000.0},
        {"inch_sizes = 24in x 48in\n", 0, 1, 1219.2, 609.6},
        {"sizes = \"1000 mm x 2000 mm, 300 mm x 600 mm\"\n", 0, 2, 600.0, 300.0},
        {"sizes = 1000mm x 2000mm, 600mm x\n", 0, 1, 2000.0, 1000.0},
        {"sizes = any\n", 0, 0, 0.0, 0.0},
        {"", 0, 0, 0.0, 0.0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_sheet_sizes sizes;
        bite_sheet_read_sizes(sheet_with(cases[i].keys), cases[i].inch, &sizes);
        ck_assert_msg(sizes.count == cases[i].count, "%zu: %zu", i, sizes.count);
        if (sizes.count > 0) {
            bite_assert_near(1e3 * sizes.length[sizes.count - 1], cases[i].length, 1e-9);
            bite_assert_near(1e3 * sizes.width[sizes.count - 1], cases[i].width, 1e-9);
        }
    }
    bite_sheet_rule rule;
    bite_sheet_sizes none;
    bite_sheet_read_rule(NULL, 0, &rule);
    bite_sheet_read_sizes(NULL, 0, &none);
    ck_assert_uint_eq(rule.count, 0);
    ck_assert_uint_eq(none.count, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("sheet record");
    TCase *tests = tcase_create("sheet record");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, rules_and_thicknesses);
    tcase_add_test(tests, sizes_of_sheets);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
