/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of an inspection report. */
#ifndef BITE_REPORT_INSPECTION_HTML_TABLES_H
#define BITE_REPORT_INSPECTION_HTML_TABLES_H

#include "core/report/inspection/html_page.h"

/** Characteristics with their requirement, instrument and finding. */
void bite_inspection_plan_table(bite_inspection_page *html);
/** Their means, spreads, chances and risks; and what is said of the process. */
void bite_inspection_statistics_table(bite_inspection_page *html);
void bite_inspection_capability_table(bite_inspection_page *html);
void bite_inspection_gauge_tables(bite_inspection_page *html);
/** Each part with its finding. */
void bite_inspection_parts_table(bite_inspection_page *html);
/** All readings: those that stand, then those that do not. */
void bite_inspection_readings_table(bite_inspection_page *html, size_t characteristic);
void bite_inspection_closed_table(bite_inspection_page *html);
/** Instruments, and how well they read. */
void bite_inspection_instruments_table(bite_inspection_page *html);

#endif
