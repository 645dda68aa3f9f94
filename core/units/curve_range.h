/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The temperatures at which a property curve may have a point. */
#ifndef BITE_UNITS_CURVE_RANGE_H
#define BITE_UNITS_CURVE_RANGE_H

/* One range for curves from a table, a plugin or a caller; also stated at bite_curve. */
#define BITE_CURVE_COLDEST 50.0   /* K */
#define BITE_CURVE_HOTTEST 3500.0 /* K */

#endif
