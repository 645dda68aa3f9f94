/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The index of names: it agrees with the full reading, it keeps other tables closed, and a faulty
 * table is reported where its names are asked for. */
#include "core/library/collection.h"
#include "core/library/family_tables.h"
#include "core/library/library_internal.h"
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/library/name_index.h"
#include "core/library/schema.h"
#include "core/library/table_bytes.h"
#include "tests/library/private_library.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char head[] = "[format]\nkind = material\nversion = 1\n[family]\nname = toy\n";

static size_t family_count(const bite_library *library)
{
    return library->found->count;
}

static bite_family_state *family_at(const bite_library *library, size_t index)
{
    return ((bite_family_state **)library->found->items)[index];
}

static bite_family_state *family_named(const bite_library *library, const char *name)
{
    for (size_t i = 0; i < family_count(library); i++) {
        if (strcmp(family_at(library, i)->name, name) == 0) {
            return family_at(library, i);
        }
    }
    ck_abort_msg("there is no family %s", name);
}

/* ---- agreement with the full reading ---- */

static size_t count_words(const char *list)
{
    size_t count = 0;
    for (; *list != 0; list += strspn(list, ", ")) {
        size_t length = strcspn(list, ", ");
        count += length > 0;
        list += length;
    }
    return count;
}

/* Asserts that each word of a list is in the index; returns their number. */
static size_t assert_words(const bite_name_index *index, const char *list, bool grades)
{
    char word[200];
    for (const char *at = list; *at != 0; at += strspn(at, ", ")) {
        size_t length = strcspn(at, ", ");
        (void)snprintf(word, sizeof word, "%.*s", (int)length, at);
        ck_assert_msg(length == 0 || bite_name_index_has(index, word, grades), "%s", word);
        at += length;
    }
    return count_words(list);
}

static const char *text_of(const bite_section *section, const char *key)
{
    const bite_field_value *value = section == NULL ? NULL : bite_section_value(section, key);
    return value == NULL ? "" : value->text;
}

/* Asserts that the index has all names of a section that was parsed; returns their number. */
static size_t assert_section(const bite_name_index *index, const bite_section *section)
{
    if (strcmp(section->name, "family") == 0) {
        return assert_words(index, text_of(section, "also"), false);
    }
    if (strncmp(section->name, "grade.", 6) != 0) {
        return 0;
    }
    const char *title = text_of(section, "title");
    ck_assert_msg(bite_name_index_has(index, section->tail, true), "%s", section->tail);
    ck_assert_msg(title[0] == 0 || bite_name_index_has(index, title, true), "%s", title);
    size_t count = title[0] == 0 ? 1 : 2;
    return count + assert_words(index, text_of(section, "also"), true) +
           assert_words(index, text_of(section, "near"), true);
}

START_TEST(index_and_full_reading_agree_on_all_shipped_tables)
{
    bite_library *indexed = open_private_library(NULL);
    bite_library *parsed = open_private_library(NULL);
    ck_assert_uint_eq(family_count(indexed), 32);
    for (size_t i = 0; i < family_count(indexed); i++) {
        bite_family_state *family = family_at(indexed, i);
        bite_family_state *other = family_at(parsed, i);
        ck_assert_int_eq(bite_table_bytes_index(indexed, family, NULL), BITE_OK);
        ck_assert_int_eq(bite_material_read(parsed, other, NULL), BITE_OK);
        ck_assert_int_eq(other->status, BITE_OK);
        ck_assert(!family->names.doubtful && !family->unreadable && !family->read);
        const bite_grade_state *grades = other->grades.items;
        size_t count = assert_section(&family->names, other->family);
        for (size_t k = 0; k < other->grades.count; k++) {
            count += assert_section(&family->names, grades[k].section);
        }
        ck_assert_msg(count == family->names.names.count, "%s: %zu names are parsed, %zu indexed",
                      family->name, count, family->names.names.count);
    }
    bite_library_close(indexed);
    bite_library_close(parsed);
}
END_TEST

