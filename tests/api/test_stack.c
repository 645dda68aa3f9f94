/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A host may call from a thread with a stack of 256 KiB, and gets the answers of any other. */
#include "tests/support/test_cuts.h"
#include "tests/support/test_tables.h"
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#define SMALL_STACK ((size_t)256 << 10)
#define DRAWS 64
#define DRAWS_OF_JOB 16

static bite_test_shop shop;

static void make_shop(void)
{
    bite_test_shop_make(&shop);
}

static void remove_shop(void)
{
    bite_test_remove(shop.root);
}

typedef struct written {
    char *text;
    size_t size;
} written;

static int gather(void *user, const char *text, size_t size)
{
    written *to = user;
    char *grown = realloc(to->text, to->size + size + 1);
    if (grown == NULL) {
        return -1;
    }
    memcpy(grown + to->size, text, size);
    to->text = grown;
    to->size += size;
    grown[to->size] = 0;
    return 0;
}

static bite_style json(void)
{
    bite_style style = {0};
    style.struct_size = (uint32_t)sizeof style;
    style.format = BITE_JSON;
    return style;
}

static bite_status set_all(bite_request *request, const char *const (*typed)[2], size_t count)
{
    bite_status status = bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL);
    status = status != BITE_OK ? status : bite_request_use(request, BITE_TOOLS, "0.8mm", NULL);
    for (size_t i = 0; i < count && status == BITE_OK; i++) {
        status = bite_request_set(request, typed[i][0], typed[i][1], NULL);
    }
    return status;
}

/* A cut by its best estimates (draws: BITE_DRAWS_NONE) or with draws. */
static bite_status cut(const bite_library *library, size_t draws, written *to)
{
    static const char *const typed[][2] = {
        {"spindle_speed", "12000rpm"}, {"feed_rate", "200mm/min"}, {"depth", "0.8mm"}};
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_style style = json();
    bite_status status = bite_request_new(library, &request, NULL);
    status = status != BITE_OK ? status : set_all(request, typed, 3);
    status = status != BITE_OK ? status : bite_answer_new(request, draws, 0.95, &answer, NULL);
    status = status != BITE_OK ? status : bite_answer_write(answer, &style, gather, to, NULL);
    bite_answer_free(answer);
    bite_request_free(request);
    return status;
}

static bite_status choice(const bite_library *library, uint32_t goal, written *to)
{
    static const char *const typed[][2] = {{"feature_depth", "0.9mm"}, {"feature_width", "6mm"}};
    static const char *const tools[] = {"0.8mm", "2mm"};
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = goal;
    options.tools = tools;
    options.tool_count = 2;
    options.draws = DRAWS;
    options.confidence = 0.95;
    bite_request *request = NULL;
    bite_choice *made = NULL;
    bite_style style = json();
    bite_status status = bite_request_new(library, &request, NULL);
    status = status != BITE_OK ? status : set_all(request, typed, 2);
    status = status != BITE_OK ? status : bite_choice_new(request, &options, &made, NULL);
    status = status != BITE_OK ? status : bite_choice_write(made, &style, gather, to, NULL);
    bite_choice_free(made);
    bite_request_free(request);
    return status;
}

static bite_status job(const bite_library *library, written *to)
{
    char path[700];
    bite_job_options options;
    bite_job_options_init(&options);
    options.threads = 1;
    options.draws = DRAWS_OF_JOB;
    options.confidence = 0.95;
    bite_job *made = NULL;
    bite_style style = json();
    bite_test_source(path, sizeof path, "tables/jobs/cover-lens.ini");
    bite_status status = bite_job_open(library, path, &options, NULL, NULL, &made, NULL);
    status = status != BITE_OK ? status : bite_job_write(made, &style, gather, to, NULL);
    bite_job_free(made);
    return status;
}

typedef struct answers {
    bite_status status;
    bite_result pass;
    written text;
} answers;

/* All of it, with the flat pass and the tables that a library reads. */
static void *answer_all(void *work)
{
    answers *all = work;
    bite_library *library = NULL;
    bite_library_options options = {sizeof options, NULL, shop.families, shop.tables};
    bite_cut flat = bite_test_acrylic();
    all->pass.struct_size = (uint32_t)sizeof all->pass;
    all->status = bite_cut_pass(&flat, &all->pass, NULL);
    all->status =
        all->status != BITE_OK ? all->status : bite_library_open(&options, &library, NULL);
    all->status = all->status != BITE_OK ? all->status : cut(library, BITE_DRAWS_NONE, &all->text);
    all->status = all->status != BITE_OK ? all->status : cut(library, DRAWS, &all->text);
    all->status =
        all->status != BITE_OK ? all->status : choice(library, BITE_GOAL_FAST, &all->text);
    all->status =
        all->status != BITE_OK ? all->status : choice(library, BITE_GOAL_COOL, &all->text);
    all->status = all->status != BITE_OK ? all->status : job(library, &all->text);
    bite_library_close(library);
    return NULL;
}

START_TEST(a_small_stack_gives_the_same_answers)
{
    answers usual = {0};
    answers small = {0};
    pthread_attr_t attributes;
    pthread_t thread;
    (void)answer_all(&usual);
    ck_assert_msg(usual.status == BITE_OK, "%s", bite_status_name(usual.status));
    ck_assert_int_eq(pthread_attr_init(&attributes), 0);
    ck_assert_int_eq(pthread_attr_setstacksize(&attributes, SMALL_STACK), 0);
    ck_assert_int_eq(pthread_create(&thread, &attributes, answer_all, &small), 0);
    ck_assert_int_eq(pthread_join(thread, NULL), 0);
    ck_assert_int_eq(pthread_attr_destroy(&attributes), 0);
    ck_assert_msg(small.status == BITE_OK, "%s", bite_status_name(small.status));
    ck_assert_mem_eq(&usual.pass, &small.pass, sizeof usual.pass);
    ck_assert_uint_gt(usual.text.size, 5000);
    ck_assert_str_eq(usual.text.text, small.text.text);
    free(usual.text.text);
    free(small.text.text);
}
END_TEST

int main(void)
{
    if (BITE_TEST_SANITIZE[0] != 0) {
        return 77; /* sanitizers need more stack */
    }
    Suite *suite = suite_create("stack");
    TCase *tests = tcase_create("all");
    tcase_set_timeout(tests, 120);
    tcase_add_unchecked_fixture(tests, make_shop, remove_shop);
    tcase_add_test(tests, a_small_stack_gives_the_same_answers);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
