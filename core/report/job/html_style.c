/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The style of a job's sheet: system fonts, dark on white, no meaning in colour alone; screen
 * first, then paper. */
#include "core/report/job/html_style.h"
#include <stddef.h>

/* In pieces, because compilers may limit the length of a text. */
const char *const bite_job_html_style[] = {
    "@page{margin:9mm 11mm}\n",
    "*{box-sizing:border-box}\n",
    "html{background:#e9e9e6;-webkit-text-size-adjust:100%}\n",
    "body{margin:0;color:#111;font:15px/1.38 \"Helvetica Neue\",Helvetica,Arial,\"Liberat"
    "ion Sans\",\"Segoe UI\",Roboto,system-ui,sans-serif;font-variant-numeric:tabular-num"
    "s}\n",
    ".sheet{background:#fff;max-width:236mm;margin:6mm auto;padding:9mm 10mm;border:1px s"
    "olid #bbb}\n",
    "h1,.again{font-size:1.45em;line-height:1.15;margin:0;font-weight:700;overflow-wrap:a"
    "nywhere;min-width:0}\n",
    ".again{font-size:1.1em}\n",
    "h2{font-size:1.45em;line-height:1.15;margin:0;flex:none}\n",
    "h3{font-size:1.05em;margin:1em 0 .3em;padding-bottom:.1em;border-bottom:2px solid #1"
    "11;break-after:avoid;overflow-wrap:anywhere}\n",
    "p{margin:.4em 0}\n",
    ".head{display:flex;justify-content:space-between;align-items:baseline;gap:6mm;border"
    "-bottom:3px solid #111;padding-bottom:.3em}\n",
    ".facts{display:flex;flex-wrap:wrap;gap:.15em 1.6em;margin:.5em 0;padding:0}\n",
    ".facts div{display:flex;gap:.4em;min-width:0}\n",
    ".facts dt{color:#444}\n",
    ".facts dd{margin:0;font-weight:600;overflow-wrap:anywhere}\n",
    ".facts .fill{display:inline-block;min-width:22mm;border-bottom:1px solid #111}\n",
    ".two .warnings{margin-top:1em}.sign{margin-top:1.2em;gap:.8em 1.6em;break-inside:avoid}\n",
    ".judged{display:flex;gap:.7em;align-items:center;margin:.6em 0}\n",
    ".judged>.verdict-word{font-size:1.4em}\n",
    ".judged p{margin:0}\n",
    ".verdict-word{display:inline-block;padding:.05em .45em;border:2px solid #111;white-s"
    "pace:nowrap;letter-spacing:.03em}\n",
    ".clear{border-style:solid;border-width:1px}\n",
    ".tight{border-style:dashed}\n",
    ".open{border-style:dotted}\n",
    ".over{background:#111;color:#fff;-webkit-print-color-adjust:exact;print-color-adjust"
    ":exact}\n",
    ".warnings{margin:1em 0;padding:.1em .8em .4em;border:1.5px solid #111;border-left-wi"
    "dth:10px;overflow-wrap:anywhere}\n",
    ".warnings h3{border:0;margin:.3em 0 .1em}\n",
    ".warnings ul{list-style:none;margin:0;padding:0}\n",
    ".warnings li{margin:.3em 0;break-inside:avoid}\n",
    "table{border-collapse:collapse;width:100%;overflow-wrap:break-word}\n",
    ".what,.fluids td,.remarks,.checks tbody th{overflow-wrap:anywhere}\n",
    ".fluids th,.fluids td:nth-child(2),.fluids td:nth-child(3){overflow-wrap:normal;whit"
    "e-space:nowrap}\n",
    "th,td{text-align:left;vertical-align:top;padding:.25em .45em;border-bottom:1px solid"
    " #999;font-weight:400}\n",
    "thead th{font-size:.8em;color:#333;vertical-align:bottom;border-bottom:1.5px solid #"
    "111;line-height:1.2;overflow-wrap:normal}\n",
    "tr{break-inside:avoid}\n",
    "tbody th{font-weight:600}\n",
    "td b{font-weight:600}\n",
    "small{display:block;font-size:.8em;color:#333;font-weight:400;line-height:1.25}\n",
    ".remarks small,td small.more{display:inline}\n",
    ".q{white-space:nowrap}\n",
    "@media print,(min-width:701px){.passes{table-layout:fixed}.passes .place{width:5%}"
    ".passes .what{width:21%}.passes .tool{width:14.5%}.passes .enter{width:12%}"
    ".passes .enter:nth-child(5){width:15%}.passes .enter:nth-child(6){width:13.5%}"
    ".passes .enter:nth-child(7){width:11%}.passes .time{width:8%}}\n",
    ".passes .pass{break-inside:avoid}\n",
    ".passes .pass tr:first-child>*{border-bottom:0;padding-bottom:0}\n",
    ".passes .pass tr:last-child>*{padding-top:.1em;border-bottom:1px solid #111}\n",
    ".passes .place{font-size:1.3em;font-weight:700;line-height:1.1}\n",
    ".passes th.place{font-size:.8em}\n",
    ".passes .what{font-size:1.05em}\n",
    ".passes thead .what{font-size:.8em}\n",
    ".passes .enter b{font-size:1.25em;font-weight:700}\n",
    ".passes .tool b{font-size:1.15em}\n",
    ".passes .tool small{overflow-wrap:anywhere}\n",
    ".passes .more{font-size:.84em;line-height:1.35;color:#222;overflow-wrap:anywhere}\n",
    ".passes .more .verdict-word{padding:0 .35em;border-width:1px;font-size:.95em}\n",
    ".two{display:grid;grid-template-columns:minmax(0,11fr) minmax(0,9fr);gap:0 7mm}\n",
    ".even{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}\n",
    ".box{display:inline-block;flex:none;width:1.05em;height:1.05em;border:1.5px solid #1"
    "11;background:#fff}\n",
    ".tools small{display:inline}td.tick{width:1.8em}\n",
    ".ticks{list-style:none;margin:0;padding:0}\n",
    ".ticks li{display:flex;gap:.55em;margin:.3em 0;break-inside:avoid;overflow-wrap:anyw"
    "here}\n",
    ".ticks .box{margin-top:.13em}\n",
    ".small-table th,.small-table td{padding:.15em .45em}\n",
    ".ratings th{width:9.5em}\n",
    ".ratings .verdict-word{font-size:1.15em;min-width:4em;text-align:center}\n",
    ".ratings td{overflow-wrap:anywhere}\n",
    ".readings{padding:.2em 0 .2em .45em}\n",
    ".reading{display:inline-block;width:3.7em;height:2em;border:1px solid #111;margin:0 "
    "0 -1px -1px;padding:0 .2em;font-size:.8em;color:#555}\n",
    ".reading:only-child{width:100%}\n",
    ".remarks{margin:0;padding:0;list-style:none}\n",
    ".remarks li{margin:.35em 0;break-inside:avoid;overflow-wrap:anywhere}\n",
    ".about{color:#333}\n",
    ".source{color:#444}\n",
    ".small{font-size:.8em;color:#333}\n",
    ".bar{width:17%;min-width:3em}\n",
    ".bar svg{display:block;overflow:visible;width:100%;height:.85em;margin-top:.25em}\n",
    "td.share{white-space:nowrap}\n",
    ".bar-whole{fill:none;stroke:#111;stroke-width:.4}\n",
    ".bar-share{fill:#444}\n",
    ".foot{margin:1em 0 0;padding-top:.3em;border-top:1px solid #999;font-size:.75em;colo"
    "r:#444;overflow-wrap:anywhere}\n",
    ".patterns{position:absolute}\n",
    "svg.drawing{display:block;width:100%;height:auto;max-width:500px;overflow:visible}\n",
    ".drawing text{font-size:13px;fill:#111}\n",
    ".drawing .middle{text-anchor:middle}\n",
    ".drawing .end{text-anchor:end}\n",
    ".drawing rect{stroke:#111;stroke-width:1;fill:#fff}\n",
    ".drawing rect.part{fill:#e4e4e4;stroke-width:1.6}\n",
    ".drawing rect.off{fill:url(#p-off);stroke-dasharray:4 2}\n",
    ".drawing rect.tape{fill:#bdbdbd}\n",
    ".drawing rect.glue{fill:#333}\n",
    ".drawing rect.fixture{fill:url(#p-hatch)}\n",
    ".drawing rect.waste{fill:url(#p-waste)}\n",
    ".drawing rect.kerf{fill:#fff}\n",
    ".drawing rect.hollow{fill:#fff}\n",
    ".drawing rect.to-come{fill:none;stroke-dasharray:3 3}\n",
    ".drawing rect.sheet-box{fill:url(#p-waste);stroke-width:1.6}\n",
    ".drawing line{stroke:#111;stroke-width:1}\n",
    ".drawing line.lead{stroke-width:.7}\n",
    ".drawing line.mark-line{stroke-width:1.6;stroke-dasharray:6 3}\n",
    ".picture svg{display:block;width:100%;height:auto}\n",
    "@media screen{.wide{overflow-x:auto}}\n",
    "@media screen and (max-width:960px){.sheet{margin:3mm;padding:6mm 5mm}.passes .enter "
    "b{font-size:1.1em}}\n",
    "@media screen and (max-width:700px){.two{display:block}.sheet{margin:0;padding:4mm;b"
    "order:0}.head{flex-wrap:wrap}h2{flex:initial}.judged{flex-wrap:wrap}.passes,.passes "
    "tbody,.passes tr{display:block}.passes thead{position:absolute;left:-9999px}.passes "
    ".pass{padding:.5em 0;border-bottom:2px solid #111}.passes .pass tr>*,.passes .pass t"
    "r:last-child>*{display:block;width:auto;border:0;padding:.12em 0}.passes .pass tr:fi"
    "rst-child{display:grid;grid-template-columns:2.2em minmax(0,1fr)}.passes .pass tr:fi"
    "rst-child>td:nth-child(n+3){grid-column:2;display:flex;gap:.5em;align-items:baseline"
    ";flex-wrap:wrap}.passes td[data-name]::before{content:attr(data-name);min-width:4.5e"
    "m;color:#444;font-size:.9em}.passes .pass tr:last-child>td:first-child{display:none}"
    ".q{white-space:normal}.wide "
    "table{font-size:.88em}.wide th,.wide td{padding:.2em .25em}}\n",
    "@media print{html{background:#fff}body{font-size:10pt;line-height:1.25}th,td{paddi"
    "ng:.2em .4em}.facts{gap:.1em 1.2em;margin:.3em 0}.judged{margin:.35em 0}.sheet{max-w"
    "idth:none;margin:0;padding:0;border:0;break-after:page}.sheet:last-child{break-after"
    ":auto}.wide{overflow:visible}h3{margin:.5em 0 .15em}p{margin:.25em 0}.warnings{margin"
    ":.6em 0;font-size:.93em}.foot{margin-top:.5em}.small{margin:0}.remarks li{margin:.16em "
    "0}.ticks li{m"
    "argin:.2em 0}svg.drawing,.small-table,.judged,.picture,.ratings tr,.checks tr{break-"
    "inside:avoid}.picture{width:70%}.even{font-size:.86em;line-height:1.2}.even .ticks"
    " li{margin:.1em 0}.even svg.drawing{width:72%}.passes "
    ".more{font-size:.8em;line-height:1.28}}\n",
    NULL,
};
