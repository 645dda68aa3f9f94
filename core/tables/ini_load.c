/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * iniparser on bytes that were checked. Its memory is the C library's, and it does not look at
 * every failure of it: what it missed is found by errno, and by memory that is set aside before.
 */
#include "core/tables/ini_load.h"
#include "core/base/error.h"
#include "core/base/private_file.h"
#include <errno.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

/* iniparser has one error callback for the whole process and cannot be asked which. Ours is set
 * once. After the check only two messages are left, that memory or descriptors ran out: within our
 * own loads they come back as a bite_error; for any other user of iniparser they go to stderr, as
 * they do by default. */
static pthread_once_t callback_once = PTHREAD_ONCE_INIT;
static pthread_mutex_t one_load = PTHREAD_MUTEX_INITIALIZER;
static atomic_uintptr_t loading_thread; /* under the lock; 0: none */

BITE_FORMAT(1, 2)
static int hear(const char *format, ...)
{
    int written = 0;
    if (atomic_load(&loading_thread) != (uintptr_t)pthread_self()) {
        va_list list;
        va_start(list, format);
        written = vfprintf(stderr, format, list);
        va_end(list);
    }
    return written;
}

static void set_callback(void)
{
    iniparser_set_error_callback(hear);
}

void bite_ini_set_callback(void)
{
    (void)pthread_once(&callback_once, set_callback);
}

/*
 * Whether the memory for a dictionary is there. iniparser's dictionary_new does not look whether it
 * got its three arrays (in 4.1; later ones look at the wrong member), and would crash. So as much
 * as the load can take is allocated and given back at once: then the C library has it at hand. A
 * stream and its buffer; the arrays, 20 bytes an entry, for up to twice as many entries, old and
 * new ones while they grow; and for each entry two texts and what an allocator puts around them.
 */
static bool memory_is_there(const bite_ini_index *index)
{
    size_t bytes = 16384 + index->count * (60 + 2 * 32);
    for (size_t i = 0; i < index->count; i++) {
        const bite_ini_entry *entry = &index->entries[i];
        bytes += strlen(entry->section) + (entry->key == NULL ? 0 : strlen(entry->key));
        bytes += index->spans[i].length + 3;
    }
    void *volatile reserve = malloc(bytes); /* volatile: must not be left out as unused */
    free(reserve);
    return reserve != NULL;
}

#ifdef HAVE_INIPARSER_LOAD_FILE
/* From memory: newer ones read a stream. */
static bite_status load(const bite_ini_index *index, dictionary **read, bite_error *error)
{
    FILE *stream = fmemopen(index->passed, index->passed_size, "r");
    if (stream == NULL) {
        return bite_error_set(error, errno == ENOMEM ? BITE_NO_MEMORY : BITE_IO,
                              "the bytes cannot be given to the INI reader");
    }
    *read = iniparser_load_file(stream, "table");
    (void)fclose(stream);
    return BITE_OK;
}
#else
/* By path: older ones know nothing else. */
static bite_status load(const bite_ini_index *index, dictionary **read, bite_error *error)
{
    bite_private_file copy;
    bite_status status =
        bite_private_file_make(index->passed, index->passed_size, BITE_PRIVATE_ALL, &copy, error);
    if (status == BITE_OK) {
        errno = 0; /* a way that is closed here is not a failure */
        *read = iniparser_load(copy.path);
        int number = errno;
        bite_private_file_remove(&copy);
        errno = number;
    }
    return status;
}
#endif

static bite_status load_alone(const bite_ini_index *index, dictionary **read, bite_error *error)
{
    char reason[96] = "";
    errno = 0;
    bite_status status = load(index, read, error);
    if (status == BITE_OK && errno == ENOMEM) {
        status = bite_error_set(error, BITE_NO_MEMORY, "no memory to read a table");
    } else if (status == BITE_OK && *read == NULL) {
        const char *why = bite_error_reason(errno, reason, sizeof reason);
        status = bite_error_set(error, BITE_IO, "the INI reader cannot open its copy: %s", why);
    }
    if (status != BITE_OK) {
        bite_ini_unload(*read);
        *read = NULL;
    }
    return status;
}

bite_status bite_ini_load(const bite_ini_index *index, dictionary **read, bite_error *error)
{
    *read = NULL;
    bite_ini_set_callback();
    (void)pthread_mutex_lock(&one_load);
    atomic_store(&loading_thread, (uintptr_t)pthread_self());
    bite_status status = memory_is_there(index)
                             ? load_alone(index, read, error)
                             : bite_error_set(error, BITE_NO_MEMORY, "no memory to read a table");
    atomic_store(&loading_thread, 0);
    (void)pthread_mutex_unlock(&one_load);
    return status;
}

void bite_ini_unload(dictionary *read)
{
    if (read == NULL) {
        return;
    }
    if (read->val != NULL && read->key != NULL && read->hash != NULL) {
        iniparser_freedict(read);
        return;
    }
    free(read->val); /* made without memory: iniparser's own function would not survive it */
    free(read->key);
    free(read->hash);
    free(read);
}
