/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the tool: surface speed, breakage, gross deflection, reach, chatter and wear. */
#ifndef BITE_CUT_LIMITS_TOOL_H
#define BITE_CUT_LIMITS_TOOL_H

#include "core/cut/limit_fill.h"

bite_limit_fill bite_limit_edge_speed;
bite_limit_fill bite_limit_tool_break;
bite_limit_fill bite_limit_tool_gross_bend;
bite_limit_fill bite_limit_reach;
bite_limit_fill bite_limit_chatter;
bite_limit_fill bite_limit_chatter_tool;
bite_limit_fill bite_limit_feed_tooth;
bite_limit_fill bite_limit_wear;

bite_limit_omit bite_limit_chatter_tool_omit;
bite_limit_omit bite_limit_wear_omit;
/** A limit that applies only if no tolerance was requested: the tolerance itself is the limit. */
bite_limit_omit bite_limit_toleranced_omit;

#endif
