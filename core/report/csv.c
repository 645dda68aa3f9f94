/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of CSV by RFC 4180. */
#include "core/report/csv.h"
#include <string.h>

void bite_csv_field(bite_page *page, int first, const char *text)
{
    bite_page_text(page, first ? "" : ",");
    if (strpbrk(text, ",\"\r\n") == NULL) {
        bite_page_text(page, text);
        return;
    }
    bite_page_text(page, "\"");
    for (const char *at = text; *at != 0;) {
        size_t length = strcspn(at, "\"");
        bite_writer_part(&page->writer, at, length);
        at += length;
        if (*at == '"') {
            bite_page_text(page, "\"\"");
            at++;
        }
    }
    bite_page_text(page, "\"");
}

void bite_csv_end(bite_page *page)
{
    bite_page_text(page, "\r\n");
}