/* Replaces one byte by one that a table is made of, or by any. */
static void change(char *text, size_t size, uint32_t *seed)
{
    static const char telling[] = "[]=\"\n\r\t #;.,abeglost\\\0";
    *seed = *seed * 1664525u + 1013904223u;
    size_t at = (*seed >> 8) % size;
    *seed = *seed * 1664525u + 1013904223u;
    uint32_t pick = *seed >> 8;
    text[at] = pick % 4 == 0 ? (char)(pick >> 4) : telling[(pick >> 4) % (sizeof telling - 1)];
}

/* Whatever is changed in a table: the names that its full reading finds are in the index, or the
 * index is doubtful, which has the table parsed. */
START_TEST(no_name_is_lost_in_changed_tables)
{
    static const char sound[] =
        "[format]\r\nkind = material\nversion = 1\n[family]\nname = toy\nalso = tin, lead zinc\n"
        "title = \"Toy metal\"\n# also = none\n[grade.a-1]\n  also = A1, a.1\ntitle = \"A-1; "
        "soft\"\n"
        "density = 1 g/cm3\nsource = memory\n[grade.b]\r\nlike = a-1\r\ntitle = B2\r\n";
    bite_library *library = open_private_library(NULL);
    bite_section_schema sections[BITE_MATERIAL_SECTIONS];
    bite_table_schema schema = bite_material_schema(library, sections);
    uint32_t seed = 20240229u;
    size_t parsed = 0;
    for (int round = 0; round < 20000; round++) {
        char text[sizeof sound];
        memcpy(text, sound, sizeof sound);
        for (int i = 0; i <= round % 3; i++) {
            change(text, sizeof sound - 1, &seed);
        }
        bite_table *table = NULL;
        if (bite_table_parse(bite_memory_default(), text, sizeof sound - 1, "toy.ini", &schema,
                             NULL, NULL, &table, NULL) != BITE_OK) {
            continue;
        }
        bite_name_index index = {{NULL, 0, 0}, false};
        bite_arena *arena = bite_arena_new(bite_memory_default());
        ck_assert(bite_name_index_add(arena, &index, text, sizeof sound - 1));
        for (size_t i = 0; !index.doubtful && i < bite_table_count(table); i++) {
            (void)assert_section(&index, bite_table_at(table, i));
        }
        parsed++;
        bite_arena_free(arena);
        bite_table_free(table);
    }
    ck_assert_uint_gt(parsed, 1000);
    bite_library_close(library);
}
END_TEST

/* ---- tables that stay closed ---- */

static size_t touched(const bite_library *library)
{
    size_t count = 0;
    for (size_t i = 0; i < family_count(library); i++) {
        const bite_family_state *family = family_at(library, i);
        count += family->found || family->indexed || family->read;
    }
    return count;
}

static size_t parsed_families(const bite_library *library)
{
    size_t count = 0;
    for (size_t i = 0; i < family_count(library); i++) {
        count += (size_t)family_at(library, i)->read;
    }
    return count;
}

static size_t plugins_tried(const bite_library *library)
{
    size_t count = 0;
    for (size_t i = 0; i < family_count(library); i++) {
        count += family_at(library, i)->tried != BITE_PLUGIN_UNTRIED;
    }
    return count;
}

START_TEST(a_cut_opens_the_table_and_the_plugin_of_its_own_family)
{
    bite_library *library = open_private_library(NULL);
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "12000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "200mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 0, 0.95, &answer, NULL), BITE_OK);
    ck_assert_uint_eq(touched(library), 1);
    ck_assert(family_named(library, "acrylic")->read);
    ck_assert_uint_eq(plugins_tried(library), 1);
    static const int unread[] = {COLLECTION_SYMPTOMS, COLLECTION_FLUIDS, COLLECTION_SHEETS,
                                 COLLECTION_TIMES, COLLECTION_HOLDERS};
    for (size_t i = 0; i < sizeof unread / sizeof *unread; i++) {
        ck_assert_msg(!library->collections[unread[i]].read, "%s",
                      bite_collection_file_at(unread[i])->file);
    }
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

