/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A collection as a list: the entries of bite_library_item, as text within the page's columns and
 * as JSON. */
#include "tests/support/open_library.h"
#include <jansson.h>
#include <math.h>
#include <string.h>

typedef struct output {
    char text[65536];
    size_t size;
    size_t accepted; /* bytes after which the sink refuses */
} output;

static output out;

static int keep(void *user, const char *part, size_t size)
{
    output *to = user;
    if (to->size + size > to->accepted) {
        return -1;
    }
    memcpy(to->text + to->size, part, size);
    to->size += size;
    to->text[to->size] = 0;
    return 0;
}

static bite_status list(bite_collection collection, uint32_t format, uint32_t columns,
                        bite_error *error)
{
    bite_style style = {.struct_size = sizeof style, .format = format, .columns = columns};
    out.size = 0;
    out.text[0] = 0;
    out.accepted = sizeof out.text - 1;
    return bite_library_list_write(library, collection, &style, keep, &out, error);
}

static const bite_collection filled[] = {
    BITE_FAMILIES, BITE_GRADES,      BITE_TOOLS,    BITE_HOLDERS, BITE_MACHINES,
    BITE_COOLANTS, BITE_HOLDS,       BITE_SYMPTOMS, BITE_FLUIDS,  BITE_SHEETS,
    BITE_LAYERS,   BITE_INSTRUMENTS, BITE_DRILLS,   BITE_THREADS, BITE_INSERTS};
#define FILLED (sizeof filled / sizeof *filled)

static void same_text(const json_t *entry, const char *key, const char *expected)
{
    ck_assert_str_eq(json_string_value(json_object_get(entry, key)), expected);
}

START_TEST(json_has_the_entries_of_the_library)
{
    for (size_t i = 0; i < FILLED; i++) {
        size_t count = bite_library_count(library, filled[i]);
        ck_assert_uint_gt(count, 0);
        ck_assert_int_eq(list(filled[i], BITE_JSON, 0, NULL), BITE_OK);
        json_t *root = json_loadb(out.text, out.size, 0, NULL);
        ck_assert_uint_eq(json_array_size(root), count);
        for (size_t k = 0; k < count; k++) {
            bite_item item;
            const json_t *entry = json_array_get(root, k);
            ck_assert_int_eq(bite_library_item(library, filled[i], k, &item, NULL), BITE_OK);
            ck_assert_uint_eq(json_object_size(entry), 3);
            same_text(entry, "name", item.name);
            same_text(entry, "summary", item.summary);
            same_text(entry, "more", item.file);
        }
        json_decref(root);
    }
}
END_TEST

/* Reads the text back: the words of each entry, in order, wrapped and indented. */
START_TEST(text_has_the_entries_within_the_columns)
{
    static const uint32_t widths[] = {44, 60, 80, 120};
    for (size_t i = 0; i < FILLED * 4; i++) {
        uint32_t columns = widths[i % 4];
        bite_collection collection = filled[i / 4];
        ck_assert_int_eq(list(collection, BITE_TEXT, columns, NULL), BITE_OK);
        size_t starts = 0;
        for (const char *line = out.text; *line != 0; line += strcspn(line, "\n") + 1) {
            size_t length = strcspn(line, "\n");
            ck_assert_msg(length <= columns, "%.*s", (int)length, line);
            ck_assert_msg(length > 0 && line[length - 1] != ' ', "%.*s", (int)length, line);
            if (line[0] == ' ') {
                continue;
            }
            bite_item item;
            ck_assert_int_eq(bite_library_item(library, collection, starts++, &item, NULL),
                             BITE_OK);
            ck_assert_int_eq(strncmp(line, item.name, strlen(item.name)), 0);
        }
        ck_assert_uint_eq(starts, bite_library_count(library, collection));
    }
}
END_TEST

static bite_status list_tools(const bite_tool_filter *filter, uint32_t format, bite_error *error)
{
    bite_style style = {.struct_size = sizeof style, .format = format};
    out.size = 0;
    out.text[0] = 0;
    out.accepted = sizeof out.text - 1;
    return bite_tool_list_write(library, filter, &style, keep, &out, error);
}

