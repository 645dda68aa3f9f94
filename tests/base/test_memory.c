/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory: sizes that overflow are refused, blocks are zeroed and aligned, and all of it is freed.
 */
#include "core/base/error.h"
#include "core/base/memory.h"
#include "tests/support/support.h"
#include <stdalign.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

START_TEST(a_size_that_overflows_is_refused)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_arena *arena = bite_arena_new(&allocator);
    size_t before = memory.calls;
    ck_assert_ptr_null(bite_memory_new(&allocator, SIZE_MAX / 2 + 1, 2));
    ck_assert_ptr_null(bite_memory_grow(&allocator, NULL, SIZE_MAX / 8 + 1, 8));
    ck_assert_ptr_null(bite_arena_alloc(arena, SIZE_MAX / 8 + 1, 8));
    ck_assert_ptr_null(bite_arena_alloc(arena, SIZE_MAX, 1));
    ck_assert_ptr_null(bite_arena_alloc(arena, SIZE_MAX - 2 * alignof(max_align_t), 1));
    ck_assert_ptr_null(bite_arena_text(arena, "never read", SIZE_MAX));
    ck_assert_uint_eq(memory.calls, before); /* the allocator was not even asked */
    bite_arena_free(arena);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

START_TEST(nothing_takes_a_byte_and_can_be_freed)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    void *none = bite_memory_new(&allocator, 0, 8);
    void *empty = bite_memory_new(&allocator, 8, 0);
    ck_assert_ptr_nonnull(none);
    ck_assert_ptr_nonnull(empty);
    none = bite_memory_grow(&allocator, none, 0, 0);
    ck_assert_ptr_nonnull(none);
    bite_memory_free(&allocator, none);
    bite_memory_free(&allocator, empty);
    bite_memory_free(&allocator, NULL);
    bite_arena_free(NULL);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

START_TEST(what_grows_keeps_its_content)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    char *text = bite_memory_grow(&allocator, NULL, 4, 1);
    ck_assert_ptr_nonnull(text);
    memcpy(text, "cut", 4);
    text = bite_memory_grow(&allocator, text, 1000, 1);
    ck_assert_ptr_nonnull(text);
    ck_assert_str_eq(text, "cut");
    memory.fail_at = memory.calls + 1;
    ck_assert_ptr_null(bite_memory_grow(&allocator, text, 2000, 1));
    ck_assert_str_eq(text, "cut");
    bite_memory_free(&allocator, text);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

static bool is_all(const unsigned char *bytes, size_t size, unsigned char value)
{
    size_t same = 0;
    while (same < size && bytes[same] == value) {
        same++;
    }
    return same == size;
}

/* Small and large pieces side by side: zeroed, aligned, apart; a piece larger than a block does not
 * cost the rest of the block in use. */
START_TEST(pieces_of_an_arena_are_zeroed_and_apart)
{
    static const size_t sizes[] = {1, 7, 16000, 3, 50000, 5, 16384, 16385, 1, 300};
    enum { ROUNDS = 20, PIECES = sizeof sizes / sizeof *sizes };
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_arena *arena = bite_arena_new(&allocator);
    unsigned char *pieces[ROUNDS * PIECES];
    for (size_t i = 0; i < ROUNDS * PIECES; i++) {
        size_t size = sizes[i % PIECES];
        pieces[i] = bite_arena_alloc(arena, size, 1);
        ck_assert_ptr_nonnull(pieces[i]);
        ck_assert_uint_eq((uintptr_t)pieces[i] % alignof(max_align_t), 0);
        ck_assert(is_all(pieces[i], size, 0));
        memset(pieces[i], (int)(1 + i % 250), size);
    }
    for (size_t i = 0; i < ROUNDS * PIECES; i++) {
        ck_assert(is_all(pieces[i], sizes[i % PIECES], (unsigned char)(1 + i % 250)));
    }
    bite_arena_free(arena);
    arena = bite_arena_new(&allocator);
    ck_assert_ptr_nonnull(bite_arena_alloc(arena, 8, 1));
    size_t calls = memory.calls;
    ck_assert_ptr_nonnull(bite_arena_alloc(arena, 100000, 1));
    ck_assert_ptr_nonnull(bite_arena_alloc(arena, 8, 1)); /* from the first block still */
    ck_assert_uint_eq(memory.calls, calls + 1);
    bite_arena_free(arena);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

static bite_status fill_an_arena(void *with, bite_error *error)
{
    bite_arena *arena = bite_arena_new(with);
    const char *text = arena == NULL ? NULL : bite_arena_text(arena, "6061-T6 plate", 7);
    bool good = text != NULL && bite_arena_alloc(arena, 20000, 1) != NULL;
    if (good) {
        ck_assert_str_eq(text, "6061-T6");
    }
    bite_arena_free(arena);
    return good ? BITE_OK : bite_error_set(error, BITE_NO_MEMORY, "no memory for an arena");
}

/* What comes after is served again, so that only the arena knows of the piece that is lacking. */
START_TEST(an_arena_remembers_that_a_piece_was_lacking)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_arena *arena = bite_arena_new(&allocator);
    ck_assert_ptr_nonnull(bite_arena_alloc(arena, 100, 1));
    ck_assert(!bite_arena_failed(arena));
    memory.alone = 1;
    memory.fail_at = memory.calls + 1;
    ck_assert_ptr_null(bite_arena_alloc(arena, 20000, 1));
    ck_assert_ptr_nonnull(bite_arena_alloc(arena, 20000, 1));
    ck_assert(bite_arena_failed(arena));
    bite_arena_free(arena);
    arena = bite_arena_new(&allocator);
    ck_assert_ptr_null(bite_arena_alloc(arena, SIZE_MAX, SIZE_MAX));
    ck_assert(bite_arena_failed(arena));
    bite_arena_free(arena);
    arena = bite_arena_new(&allocator);
    ck_assert_ptr_null(bite_arena_text(arena, "", SIZE_MAX));
    ck_assert(bite_arena_failed(arena));
    bite_arena_free(arena);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

START_TEST(an_allocator_that_fails_leaves_nothing)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_test_fail_allocations(&memory, 100, 3, fill_an_arena, &allocator);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("memory");
    TCase *tests = tcase_create("memory");
    tcase_add_test(tests, a_size_that_overflows_is_refused);
    tcase_add_test(tests, nothing_takes_a_byte_and_can_be_freed);
    tcase_add_test(tests, what_grows_keeps_its_content);
    tcase_add_test(tests, pieces_of_an_arena_are_zeroed_and_apart);
    tcase_add_test(tests, an_arena_remembers_that_a_piece_was_lacking);
    tcase_add_test(tests, an_allocator_that_fails_leaves_nothing);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
