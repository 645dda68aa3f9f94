/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the machine: spindle speed, feed rate, power and torque. */
#ifndef BITE_CUT_LIMITS_MACHINE_H
#define BITE_CUT_LIMITS_MACHINE_H

#include "core/cut/limit_fill.h"

bite_limit_fill bite_limit_spindle_fast;
bite_limit_fill bite_limit_spindle_slow;
bite_limit_fill bite_limit_feed_fast;
bite_limit_fill bite_limit_power;
bite_limit_fill bite_limit_torque;

#endif
