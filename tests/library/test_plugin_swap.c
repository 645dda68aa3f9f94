/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Another user replaces folders or links on the path to a plugin while root opens it, many times:
 * code of that user must never run. Skipped unless run by root, because only root can become
 * another user. BITE_SWAP_TRIES is the number of tries. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "tests/support/test_tables.h"
#include <fcntl.h>
#include <grp.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>
#ifdef HAVE_SYS_PRCTL_H
#include <sys/prctl.h>
#endif

#define NOBODY 65534
#define SKIPPED 77 /* the exit status that automake counts as skipped */
#define TRIES_USUAL 80
#define PATH_ROOM 700

/* The outcome of opening the library in a child process. */
enum outcome { OPENED = 10, REFUSED = 11, NO_PLUGIN = 12, OTHERWISE = 13 };

/* The folders above the folder of plugins, and what the other user replaces there. */
static const struct scene {
    const char *name;
    mode_t mode; /* of the parent folder */
    uid_t owner;
    gid_t group;
    int link;          /* the folder is reached through a link that belongs to the other user */
    enum outcome last; /* the outcome of every open */
} scenes[] = {
    {"the parent is the other user's", 0755, NOBODY, 0, 0, REFUSED},
    {"the parent is writable by the other user's group", 0775, 0, NOBODY, 0, REFUSED},
    {"the parent is writable by everyone", 0777, 0, 0, 0, REFUSED},
    {"a link of the other user's, in a sticky folder", 01777, 0, 0, 1, REFUSED},
    {"the parent is sticky, and the folder root's", 01777, 0, 0, 0, OPENED},
};
#define SCENES ((int)(sizeof scenes / sizeof *scenes))

static bite_test_shop shop;
static char parent[PATH_ROOM - 20];
static char good[PATH_ROOM];  /* the plugin that root opens */
static char other[PATH_ROOM]; /* the plugin of the other user */
static char mark[PATH_ROOM];  /* grows by a byte with every run of the other user's code */

static void put_plugin(const char *built, const char *folder, uid_t owner)
{
    char path[PATH_ROOM + 20];
    bite_test_shop_put(&shop, built, "carried");
    (void)snprintf(path, sizeof path, "%s/carried.so", shop.families);
    char to[PATH_ROOM + 20];
    (void)snprintf(to, sizeof to, "%s/acrylic.so", folder);
    ck_assert_int_eq(rename(path, to), 0);
    ck_assert_int_eq(chown(to, owner, (gid_t)owner), 0);
}

static void make_folder(const char *path, mode_t mode, uid_t owner, gid_t group)
{
    ck_assert_int_eq(mkdir(path, 0700), 0);
    ck_assert_int_eq(chown(path, owner, group), 0);
    ck_assert_int_eq(chmod(path, mode), 0);
}

/* One table instead of all, which would be read at every try. */
static void leave_one_table(void)
{
    char from[PATH_ROOM];
    char to[PATH_ROOM];
    (void)snprintf(to, sizeof to, "%s/few", shop.root);
    make_folder(to, 0755, 0, 0);
    (void)snprintf(to, sizeof to, "%s/few/materials", shop.root);
    make_folder(to, 0755, 0, 0);
    (void)snprintf(from, sizeof from, "%s/materials/acrylic.ini", shop.tables);
    (void)snprintf(to, sizeof to, "%s/few/materials/acrylic.ini", shop.root);
    ck_assert_int_eq(rename(from, to), 0);
    (void)snprintf(shop.tables, sizeof shop.tables, "%s/few", shop.root);
}

static void set_scene(const struct scene *scene)
{
    char real[2][PATH_ROOM];
    bite_test_shop_make(&shop);
    leave_one_table();
    ck_assert_int_eq(chmod(shop.root, 0755), 0);
    (void)snprintf(parent, sizeof parent, "%s/parent", shop.root);
    (void)snprintf(good, sizeof good, "%s/families", parent);
    (void)snprintf(other, sizeof other, "%s/others", parent);
    (void)snprintf(mark, sizeof mark, "%s/mark", shop.root);
    (void)snprintf(real[0], sizeof real[0], "%s/%s", parent, scene->link ? "real" : "families");
    (void)snprintf(real[1], sizeof real[1], "%s/%s", parent, scene->link ? "foreign" : "others");
    make_folder(parent, 0755, 0, 0);
    make_folder(real[0], 0755, 0, 0);
    make_folder(real[1], 0755, NOBODY, NOBODY);
    put_plugin("plugins/.libs/acrylic.so", real[0], 0);
    put_plugin("tests/plugins/.libs/marked.so", real[1], NOBODY);
    if (scene->link) {
        ck_assert_int_eq(symlink(real[0], good), 0);
        ck_assert_int_eq(symlink(real[1], other), 0);
        ck_assert_int_eq(lchown(good, NOBODY, NOBODY), 0);
        ck_assert_int_eq(lchown(other, NOBODY, NOBODY), 0);
    }
    ck_assert_int_eq(chown(parent, scene->owner, scene->group), 0);
    ck_assert_int_eq(chmod(parent, scene->mode), 0);
    bite_test_write(mark, "", 0);
    ck_assert_int_eq(chmod(mark, 0666), 0);
    ck_assert_int_eq(setenv("BITE_TEST_MARK", mark, 1), 0);
}