START_TEST(a_name_of_a_grade_parses_the_tables_that_have_it)
{
    static const struct {
        const char *name;
        const char *family;
    } cases[] = {{"6061-T6", "aluminium"}, {"aluminum/7075", "aluminium"}, {"pmma", "acrylic"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_library *library = open_private_library(NULL);
        const bite_material *material = NULL;
        ck_assert_int_eq(bite_library_grade(library, cases[i].name, &material, NULL), BITE_OK);
        ck_assert_uint_eq(parsed_families(library), 1);
        ck_assert(family_named(library, cases[i].family)->read);
        ck_assert_ptr_null(family_named(library, cases[i].family)->bytes[0].text);
        bite_library_close(library);
    }
}
END_TEST

/* A list of tools needs one table; its own faults are counted, those of others are not found. */
START_TEST(a_list_reads_its_own_table)
{
    write_table("machines.ini", "[format\n");
    write_table("materials/wood.ini", "[format\n");
    bite_library *library = open_private_library(NULL);
    size_t count = 9;
    ck_assert_uint_gt(bite_library_count(library, BITE_TOOLS), 5);
    ck_assert_int_eq(bite_library_left_out(library, BITE_TOOLS, &count, NULL), BITE_OK);
    ck_assert_uint_eq(count, 0);
    ck_assert_uint_eq(touched(library), 0);
    for (int i = 0; i < BITE_COLLECTION_FILES; i++) {
        bool own = strcmp(bite_collection_file_at(i)->file, "tools.ini") == 0;
        ck_assert_msg(library->collections[i].read == own, "%s", bite_collection_file_at(i)->file);
    }
    ck_assert_int_eq(bite_library_left_out(library, BITE_MACHINES, &count, NULL), BITE_OK);
    ck_assert_uint_eq(count, 1);
    ck_assert_uint_eq(touched(library), 0);
    ck_assert_int_eq(bite_library_left_out(library, BITE_GRADES, &count, NULL), BITE_OK);
    ck_assert_uint_eq(count, 1);
    ck_assert_int_eq(bite_library_left_out(library, BITE_LEFT_OUT, &count, NULL), BITE_OK);
    ck_assert_uint_eq(count, 2);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 2);
    ck_assert_int_eq(bite_library_left_out(library, (bite_collection)99, &count, NULL),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_left_out(NULL, BITE_TOOLS, &count, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_left_out(library, BITE_TOOLS, NULL, NULL), BITE_BAD_ARGUMENT);
    bite_library_close(library);
}
END_TEST

/* Tools and tool materials share a file, which is left out once. */
START_TEST(a_file_of_two_collections_is_left_out_once)
{
    write_table("tools.ini", "[format\n");
    bite_library *library = open_private_library(NULL);
    const bite_item_record *record = NULL;
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "em-0.8-2", &record, NULL),
                     BITE_BAD_FILE);
    ck_assert_int_eq(bite_library_tool_material(library, "carbide", &record, NULL), BITE_BAD_FILE);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
    bite_library_close(library);
}
END_TEST

/* ---- hostile tables ---- */

/* The name "toytown" is in a table of the family toy: asking for it tells the first fault of the
 * full reading, and nothing else is disturbed. */
static void assert_fault_is_told(const char *text, size_t size, const char *what)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/materials/toy.ini", tables);
    bite_test_write(path, text, size);
    bite_library *library = open_private_library(NULL);
    bite_section_schema sections[BITE_MATERIAL_SECTIONS];
    bite_table_schema schema = bite_material_schema(library, sections);
    const bite_material *material = NULL;
    bite_table *table = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_error full = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "6061", &material, NULL), BITE_OK);
    bite_status status =
        bite_table_open(bite_memory_default(), path, &schema, NULL, NULL, &table, &full);
    ck_assert_msg(status == BITE_BAD_FILE, "%s: %s", what, bite_status_name(status));
    static const char *const names[] = {"toytown", "toy", "toy/toytown"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        ck_assert_msg(bite_library_grade(library, names[i], &material, &error) == status, "%s: %s",
                      what, error.message);
        ck_assert_msg(strcmp(error.message, full.message) == 0 && error.line == full.line &&
                          error.column == full.column && error.faults == full.faults,
                      "%s: line %u: %s, not line %u: %s", what, error.line, error.message,
                      full.line, full.message);
        ck_assert_str_eq(error.hint, full.hint);
        ck_assert_str_eq(error.file, path);
    }
    bite_library_close(library);
}

