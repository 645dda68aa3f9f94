/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shop's own set-up through the public interface: what it states, whose fault a name is, and that
 * the library reads it only if asked. */
#include "core/request/answer.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char path[700];

/* Writes a set-up with these keys to the file of the running test. */
static void write_setup(const char *keys)
{
    (void)snprintf(path, sizeof path, "%.600s/coolbite.ini", shop.root);
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    ck_assert_int_gt(fprintf(file, "[format]\nkind = shop\nversion = 1\n[shop]\n%s", keys), 0);
    ck_assert_int_eq(fclose(file), 0);
}

static bite_shop *open_setup(const char *keys)
{
    bite_shop *setup = NULL;
    bite_error error = BITE_ERROR_INIT;
    write_setup(keys);
    ck_assert_msg(bite_shop_open(path, &setup, &error) == BITE_OK, "%s", error.message);
    return setup;
}

START_TEST(keys_are_read_as_they_are_stated)
{
    bite_shop *setup = open_setup("machine = knee-mill\nat_hand = em-3-2,1/8in  6mm\n"
                                  "tolerance = 2 thou\nconfidence = 99.9 %\ntool_list = t.csv\n");
    char list[700];
    ck_assert_str_eq(bite_shop_path(setup), path);
    ck_assert_str_eq(bite_shop_text(setup, "machine"), "knee-mill");
    ck_assert_uint_eq(bite_shop_line(setup, "machine"), 5);
    ck_assert_ptr_null(bite_shop_text(setup, "hold"));
    ck_assert_ptr_null(bite_shop_text(setup, "no_such_key"));
    ck_assert_ptr_null(bite_shop_text(setup, NULL));
    ck_assert_uint_eq(bite_shop_line(setup, "hold"), 0);
    ck_assert_double_eq_tol(bite_shop_number(setup, "tolerance"), 50.8e-6, 1e-12);
    ck_assert_double_eq_tol(bite_shop_number(setup, "confidence"), 0.999, 1e-12);
    ck_assert(isnan(bite_shop_number(setup, "machine")));
    ck_assert_str_eq(bite_shop_tool(setup, 0), "em-3-2");
    ck_assert_str_eq(bite_shop_tool(setup, 2), "6mm");
    ck_assert_ptr_null(bite_shop_tool(setup, 3));
    (void)snprintf(list, sizeof list, "%.600s/t.csv", shop.root); /* beside the file */
    ck_assert_str_eq(bite_shop_text(setup, "tool_list"), list);
    ck_assert_int_eq(bite_shop_check(setup, library, NULL), BITE_OK);
    bite_shop_free(setup);
    bite_shop_free(NULL);
    ck_assert_str_eq(bite_shop_path(NULL), "");
    ck_assert_ptr_null(bite_shop_tool(NULL, 0));
}
END_TEST

