/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools of the closed forms, of a cut with its defaults filled. */
#ifndef BITE_TESTS_ORACLE_CUT_TOOLS_H
#define BITE_TESTS_ORACLE_CUT_TOOLS_H

#include "tests/oracle/closed_forms/chamfer_mill.h"
#include "tests/oracle/closed_forms/corner_radius_mill.h"

/** The smallest chip that forms, h_min, m. */
double bite_cut_least_chip(const bite_cut *cut);

bite_corner_tool bite_cut_corner_tool(const bite_cut *cut);
bite_chamfer_tool bite_cut_chamfer_tool(const bite_cut *cut);

#endif