/* Every tool is listed once under its kind; together the kinds are all of them. */
START_TEST(tools_are_listed_by_kind_and_size)
{
    static const char *const kinds[] = {"end-mill", "ball-nose", "bull-nose",
                                        "chamfer",  "engraving", "drill",
                                        "tap",      "reamer",    "thread-mill"};
    size_t listed = 0;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        bite_tool_filter filter = {(uint32_t)sizeof filter, 0, (double)NAN, (double)NAN, kinds[i]};
        ck_assert_int_eq(list_tools(&filter, BITE_JSON, NULL), BITE_OK);
        json_t *root = json_loadb(out.text, out.size, 0, NULL);
        for (size_t k = 0; k < json_array_size(root); k++) {
            const json_t *entry = json_array_get(root, k);
            same_text(entry, "kind", kinds[i]);
            double diameter = json_real_value(json_object_get(entry, "diameter"));
            bite_tool_filter size = {(uint32_t)sizeof size, 0, diameter, diameter, kinds[i]};
            ck_assert_int_eq(list_tools(&size, BITE_CSV, NULL), BITE_OK);
            const char *name = json_string_value(json_object_get(entry, "name"));
            ck_assert_msg(strstr(out.text, name) != NULL, "%s", name);
        }
        listed += json_array_size(root);
        json_decref(root);
    }
    ck_assert_uint_eq(listed, bite_library_count(library, BITE_TOOLS));
    bite_error error = BITE_ERROR_INIT;
    bite_tool_filter unknown = {(uint32_t)sizeof unknown, 0, (double)NAN, (double)NAN, "mill"};
    ck_assert_int_eq(list_tools(&unknown, BITE_TEXT, &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.key, "kind");
    unknown.struct_size--;
    ck_assert_int_eq(list_tools(&unknown, BITE_TEXT, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(list_tools(NULL, BITE_SVG, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_tool_list_write(NULL, NULL, NULL, keep, &out, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_tool_list_write(library, NULL, NULL, NULL, NULL, &error),
                     BITE_BAD_ARGUMENT);
}
END_TEST

START_TEST(an_empty_collection_says_so)
{
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 0);
    ck_assert_int_eq(list(BITE_LEFT_OUT, BITE_TEXT, 80, NULL), BITE_OK);
    ck_assert_str_eq(out.text, "nothing\n");
    ck_assert_int_eq(list(BITE_LEFT_OUT, BITE_JSON, 80, NULL), BITE_OK);
    ck_assert_str_eq(out.text, "[]\n");
}
END_TEST

START_TEST(wrong_arguments_are_refused)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_list_write(NULL, BITE_TOOLS, NULL, keep, &out, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "an open library and a collection of it were expected");
    ck_assert_int_eq(list((bite_collection)99, BITE_TEXT, 80, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(list(BITE_TOOLS, BITE_SVG, 80, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.key, "style.format");
    ck_assert_int_eq(bite_library_list_write(library, BITE_TOOLS, NULL, NULL, NULL, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.key, "sink");
}
END_TEST

START_TEST(a_sink_that_refuses_is_reported)
{
    for (uint32_t format = BITE_TEXT; format <= BITE_JSON; format++) {
        bite_error error = BITE_ERROR_INIT;
        bite_style style = {.struct_size = sizeof style, .format = format};
        ck_assert_int_eq(list(BITE_TOOLS, format, 80, NULL), BITE_OK);
        size_t whole = out.size;
        for (size_t accepted = 0; accepted < whole; accepted += 1 + whole / 7) {
            out.size = 0;
            out.accepted = accepted;
            ck_assert_int_eq(
                bite_library_list_write(library, BITE_TOOLS, &style, keep, &out, &error),
                BITE_CANNOT_WRITE);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("list");
    TCase *lists = tcase_create("list");
    tcase_add_checked_fixture(lists, open_library, close_library);
    tcase_add_test(lists, json_has_the_entries_of_the_library);
    tcase_add_test(lists, text_has_the_entries_within_the_columns);
    tcase_add_test(lists, tools_are_listed_by_kind_and_size);
    tcase_add_test(lists, an_empty_collection_says_so);
    tcase_add_test(lists, wrong_arguments_are_refused);
    tcase_add_test(lists, a_sink_that_refuses_is_reported);
    tcase_set_timeout(lists, 120);
    suite_add_tcase(suite, lists);
    return bite_test_run(suite);
}
