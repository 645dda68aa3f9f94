/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Eight threads use one library, which reads a table or opens a plugin when something in it is
 * first asked for, and one set of handles: each answer is that of a thread alone. Meant for tools
 * that find races, too; BITE_TEST_ROUNDS=20 uses as many new libraries. */
#include "tests/api/example_request.h"
#include "tests/api/shared_questions.h"
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#define THREADS 8
#define QUESTIONS_MOST 40

typedef struct script {
    const bite_shared_question *questions;
    size_t count;
    char *alone[QUESTIONS_MOST]; /* the answers of a thread alone */
} script;

/* A thread. It reports instead of failing: an assertion leaves the thread of the test. */
typedef struct reader {
    pthread_t thread;
    pthread_barrier_t *start;
    const bite_shared_handles *handles;
    const script *asked;
    size_t first; /* question; then those after it, and those before it */
    bite_test_paper *page;
    size_t answers;
    size_t wrong; /* 1 + the question that was answered otherwise than alone; 0: none */
} reader;

static bite_status answer_question(const bite_shared_handles *of, const bite_shared_question *what,
                                   bite_test_paper *page)
{
    bite_error error = BITE_ERROR_INIT;
    bite_test_paper_start(page, 0);
    bite_status status = what->ask(of, what, page, &error);
    (void)bite_test_paper_take(page, error.message, strlen(error.message));
    (void)bite_test_paper_take(page, error.hint, strlen(error.hint));
    return status;
}

static void *read_all(void *argument)
{
    reader *me = argument;
    const script *asked = me->asked;
    (void)pthread_barrier_wait(me->start);
    for (size_t i = 0; i < asked->count; i++) {
        size_t at = (me->first + i) % asked->count;
        bite_status status = answer_question(me->handles, &asked->questions[at], me->page);
        me->answers++;
        if ((status != asked->questions[at].expected ||
             strcmp(me->page->text, asked->alone[at]) != 0) &&
            me->wrong == 0) {
            me->wrong = at + 1;
        }
    }
    return NULL;
}

static void answer_alone(const bite_shared_handles *of, script *asked)
{
    bite_test_paper *page = malloc(sizeof *page);
    ck_assert_ptr_nonnull(page);
    for (size_t i = 0; i < asked->count; i++) {
        bite_status status = answer_question(of, &asked->questions[i], page);
        ck_assert_msg(status == asked->questions[i].expected, "question %zu: %s: %s", i,
                      bite_status_name(status), page->text);
        ck_assert_uint_gt(page->size, 5);
        asked->alone[i] = strdup(page->text);
        ck_assert_ptr_nonnull(asked->alone[i]);
    }
    free(page);
}

static void forget_answers(script *asked)
{
    for (size_t i = 0; i < asked->count; i++) {
        free(asked->alone[i]);
    }
}

/* step: 0: all threads begin with the same question; otherwise each with one so much further. */
static void answer_together(const bite_shared_handles *of, const script *asked, size_t first,
                            size_t step)
{
    static reader readers[THREADS];
    pthread_barrier_t start;
    ck_assert_int_eq(pthread_barrier_init(&start, NULL, THREADS), 0);
    for (size_t i = 0; i < THREADS; i++) {
        reader fresh = {.start = &start, .handles = of, .asked = asked};
        readers[i] = fresh;
        readers[i].first = (first + i * step) % asked->count;
        readers[i].page = malloc(sizeof *readers[i].page);
        ck_assert_ptr_nonnull(readers[i].page);
        ck_assert_int_eq(pthread_create(&readers[i].thread, NULL, read_all, &readers[i]), 0);
    }
    for (size_t i = 0; i < THREADS; i++) {
        ck_assert_int_eq(pthread_join(readers[i].thread, NULL), 0);
        free(readers[i].page);
    }
    (void)pthread_barrier_destroy(&start);
    for (size_t i = 0; i < THREADS; i++) {
        ck_assert_msg(readers[i].wrong == 0, "question %zu, thread %zu", readers[i].wrong - 1, i);
        ck_assert_uint_eq(readers[i].answers, asked->count);
    }
}

static size_t rounds(size_t usual)
{
    const char *text = getenv("BITE_TEST_ROUNDS");
    return text == NULL ? usual : strtoul(text, NULL, 10);
}

/* Nothing was read when the threads begin: in one round all ask for the same thing first, in the
 * next one each for another. */
START_TEST(a_new_library_is_read_by_eight)
{
    script asked = {bite_questions_of_library, bite_questions_of_library_count, {NULL}};
    size_t count = rounds(2);
    ck_assert_uint_gt(count, 0);
    for (size_t round = 0; round <= count; round++) {
        bite_library *fresh = bite_test_shop_open(&bite_example_shop, NULL);
        bite_shared_handles of = {.library = fresh};
        if (round == 0) {
            answer_alone(&of, &asked);
        } else {
            answer_together(&of, &asked, round * 7, round % 2 == 0 ? 0 : 3);
        }
        bite_library_close(fresh);
    }
    forget_answers(&asked);
}
END_TEST

START_TEST(handles_are_read_by_eight)
{
    script asked = {bite_questions_of_handles, bite_questions_of_handles_count, {NULL}};
    bite_shared_handles of = bite_shared_handles_make();
    answer_alone(&of, &asked);
    for (size_t round = 0; round < rounds(1); round++) {
        answer_together(&of, &asked, round * 5, round % 2 == 0 ? 0 : 3);
    }
    forget_answers(&asked);
    bite_shared_handles_free(&of);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("shared_library");
    TCase *tests = tcase_create("all");
    tcase_set_timeout(tests, 600);
    tcase_add_unchecked_fixture(tests, bite_example_open, bite_example_close);
    tcase_add_test(tests, a_new_library_is_read_by_eight);
    tcase_add_test(tests, handles_are_read_by_eight);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
