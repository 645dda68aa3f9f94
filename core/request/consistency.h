/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the inputs of a request can be true together. */
#ifndef BITE_REQUEST_CONSISTENCY_H
#define BITE_REQUEST_CONSISTENCY_H

#include "core/request/request.h"

/** BITE_OUT_OF_RANGE: two inputs of the request exclude each other, or one has no effect in this
 * operation. cut: as requested, with its tables, before defaults. */
bite_status bite_request_check_consistency(const bite_request *request, const bite_cut *cut,
                                           bite_error *error);

/** 1: the input has an effect in that operation (a bite_operation). */
int bite_input_affects(const bite_input *input, uint32_t operation);

#endif
