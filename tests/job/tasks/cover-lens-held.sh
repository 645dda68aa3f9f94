# SPDX-License-Identifier: GPL-3.0-or-later
# A thin acrylic part is cut free on tape and glue: will the hold keep it?
ask job "$source/tables/jobs/cover-lens.ini" --format json
exits 0
holds 'the hold keeps the part' 'd["hold"]["utilization"] < 0.5 and d["hold"]["chance"] < 0.1'
