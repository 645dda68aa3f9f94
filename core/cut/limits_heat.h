/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part's temperature: softening and crazing. */
#ifndef BITE_CUT_LIMITS_HEAT_H
#define BITE_CUT_LIMITS_HEAT_H

#include "core/cut/limit_fill.h"

bite_limit_fill bite_limit_softening;
bite_limit_fill bite_limit_craze;

bite_limit_omit bite_limit_softening_omit;
bite_limit_omit bite_limit_craze_omit;

#endif