START_TEST(the_fault_of_a_table_is_told_where_its_name_is_asked_for)
{
    static const struct {
        const char *what;
        const char *body;
    } cases[] = {
        {"heading without end", "[grade.toytown\ndensity = 1 g/cm3\nsource = memory\n"},
        {"heading without end, last", "[grade.toytown"},
        {"text behind a heading", "[grade.toytown] # best\ndensity = 1 g/cm3\nsource = memory\n"},
        {"section twice", "[grade.toytown]\n[grade.b]\n[grade.toytown]\n"},
        {"capitals", "[Grade.toytown]\ndensity = 1 g/cm3\nsource = memory\n"},
        {"misspelt key", "[grade.a]\naslo = toytown\ndensity = 1 g/cm3\nsource = memory\n"},
        {"open quotes", "[grade.a]\ntitle = \"toytown\n"},
        {"text behind quotes", "[grade.a]\nalso = \"toytown\" x\n"},
        {"semicolon", "[grade.a]\nalso = a;toytown\n"},
        {"tab in a value", "[grade.a]\nalso = a\ttoytown\n"},
        {"control character", "[grade.a]\nalso = toytown\x01\n"},
        {"key before equals sign twice", "[grade.a]\nalso = x\nalso = toytown\n"},
        {"fault elsewhere", "[grade.toytown]\ndensity = 1 g/cm3\n"},
        {"unknown section", "[grade.toytown]\n[grad.b]\n"},
    };
    char text[600];
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int size = snprintf(text, sizeof text, "%s%s", head, cases[i].body);
        assert_fault_is_told(text, (size_t)size, cases[i].what);
        size = snprintf(text, sizeof text, "\xef\xbb\xbf%s%s", head, cases[i].body);
        assert_fault_is_told(text, (size_t)size, "byte order mark");
    }
    static const char nul[] = "[format]\nkind = material\nversion = 1\n[grade.toy\0town]\n"
                              "[grade.a]\nalso = toytown\0\n[grade.toytown\0]\n";
    assert_fault_is_told(nul, sizeof nul - 1, "NUL");
}
END_TEST

/* More sections than a table may have: the name in the last one is asked for. */
START_TEST(twenty_thousand_sections)
{
    size_t room = 800000;
    size_t used = sizeof head - 1;
    char *text = calloc(room, 1);
    ck_assert_ptr_nonnull(text);
    memcpy(text, head, used);
    for (int i = 0; i < 20000; i++) {
        used += (size_t)snprintf(text + used, room - used, "[grade.g%d]\n", i);
    }
    used += (size_t)snprintf(text + used, room - used, "[grade.toytown]\n");
    assert_fault_is_told(text, used, "20000 sections");
    free(text);
}
END_TEST

