/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Structures of callers that were built with an older or a newer header: what both know is copied,
 * the rest is usual, and no byte beyond the caller's size is touched. */
#include "core/base/caller_struct.h"
#include "tests/support/support.h"
#include <math.h>
#include <string.h>

/* A structure as it began, as it is, and as it may become. */
typedef struct first_kind {
    uint32_t struct_size;
    uint32_t word;
    double number;
} first_kind;
typedef struct present_kind {
    uint32_t struct_size;
    uint32_t word;
    double number;
    double later;
    const char *text;
} present_kind;
typedef struct future_kind {
    uint32_t struct_size;
    uint32_t word;
    double number;
    double later;
    const char *text;
    uint32_t unknown;
    uint32_t other;
    double future;
} future_kind;

static const bite_caller_struct kind = {"bite_kind_of_test", sizeof(present_kind),
                                        sizeof(first_kind), _Alignof(present_kind), 0};

START_TEST(older_structures_are_completed)
{
    const first_kind given = {(uint32_t)sizeof given, 7, 2.5};
    present_kind own;
    memset(&own, 0xa5, sizeof own);
    ck_assert_int_eq(bite_struct_read(&kind, &given, &own, "kind", NULL), BITE_OK);
    ck_assert_uint_eq(own.struct_size, sizeof own);
    ck_assert_uint_eq(own.word, 7);
    ck_assert_double_eq(own.number, 2.5);
    ck_assert_double_eq(own.later, 0.0);
    ck_assert_ptr_null(own.text);
    ck_assert_int_eq(bite_struct_read(&kind, NULL, &own, "kind", NULL), BITE_OK);
    ck_assert_uint_eq(own.word, 0);
}
END_TEST

START_TEST(older_structures_are_written_to_their_size)
{
    struct {
        unsigned char before[64];
        first_kind it;
        unsigned char after[64];
    } place;
    const present_kind own = {(uint32_t)sizeof own, 9, 1.5, 3.5, "text"};
    memset(&place, 0xa5, sizeof place);
    bite_struct_start(&kind, &place.it, sizeof place.it);
    ck_assert_uint_eq(place.it.struct_size, sizeof place.it);
    ck_assert_uint_eq(place.it.word, 0);
    bite_struct_write(&kind, &own, &place.it);
    ck_assert_uint_eq(place.it.struct_size, sizeof place.it);
    ck_assert_uint_eq(place.it.word, 9);
    ck_assert_double_eq(place.it.number, 1.5);
    for (size_t i = 0; i < sizeof place.after; i++) {
        ck_assert_uint_eq(place.before[i], 0xa5);
        ck_assert_uint_eq(place.after[i], 0xa5);
    }
}
END_TEST

/* A newer program gets what this library does not know as 0; it may leave it so, or not given. */
START_TEST(newer_structures_are_taken_while_nothing_unknown_is_set)
{
    future_kind given;
    present_kind own = {(uint32_t)sizeof own, 9, 1.5, 3.5, "text"};
    bite_error error = BITE_ERROR_INIT;
    memset(&given, 0xa5, sizeof given);
    bite_struct_start(&kind, &given, sizeof given);
    given.future = (double)NAN;
    given.later = 4.5;
    ck_assert_int_eq(bite_struct_read(&kind, &given, &own, "kind", &error), BITE_OK);
    ck_assert_double_eq(own.later, 4.5);
    ck_assert_uint_eq(own.struct_size, sizeof own);
    given.other = 1;
    own.word = 3;
    ck_assert_int_eq(bite_struct_read(&kind, &given, &own, "kind", &error), BITE_BAD_ARGUMENT);
    ck_assert_uint_eq(own.word, 3);
    ck_assert_str_eq(error.key, "kind");
    ck_assert_ptr_nonnull(strstr(error.message, BITE_VERSION_TEXT));
    given.other = 0;
    given.future = 1.0;
    ck_assert_int_eq(bite_struct_check(&kind, &given, "kind", NULL), BITE_BAD_ARGUMENT);
    bite_struct_write(&kind, &own, &given);
    ck_assert_double_eq(given.future, 0.0);
    ck_assert_uint_eq(given.struct_size, sizeof given);
}
END_TEST

