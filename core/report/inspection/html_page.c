/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What several sections of an inspection report share. */
#include "core/report/inspection/html_page.h"
#include <string.h>

void bite_inspection_sheet(bite_inspection_page *html, const char *title, const char *id)
{
    const struct bite_record *record = html->inspection->record;
    bite_page *page = &html->page;
    html->sheet++;
    bite_html_put(page, "<section class=\"sheet\" aria-labelledby=\"%s\">\n<div class=\"head\">",
                  id);
    bite_html_put(page, html->sheet == 1 ? "<h1 id=\"%s\">%s</h1><p>" : "<h2 id=\"%s\">%s</h2><p>",
                  id, title);
    bite_html_put(page, "%s %s%s%s</p></div>\n", record->part_number, record->part_name,
                  record->report_number[0] == 0 ? "" : ", report ", record->report_number);
}

static const char *file_of(const char *path)
{
    const char *slash = path == NULL ? NULL : strrchr(path, '/');
    return path == NULL ? "" : slash == NULL ? path : slash + 1;
}

void bite_inspection_sheet_end(bite_inspection_page *html)
{
    bite_page *page = &html->page;
    bite_html_put(page, "<p class=\"foot\">Section %s of %s. coolbite %s",
                  bite_html_count((double)html->sheet).text,
                  bite_html_count((double)html->sheets).text, bite_version());
    const char *file = file_of(html->inspection->record->path);
    bite_html_put(page, file[0] == 0 ? ".</p>\n</section>\n" : ", record %s.</p>\n</section>\n",
                  file);
}

void bite_inspection_columns(bite_inspection_page *html, const char *const *columns)
{
    bite_page_text(&html->page, "<thead><tr>");
    for (size_t i = 0; columns[i] != NULL; i++) {
        int numbers = columns[i][0] == '#';
        bite_html_put(&html->page,
                      numbers ? "<th scope=\"col\" class=\"n\">%s</th>"
                              : "<th scope=\"col\">%s</th>",
                      columns[i] + numbers);
    }
    bite_page_text(&html->page, "</tr></thead>\n<tbody>\n");
}

void bite_inspection_finding(bite_inspection_page *html, uint32_t finding)
{
    static const char *const looks[BITE_FINDING_COUNT] = {"open", "good", "part", "between", "bad"};
    const char *look = finding < BITE_FINDING_COUNT ? looks[finding] : looks[BITE_FINDING_NONE];
    bite_html_put(&html->page, "<strong class=\"finding %s\">%s</strong>", look,
                  bite_finding_word(finding));
}

bite_size_form bite_inspection_form(const bite_inspection_page *html, size_t characteristic)
{
    return bite_size_form_of(&html->inspection->record->characteristics[characteristic],
                             html->inspection->characteristics[characteristic].uncertainty,
                             html->page.units);
}
