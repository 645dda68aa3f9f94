/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job, shown. */
#ifndef BITE_SHEET_JOB_H
#define BITE_SHEET_JOB_H

#include "core/job/plan.h"

bite_status bite_job_text(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_job_json(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_job_html(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error);

#endif