/* What a request sets replaces the set-up, before and after. */
START_TEST(a_request_uses_what_it_does_not_state)
{
    bite_shop *setup = open_setup("machine = knee-mill\ncoolant = flood\ntolerance = 0.02 mm\n");
    bite_request *request = NULL;
    bite_cut cut;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "6082", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_take_from_shop(request, "units", NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_use_shop(request, setup, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_cut(request, &cut, NULL), BITE_OK);
    ck_assert_uint_eq(cut.coolant, BITE_COOLANT_FLOOD);
    ck_assert_double_eq_tol(cut.tolerance, 0.02e-3, 1e-12);
    ck_assert_uint_eq(request->shop_keys, 1u << BITE_SHOP_MACHINE | 1u << BITE_SHOP_COOLANT |
                                              1u << BITE_SHOP_TOLERANCE);
    ck_assert_int_eq(bite_request_set(request, "coolant", "mist", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set_number(request, "tolerance", 1e-4, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_uint_eq(request->shop_keys, 0);
    ck_assert_int_eq(bite_request_take_from_shop(request, "units", NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_take_from_shop(request, "no_such_key", NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_use_shop(request, NULL, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_request_use_shop(NULL, setup, NULL), BITE_BAD_ARGUMENT);
    bite_request_free(request);
    bite_shop_free(setup);
}
END_TEST

/* An answer for which no set-up was opened depends on none, whatever the environment says. */
START_TEST(the_library_reads_no_setup_by_itself)
{
    write_setup("coolant = flood\n");
    ck_assert_int_eq(setenv("COOLBITE_CONFIG", path, 1), 0);
    bite_request *request = NULL;
    bite_cut cut;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "6082", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_cut(request, &cut, NULL), BITE_OK);
    ck_assert_uint_eq(cut.coolant, BITE_COOLANT_NONE);
    bite_request_free(request);
    bite_shop *setup = NULL;
    ck_assert_int_eq(bite_shop_open(NULL, &setup, NULL), BITE_OK);
    ck_assert_str_eq(bite_shop_text(setup, "coolant"), "flood");
    bite_shop_free(setup);
    ck_assert_int_eq(setenv("COOLBITE_CONFIG", "none", 1), 0);
    ck_assert_int_eq(bite_shop_open(NULL, &setup, NULL), BITE_OK);
    ck_assert_str_eq(bite_shop_path(setup), "");
    ck_assert_int_eq(bite_shop_check(setup, library, NULL), BITE_OK);
    bite_shop_free(setup);
    ck_assert_int_eq(unsetenv("COOLBITE_CONFIG"), 0);
}
END_TEST

START_TEST(faults_name_file_line_and_key)
{
    static const struct {
        const char *keys;
        const char *key;
        uint32_t line;
    } cases[] = {{"units = inch\nmachine = lathe\n", "shop:machine", 6},
                 {"hold = chewing-gum\n", "shop:hold", 5},
                 {"at_hand = em-3-2 em-33\n", "shop:at_hand", 5},
                 {"at_hand = 3\n", "shop:at_hand", 5},
                 {"at_hand = 9m\n", "shop:at_hand", 5},
                 {"units = inch\ninstruments = caliper, ruler\n", "shop:instruments", 6}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_shop *setup = open_setup(cases[i].keys);
        ck_assert_int_eq(bite_shop_check(setup, library, &error), BITE_BAD_FILE);
        ck_assert_str_eq(error.file, path);
        ck_assert_str_eq(error.key, cases[i].key);
        ck_assert_uint_eq(error.line, cases[i].line);
        ck_assert_uint_gt(strlen(error.message), 0);
        bite_shop_free(setup);
    }
    bite_shop *none = NULL;
    ck_assert_int_eq(bite_shop_open("/nowhere/coolbite.ini", &none, NULL), BITE_NOT_FOUND);
    ck_assert_int_eq(bite_shop_open(NULL, NULL, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_shop_check(NULL, library, NULL), BITE_BAD_ARGUMENT);
    ck_assert_ptr_null(none);
}
END_TEST

/* A tolerance with its band counts as its figure; a list of tools beside the file, wherever that
 * is; more names than there is room for. */
START_TEST(odd_set_ups)
{
    bite_shop *setup = open_setup("tolerance = 0.02 mm (0.01 .. 0.03)\n");
    bite_request *request = NULL;
    bite_cut cut;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    bite_status status = bite_request_use_shop(request, setup, &error);
    ck_assert_msg(status == BITE_OK, "%s", error.message);
    ck_assert_int_eq(bite_request_cut(request, &cut, NULL), BITE_OK);
    ck_assert_double_eq_tol(cut.tolerance, 0.02e-3, 1e-12);
    bite_request_free(request);
    ck_assert(isnan(bite_shop_number(setup, NULL)));
    ck_assert(isnan(bite_shop_number(setup, "no_such_key")));
    ck_assert(isnan(bite_shop_number(setup, "confidence")));
    ck_assert_uint_eq(bite_shop_line(setup, NULL), 0);
    bite_shop_free(setup);

    static char keys[2000] = "at_hand = ";
    for (int i = 0; i < BITE_SHOP_TOOLS_MAX + 1; i++) {
        (void)snprintf(keys + strlen(keys), sizeof keys - strlen(keys), "%dmm,", 1 + i % 9);
    }
    strcat(keys, "\n");
    write_setup(keys);
    setup = NULL;
    ck_assert_int_eq(bite_shop_open(path, &setup, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.message, "at_hand names more than 64");
    ck_assert_str_eq(error.hint, "put them into a tool list: tool_list = FILE");
    ck_assert_str_eq(error.key, "shop:at_hand");
    ck_assert_uint_eq(error.line, 5);
    ck_assert_ptr_null(setup);
}
END_TEST

/* The path of the set-up decides where its tool list is. */
START_TEST(a_tool_list_is_beside_its_set_up)
{
    bite_shop *setup = open_setup("tool_list = /drawer/t.csv\n");
    ck_assert_str_eq(bite_shop_text(setup, "tool_list"), "/drawer/t.csv");
    bite_shop_free(setup);
    setup = open_setup("tool_list = t.csv\nat_hand = .5in, 1/8in\n");
    ck_assert_int_eq(bite_shop_check(setup, library, NULL), BITE_OK);
    bite_shop_free(setup);
    ck_assert_int_eq(chdir(shop.root), 0);
    ck_assert_int_eq(bite_shop_open("coolbite.ini", &setup, NULL), BITE_OK);
    ck_assert_str_eq(bite_shop_text(setup, "tool_list"), "t.csv");
    ck_assert_str_eq(bite_shop_path(setup), "coolbite.ini");
    bite_shop_free(setup);
    ck_assert_int_eq(chdir("/"), 0);
    setup = open_setup("at_hand = 200mm\n");
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_shop_check(setup, library, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.message, "no end mill has the diameter 200mm");
    bite_shop_free(setup);
    setup = open_setup("at_hand = 1nm\n");
    ck_assert_int_eq(bite_shop_check(setup, library, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.message, "no end mill has the diameter 1nm");
    bite_shop_free(setup);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("shop");
    TCase *tests = tcase_create("shop");
    tcase_add_checked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, keys_are_read_as_they_are_stated);
    tcase_add_test(tests, a_request_uses_what_it_does_not_state);
    tcase_add_test(tests, the_library_reads_no_setup_by_itself);
    tcase_add_test(tests, faults_name_file_line_and_key);
    tcase_add_test(tests, odd_set_ups);
    tcase_add_test(tests, a_tool_list_is_beside_its_set_up);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
