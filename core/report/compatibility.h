/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fluids on materials, as parts of the pages of a fluid and of a material. */
#ifndef BITE_REPORT_COMPATIBILITY_H
#define BITE_REPORT_COMPATIBILITY_H

#include "core/library/material_record.h"
#include "core/report/text_page.h"
#include <jansson.h>

/** Of a material: which fluids are refused, a risk and safe, one line each. */
bite_status bite_material_fluids_text(bite_page *page, const bite_library *library,
                                      const bite_material *material, bite_error *error);

/** The same as an object with the lists no, risk, safe and unknown, of names. *fluids: NULL: no
 * memory, which is returned. */
bite_status bite_material_fluids_json(const bite_library *library, const bite_material *material,
                                      json_t **fluids, bite_error *error);

#endif
