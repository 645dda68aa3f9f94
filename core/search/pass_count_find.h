/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes a feature is cut in, by the limits with their margins. */
#ifndef BITE_SEARCH_PASS_COUNT_FIND_H
#define BITE_SEARCH_PASS_COUNT_FIND_H

#include "core/search/pass_counts.h"

/** Finds the numbers of passes and leaves the counts there. */
bite_pass_counts_found bite_pass_counts_find(const bite_search *search, bite_pass_counts *counts);

/** Tries few numbers only, each larger by about a half; used to compare tools. */
bite_pass_counts_found bite_pass_counts_quick(const bite_search *search, bite_pass_counts *counts);

/** As bite_pass_counts_quick; over the depth alone it then searches between the last number that
 * exceeds a limit and the first that does not: the fewest passes, if more passes lower every
 * utilization. */
bite_pass_counts_found bite_pass_counts_close_in(const bite_search *search,
                                                 bite_pass_counts *counts);

/** About a quarter more passes in total, divided so that the worst utilization is lowest. 0: there
 * are none. */
int bite_pass_counts_more(const bite_search *search, bite_pass_counts *counts);

#endif