START_TEST(lines_of_other_systems_and_names_in_two_places)
{
    bite_error error = BITE_ERROR_INIT;
    const bite_material *material = NULL;
    write_table("materials/toy.ini",
                "[format]\r\nkind = material\r\nversion = 1\r\n[family]\r\nname = toy\r\n"
                "also = tin\r\n[grade.soft]\r\nalso = \"toytown, t-1\"\r\ndensity = 1 g/cm3\r\n"
                "source = memory\r\n");
    bite_library *library = open_private_library(NULL);
    ck_assert_int_eq(bite_library_grade(library, "T-1", &material, NULL), BITE_OK);
    ck_assert_str_eq(material->record.name, "toy/soft");
    ck_assert_int_eq(bite_library_grade(library, "tin/toytown", &material, NULL), BITE_OK);
    ck_assert_int_eq(bite_library_grade(library, "toytown/soft", &material, NULL),
                     BITE_UNKNOWN_NAME); /* a grade's name is not a family's */
    bite_library_close(library);
    write_table("materials/game.ini",
                "[format]\nkind = material\nversion = 1\n[family]\nname = "
                "game\n[grade.toytown]\ndensity = 1 g/cm3\nsource = memory\n");
    library = open_private_library(NULL);
    ck_assert_int_eq(bite_library_grade(library, "toytown", &material, &error), BITE_UNKNOWN_NAME);
    ck_assert_ptr_nonnull(strstr(error.hint, "game/toytown or toy/soft"));
    bite_library_close(library);
}
END_TEST

/* The faulty table is told whatever was read before it, and not where another name is unknown. */
START_TEST(a_faulty_table_is_told_in_any_order)
{
    write_table("materials/toy.ini",
                "[format]\nkind = material\nversion = 1\n[family]\nname = toy\n"
                "[grade.a]\nalso = toytown\ndensty = 1 g/cm3\n");
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
    ck_assert_int_eq(bite_library_grade(library, "toytown", &material, &error), BITE_BAD_FILE);
    ck_assert_uint_eq(error.line, 8);
    ck_assert_int_eq(bite_library_grade(library, "unobtainium", &material, &error),
                     BITE_UNKNOWN_NAME);
    ck_assert_int_eq(bite_library_grade(library, "acrilic", &material, &error), BITE_UNKNOWN_NAME);
    ck_assert_ptr_nonnull(strstr(error.hint, "acrylic"));
    bite_library_close(library);
}
END_TEST

/* Names that need the index, with the n-th allocation and all after it failing, for every n. */
START_TEST(every_failed_allocation_of_the_search_is_reported)
{
    static const char *const names[] = {"7075", "unobtainium"};
    static const bite_status ends[] = {BITE_OK, BITE_UNKNOWN_NAME};
    bite_status status = BITE_NO_MEMORY;
    for (size_t n = 1; n < 1000 && status == BITE_NO_MEMORY; n++) {
        bite_test_memory memory = {.fail_at = n};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library_options options = {sizeof options, &allocator, families, tables};
        bite_library *library = NULL;
        const bite_material *material = NULL;
        status = bite_library_open(&options, &library, NULL);
        if (status == BITE_OK) {
            status = bite_library_grade(library, names[_i], &material, NULL);
        }
        if (status == BITE_NO_MEMORY && library != NULL) { /* there is memory again */
            memory.fail_at = 0;
            ck_assert_int_eq(bite_library_grade(library, names[_i], &material, NULL), ends[_i]);
            ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 0);
        }
        bite_library_close(library);
        ck_assert_msg(memory.held == 0, "call %zu: %zu bytes are held", n, memory.held);
    }
    ck_assert_int_eq(status, ends[_i]);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("name index");
    TCase *tests = tcase_create("name index");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, index_and_full_reading_agree_on_all_shipped_tables);
    tcase_add_test(tests, no_name_is_lost_in_changed_tables);
    tcase_add_test(tests, a_cut_opens_the_table_and_the_plugin_of_its_own_family);
    tcase_add_test(tests, a_name_of_a_grade_parses_the_tables_that_have_it);
    tcase_add_test(tests, a_list_reads_its_own_table);
    tcase_add_test(tests, a_file_of_two_collections_is_left_out_once);
    tcase_add_test(tests, the_fault_of_a_table_is_told_where_its_name_is_asked_for);
    tcase_add_test(tests, twenty_thousand_sections);
    tcase_add_test(tests, lines_of_other_systems_and_names_in_two_places);
    tcase_add_test(tests, a_faulty_table_is_told_in_any_order);
    tcase_add_loop_test(tests, every_failed_allocation_of_the_search_is_reported, 0, 2);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