/* In one atomic step if the system supports it, so that there is always a folder. */
static void exchange(void)
{
#ifdef RENAME_EXCHANGE
    (void)renameat2(AT_FDCWD, good, AT_FDCWD, other, RENAME_EXCHANGE);
#else
    char aside[PATH_ROOM];
    (void)snprintf(aside, sizeof aside, "%s/aside", parent);
    (void)(rename(good, aside) == 0 && rename(other, good) == 0 && rename(aside, other) == 0);
#endif
}

/* The other user, in a child process: exchanges the two until it is killed. */
static pid_t start_attack(void)
{
    pid_t attack = fork();
    if (attack == 0) {
        const struct timespec pause = {0, 20000};
        if (setgroups(0, NULL) != 0 || setgid(NOBODY) != 0 || setuid(NOBODY) != 0) {
            _exit(1);
        }
#ifdef HAVE_SYS_PRCTL_H
        (void)prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
        for (;;) {
            exchange();
            (void)nanosleep(&pause, NULL);
        }
    }
    ck_assert_int_gt(attack, 0);
    return attack;
}

/* Whether the plugin of the family was left out; others of the project's tables need theirs, which
 * are not here. */
static int is_left_out(const bite_library *library, const char *name)
{
    bite_item item;
    for (size_t i = 0; i < bite_library_count(library, BITE_LEFT_OUT); i++) {
        if (bite_library_item(library, BITE_LEFT_OUT, i, &item, NULL) == BITE_OK &&
            strcmp(item.name, name) == 0) {
            return 1;
        }
    }
    return 0;
}

static int open_grade(void)
{
    bite_library_options options = {sizeof options, NULL, good, shop.tables};
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_request *request = NULL;
    if (bite_library_open(&options, &library, &error) != BITE_OK ||
        bite_request_new(library, &request, &error) != BITE_OK) {
        return OTHERWISE;
    }
    bite_status status = bite_request_use(request, BITE_GRADES, "acrylic/cast", &error);
    bite_request_free(request);
    if (status != BITE_OK) {
        return OTHERWISE;
    }
    return is_left_out(library, "acrylic") ? REFUSED : OPENED; /* refused: the table works alone */
}

static int try_once(void)
{
    int status = 0;
    pid_t worker = fork();
    if (worker == 0) {
        _exit(open_grade());
    }
    ck_assert_int_gt(worker, 0);
    ck_assert_int_eq(waitpid(worker, &status, 0), worker);
    return WIFEXITED(status) ? WEXITSTATUS(status) : OTHERWISE;
}

static long tries(void)
{
    const char *wished = getenv("BITE_SWAP_TRIES");
    long count = wished == NULL ? TRIES_USUAL : strtol(wished, NULL, 10);
    return count > 0 ? count : TRIES_USUAL;
}

START_TEST(no_foreign_code_runs)
{
    const struct scene *scene = &scenes[_i];
    long counts[OTHERWISE + 1] = {0};
    struct stat about;
    set_scene(scene);
    pid_t attack = start_attack();
    for (long i = 0; i < tries(); i++) {
        counts[try_once()]++;
    }
    int ended = 0;
    ck_assert_int_eq(waitpid(attack, &ended, WNOHANG),
                     0); /* the attack was running until the end */
    ck_assert_int_eq(kill(attack, SIGKILL), 0);
    ck_assert_int_eq(waitpid(attack, &ended, 0), attack);
    ck_assert_int_eq(stat(mark, &about), 0);
    (void)printf("%s: %ld tries, %ld opened, %ld refused, foreign code ran %ld times\n",
                 scene->name, tries(), counts[OPENED], counts[REFUSED], (long)about.st_size);
    (void)fflush(stdout);
    bite_test_remove(shop.root);
    ck_assert_int_eq(about.st_size, 0);
    ck_assert_int_eq(counts[scene->last], tries());
}
END_TEST

int main(void)
{
    if (geteuid() != 0) {
        (void)puts("only root can become another user: skipped");
        return SKIPPED;
    }
    Suite *suite = suite_create("plugin swap");
    TCase *tests = tcase_create("plugin swap");
    tcase_add_loop_test(tests, no_foreign_code_runs, 0, SCENES);
    tcase_set_timeout(tests, 600);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
