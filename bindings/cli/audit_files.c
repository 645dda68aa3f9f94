/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the tables and plugins below a folder. */
#include "bindings/cli/audit_files.h"
#include <dirent.h>
#include <errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define DEPTH_MOST 16
#define FILES_MOST 100000

static int add_path(struct audit_files *files, char *path)
{
    if (files->count == files->capacity) {
        size_t capacity = files->capacity == 0 ? 64 : 2 * files->capacity;
        char **more = capacity > FILES_MOST ? NULL : realloc(files->paths, capacity * sizeof *more);
        if (more == NULL) {
            free(path);
            return ENOMEM;
        }
        files->paths = more;
        files->capacity = capacity;
    }
    files->paths[files->count++] = path;
    return 0;
}

static bool ends_in(const char *name, const char *ending)
{
    size_t length = strlen(name);
    size_t end = strlen(ending);
    return length > end && strcmp(name + length - end, ending) == 0;
}

static char *join(const char *folder, const char *name)
{
    size_t length = strlen(folder);
    size_t size = length + strlen(name) + 2;
    char *path = malloc(size);
    if (path != NULL) {
        (void)snprintf(path, size, "%s%s%s", folder,
                       length > 0 && folder[length - 1] == '/' ? "" : "/", name);
    }
    return path;
}

static int find_in(struct audit_files *files, const char *folder, int depth, char **bad);

static int take_entry(struct audit_files *files, const char *folder, const char *name, int depth,
                      char **bad)
{
    struct stat about;
    char *path = name[0] == '.' ? NULL : join(folder, name);
    if (path == NULL) {
        return name[0] == '.' ? 0 : ENOMEM;
    }
    bool known = lstat(path, &about) == 0;
    if (known && S_ISDIR(about.st_mode)) {
        int status = depth < DEPTH_MOST ? find_in(files, path, depth + 1, bad) : 0;
        free(path);
        return status;
    }
    if (ends_in(name, ".ini") || ends_in(name, ".so")) {
        return add_path(files, path);
    }
    free(path);
    return 0;
}

static int find_in(struct audit_files *files, const char *folder, int depth, char **bad)
{
    DIR *open = opendir(folder);
    int status = 0;
    if (open == NULL) {
        status = errno;
        *bad = strdup(folder);
        return status;
    }
    struct dirent *entry = NULL;
    do { /* readdir tells a fault from the end by errno alone */
        errno = 0;
        entry = readdir(open);
        if (entry != NULL) {
            status = take_entry(files, folder, entry->d_name, depth, bad);
        } else if (errno != 0) {
            status = errno;
            *bad = strdup(folder);
        }
    } while (status == 0 && entry != NULL);
    (void)closedir(open);
    return status;
}

static int by_bytes(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

int audit_files_find(struct audit_files *files, const char *path, char **bad)
{
    struct stat about;
    int status = 0;
    *bad = NULL;
    if (stat(path, &about) != 0) {
        status = errno;
        *bad = strdup(path);
        return status;
    }
    if (S_ISDIR(about.st_mode)) {
        status = find_in(files, path, 0, bad);
    } else {
        char *copy = strdup(path);
        status = copy == NULL ? ENOMEM : add_path(files, copy);
    }
    if (status == 0 && files->count > 1) {
        qsort(files->paths, files->count, sizeof *files->paths, by_bytes);
    }
    return status;
}

void audit_files_free(struct audit_files *files)
{
    for (size_t i = 0; i < files->count; i++) {
        free(files->paths[i]);
    }
    free(files->paths);
    memset(files, 0, sizeof *files);
}
