/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The caller who watches a long call, and may stop it. */
#include "core/base/watch.h"
#include "core/base/error.h"

void bite_watch_start(bite_watch *watch, bite_progress report, void *user)
{
    watch->report = report;
    watch->user = user;
    watch->done = watch->total = 0;
    watch->stopped = 0;
    if (report != NULL && pthread_mutex_init(&watch->mutex, NULL) != 0) {
        watch->report = NULL;
    }
}

void bite_watch_expect(bite_watch *watch, uint64_t units)
{
    if (watch != NULL && watch->report != NULL) {
        (void)pthread_mutex_lock(&watch->mutex);
        watch->total += units;
        (void)pthread_mutex_unlock(&watch->mutex);
    }
}

int bite_watch_step(bite_watch *watch, uint64_t units)
{
    int stopped = 0;
    if (watch != NULL && watch->report != NULL) {
        (void)pthread_mutex_lock(&watch->mutex);
        watch->done += units;
        if (!watch->stopped) {
            watch->stopped = watch->report(watch->user, watch->done, watch->total) != 0;
        }
        stopped = watch->stopped;
        (void)pthread_mutex_unlock(&watch->mutex);
    }
    return stopped;
}

bite_status bite_watch_end(bite_watch *watch, bite_status status, bite_error *error)
{
    if (watch->report == NULL) {
        return status;
    }
    if (status == BITE_OK && watch->done < watch->total) {
        (void)watch->report(watch->user, watch->total, watch->total);
    }
    int stopped = watch->stopped && status != BITE_OK;
    (void)pthread_mutex_destroy(&watch->mutex);
    watch->report = NULL;
    return stopped ? bite_error_set(error, BITE_STOPPED, "stopped as the caller asked") : status;
}