/* A structure of words alone may grow by one word: no number has room there. */
START_TEST(a_newer_structure_may_have_one_more_word)
{
    typedef struct words {
        uint32_t struct_size;
        uint32_t first;
    } words;
    typedef struct more_words {
        uint32_t struct_size;
        uint32_t first;
        uint32_t second;
    } more_words;
    static const bite_caller_struct of_words = {"bite_words_of_test", sizeof(words), sizeof(words),
                                                _Alignof(words), 0};
    more_words given = {(uint32_t)sizeof given, 7, 0};
    words own = {0, 0};
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_struct_read(&of_words, &given, &own, "words", &error), BITE_OK);
    ck_assert_uint_eq(own.first, 7);
    given.first = 8;
    given.second = 1;
    ck_assert_int_eq(bite_struct_read(&of_words, &given, &own, "words", &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.key, "words");
    ck_assert_ptr_nonnull(strstr(error.message, "a member of the bite_words_of_test is set"));
    ck_assert_uint_eq(own.first, 7);
}
END_TEST

START_TEST(sizes_that_no_header_had_are_refused)
{
    const uint32_t sizes[] = {0,
                              1,
                              4,
                              8,
                              sizeof(first_kind) - 8,
                              sizeof(first_kind) - 1,
                              sizeof(first_kind) + 1,
                              sizeof(present_kind) + 4,
                              BITE_STRUCT_SIZE_MOST + 8,
                              UINT32_MAX - 7,
                              UINT32_MAX};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        present_kind given = {sizes[i], 0, 0.0, 0.0, NULL};
        present_kind own = {(uint32_t)sizeof own, 9, 1.5, 3.5, "text"};
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(bite_struct_read(&kind, &given, &own, "kind", &error), BITE_BAD_ARGUMENT);
        ck_assert_uint_eq(own.word, 9);
        ck_assert_str_eq(error.hint, "begin with bite_kind_of_test_init");
        memset(&given, 0xa5, sizeof given);
        bite_struct_start(&kind, &given, sizes[i]);
        ck_assert_uint_eq(given.word, 0xa5a5a5a5u);
    }
    ck_assert_int_eq(bite_struct_check(&kind, NULL, "kind", NULL), BITE_BAD_ARGUMENT);
    bite_struct_start(&kind, NULL, sizeof(present_kind));
}
END_TEST

/* Every _init of the header sets its own size, and leaves a structure that its calls take. */
#define STARTS(type)                                                                               \
    do {                                                                                           \
        type it;                                                                                   \
        memset(&it, 0xa5, sizeof it);                                                              \
        type##_init(&it);                                                                          \
        ck_assert_uint_eq(it.struct_size, sizeof it);                                              \
        type##_init(NULL);                                                                         \
    } while (0)

START_TEST(every_structure_has_an_init)
{
    STARTS(bite_error);
    STARTS(bite_cut);
    STARTS(bite_result);
    STARTS(bite_batch_options);
    STARTS(bite_style);
    STARTS(bite_library_options);
    STARTS(bite_tool_filter);
    STARTS(bite_thread_options);
    STARTS(bite_compatibility);
    STARTS(bite_case_options);
    STARTS(bite_case_summary);
    STARTS(bite_choice_options);
    STARTS(bite_window_options);
    STARTS(bite_job_options);
    STARTS(bite_record_entry);
    STARTS(bite_review);
    STARTS(bite_used_input);
}
END_TEST

/* A larger error gets all of this library's, and 0 behind it; a smaller one cannot be an error. */
START_TEST(errors_of_other_headers_are_filled)
{
    struct {
        bite_error error;
        uint32_t later[4];
        unsigned char after[16];
    } place;
    memset(&place, 0xa5, sizeof place);
    bite_error_init_sized(&place.error, offsetof(__typeof__(place), after));
    memset(place.later, 0xff, sizeof place.later);
    ck_assert_int_eq(bite_cut_pass(NULL, NULL, &place.error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(place.error.status, BITE_BAD_ARGUMENT);
    ck_assert(place.error.message[0] != 0);
    ck_assert_uint_eq(place.later[0] | place.later[3], 0);
    ck_assert_uint_eq(place.after[0], 0xa5);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("caller's structures");
    TCase *all = tcase_create("caller's structures");
    tcase_add_test(all, older_structures_are_completed);
    tcase_add_test(all, older_structures_are_written_to_their_size);
    tcase_add_test(all, newer_structures_are_taken_while_nothing_unknown_is_set);
    tcase_add_test(all, a_newer_structure_may_have_one_more_word);
    tcase_add_test(all, sizes_that_no_header_had_are_refused);
    tcase_add_test(all, every_structure_has_an_init);
    tcase_add_test(all, errors_of_other_headers_are_filled);
    suite_add_tcase(suite, all);
    return bite_test_run(suite);
}
